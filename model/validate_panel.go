package model

import (
	"fmt"

	"heartside/layout/geom"
)

func (c *checker) panel(n *Panel) {
	at := RuleError{Panel: n.ID}
	c.id(at, n.ID)
	c.size(at, "length", n.Length)
	c.size(at, "width", n.Width)
	c.size(at, "thickness", n.Thickness)
	c.word(at, "role", string(n.Role), "", string(RoleTop), string(RoleSide), string(RoleDoor),
		string(RoleDrawerFront), string(RoleShelf), string(RoleOther))
	c.word(at, "shape", string(n.Shape), "", string(Rectangle), string(Ellipse), string(Poly))
	c.word(at, "look", string(n.Look), "", string(AsLaid), string(HeartOnly), string(SapOut), string(SapIn),
		string(SapToSap), string(EvenMix))
	c.word(at, "rings", string(n.Rings), "", string(RingsAlternate), string(RingsBarkUp), string(RingsHeartUp))
	c.word(at, "wanted", string(n.Wanted), "", string(WantHeart), string(WantSap), string(WantBoth))
	c.share(RuleError{Panel: n.ID, Where: "unwanted-limit, face"}, n.UnwantedLimit[0])
	c.share(RuleError{Panel: n.ID, Where: "unwanted-limit, back"}, n.UnwantedLimit[1])
	face := geom.Rect{Max: geom.Pt(n.Length, n.Width)}
	if n.Shape == Poly || len(n.Points) > 0 {
		c.onFace(RuleError{Panel: n.ID, Where: "points"}, n.Points, face)
	}
	for i, h := range n.Hidden {
		c.polygon(RuleError{Panel: n.ID, Where: fmt.Sprintf("hidden region %d", i+1)}, h)
	}
	c.strips(n.ID, "", n.Strips)
}

// strips checks a list of strips that share their ids.
func (c *checker) strips(panel, where string, list []Strip) {
	seen := make(map[string]bool, len(list))
	for i := range list {
		s := &list[i]
		at := RuleError{Panel: panel, Strip: s.ID, Where: where}
		c.id(at, s.ID)
		if seen[s.ID] {
			at.Rule, at.Detail = RuleDuplicateID, "two strips have this id"
			c.fail(at)
		}
		seen[s.ID] = true
		c.strip(at, s)
	}
}

func (c *checker) strip(at RuleError, s *Strip) {
	fail := func(r Rule, board, format string, args ...any) {
		e := at
		e.Rule, e.Board, e.Detail = r, board, fmt.Sprintf(format, args...)
		c.fail(e)
	}
	at.Rule, at.Detail = "", ""
	c.size(at, "length", s.L)
	c.size(at, "width", s.W)
	if s.Up != 1 && s.Up != 2 {
		fail(RuleUp, s.Board, "face %d cannot show", s.Up)
	}
	if !within(s.Shift, -maxSize, maxSize) || !within(s.X, -maxSize, maxSize) || !within(s.Y, -maxSize, maxSize) {
		fail(RulePlace, s.Board, "it lies at (%g, %g) with a shift of %g mm", s.X, s.Y, s.Shift)
	}
	if !(s.Angle > -90 && s.Angle <= 90) {
		fail(RuleAngle, s.Board, "an angle of %g degrees cannot be", s.Angle)
	}
	c.word(at, joinWhere(at.Where, "stage"), string(s.Stage), "", string(Planned), string(Sawn), string(Planed), string(Jointed), string(Glued))
	if s.Board == "" {
		if s.Stage.cut() || s.Off != nil || s.Planed != nil {
			fail(RuleEmptyPlace, "", "it has no board and cannot have been worked")
		}
		return
	}
	b := c.boards[s.Board]
	if b == nil {
		fail(RuleUnknownBoard, s.Board, "the strip is to come from a board that does not exist")
		return
	}
	if o := s.Off; o != nil {
		if !within(o[0], 0, maxSize) || !within(o[1], 0, maxSize) || o[0]+o[1] >= b.Thickness {
			fail(RuleStockOff, s.Board, "%g and %g mm off a board %g mm thick leave nothing", o[0], o[1], b.Thickness)
		}
	}
	if m := s.Planed; m != nil {
		if m.Face != 0 && m.Face != 1 && m.Face != 2 {
			fail(RuleFace, s.Board, "sap was measured on face %d", m.Face)
		}
		for _, t := range []Tape{m.Near, m.Far} {
			for _, w := range t {
				if !within(w, 0, s.W) {
					fail(RuleTape, s.Board, "a sap width of %g mm does not fit a strip %g mm wide", w, s.W)
				}
			}
		}
	}
}

func joinWhere(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}
