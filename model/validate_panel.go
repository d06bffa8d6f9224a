package model

import (
	"fmt"

	"heartside/layout/geom"
	"heartside/model/say"
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
	c.fitting(n)
	c.strips(n.ID, "", n.Strips)
}

// fitting checks how a panel is built in and how its edges are worked.
func (c *checker) fitting(n *Panel) {
	at := RuleError{Panel: n.ID, Where: "fitting"}
	if f := n.Fitting; f != nil {
		c.word(at, "held", string(f.Held), "", string(HeldSlots), string(HeldGroove), string(HeldBreadboard))
		c.word(at, "line", string(f.Line), "", string(LineFront), string(LineBack))
		at.Rule = RuleFitting
		for _, y := range f.Rows {
			if !within(y, 0, n.Width) {
				at.Detail = say.F("a row %g mm from the front edge misses a panel %g mm wide", y, n.Width)
				c.fail(at)
			}
		}
		if !within(f.Groove, 0, 50) {
			at.Detail = say.F("a groove %g mm deep cannot be", f.Groove)
			c.fail(at)
		}
	}
	for i, name := range [4]string{"front", "back", "left", "right"} {
		at, p := RuleError{Panel: n.ID, Where: "profiles, " + name}, n.Profiles[i]
		c.word(at, "kind", string(p.Kind), "", string(ProfileBevel), string(ProfileRound))
		room := n.Width / 2
		if i > 1 {
			room = n.Length / 2
		}
		if p.Kind == ProfileSquare && p != (Profile{}) || p.Kind != ProfileSquare &&
			!(p.Across > 0 && p.Across < room && p.Down > 0 && p.Down < n.Thickness) {
			at.Rule, at.Detail = RuleProfile, say.F("%g mm across and %g mm down cannot be worked here", p.Across, p.Down)
			c.fail(at)
		}
	}
}

// strips checks a list of strips that share their ids.
func (c *checker) strips(panel, where string, list []Strip) {
	seen := make(map[string]bool, len(list))
	for i := range list {
		s := &list[i]
		at := RuleError{Panel: panel, Strip: s.ID, Where: where}
		c.id(at, s.ID)
		if seen[s.ID] {
			at.Rule, at.Detail = RuleDuplicateID, say.T("two strips have this id")
			c.fail(at)
		}
		seen[s.ID] = true
		c.strip(at, s)
	}
}

func (c *checker) strip(at RuleError, s *Strip) {
	fail := func(r Rule, board, detail string) {
		e := at
		e.Rule, e.Board, e.Detail = r, board, detail
		c.fail(e)
	}
	at.Rule, at.Detail = "", ""
	c.size(at, "length", s.L)
	c.size(at, "width", s.W)
	if s.Up != 1 && s.Up != 2 {
		fail(RuleUp, s.Board, say.F("face %d cannot show", s.Up))
	}
	if !within(s.Shift, -maxSize, maxSize) || !within(s.X, -maxSize, maxSize) || !within(s.Y, -maxSize, maxSize) {
		fail(RulePlace, s.Board, say.F("it lies at (%g, %g) with a shift of %g mm", s.X, s.Y, s.Shift))
	}
	if !(s.Angle > -90 && s.Angle <= 90) {
		fail(RuleAngle, s.Board, say.F("an angle of %g degrees cannot be", s.Angle))
	}
	c.word(at, joinWhere(at.Where, "stage"), string(s.Stage), "", string(Planned), string(Sawn), string(Planed), string(Jointed), string(Glued))
	if s.Board == "" {
		if s.Stage.cut() || s.Off != nil || s.Planed != nil {
			fail(RuleEmptyPlace, "", say.T("it has no board and cannot have been worked"))
		}
		return
	}
	b := c.boards[s.Board]
	if b == nil {
		fail(RuleUnknownBoard, s.Board, say.T("the strip is to come from a board that does not exist"))
		return
	}
	if o := s.Off; o != nil {
		if !within(o[0], 0, maxSize) || !within(o[1], 0, maxSize) || o[0]+o[1] >= b.Thickness {
			fail(RuleStockOff, s.Board, say.F("%g and %g mm off a board %g mm thick leave nothing", o[0], o[1], b.Thickness))
		}
	}
	if m := s.Planed; m != nil {
		if m.Face != 0 && m.Face != 1 && m.Face != 2 {
			fail(RuleFace, s.Board, say.F("sap was measured on face %d", m.Face))
		}
		for _, t := range []Tape{m.Near, m.Far} {
			for _, w := range t {
				if !within(w, 0, s.W) {
					fail(RuleTape, s.Board, say.F("a sap width of %g mm does not fit a strip %g mm wide", w, s.W))
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
