package model

import (
	"fmt"
	"strings"

	"heartside/layout/geom"
	"heartside/model/say"
)

func (c *checker) board(b *Board) {
	at := RuleError{Board: b.ID}
	c.id(at, b.ID)
	if strings.TrimSpace(b.Species) == "" {
		c.fail(RuleError{Rule: RuleSpecies, Board: b.ID, Detail: say.T("it has no species")})
	}
	c.size(at, "length", b.Length)
	c.size(at, "width", b.Width)
	c.size(at, "thickness", b.Thickness)
	if !within(b.Moisture, 0, 60) {
		c.fail(RuleError{Rule: RuleMoisture, Board: b.ID, Detail: say.F("a moisture content of %g per cent cannot be", b.Moisture)})
	}
	if p := b.Price; p != nil {
		if !within(p.Amount, 0, 1e9) || !oneOf(p.Per, "board-foot", "cubic-foot", "cubic-metre", "board") {
			c.fail(RuleError{Rule: RulePrice, Board: b.ID, Where: "price", Detail: say.F("%g per %q cannot be", p.Amount, p.Per)})
		}
	}
	c.word(at, "bark", string(b.Bark), "", string(BarkFace1), string(BarkFace2), string(BarkNone))
	c.word(at, "planes", string(b.Planes), "", string(PlanesFromMarked), string(PlanesToMarked), string(PlanesMixed))
	c.word(at, "edges", string(b.Edges), "", string(EdgesWaney), string(EdgesMeasured))
	c.word(at, "wanted", string(b.Wanted), "", string(WantHeart), string(WantSap), string(WantBoth))
	if b.Log != nil && (strings.TrimSpace(b.Log.Name) == "" || b.Log.Order < 0) {
		c.fail(RuleError{Rule: RuleWord, Board: b.ID, Where: "log", Detail: say.T("a log has a name, and cuts are counted from 0")})
	}
	for _, v := range []struct {
		name string
		mm   float64
	}{{"cup", b.Shape.Cup}, {"bow", b.Shape.Bow}, {"crook", b.Shape.Crook}, {"twist", b.Shape.Twist}} {
		if !within(v.mm, -maxSize, maxSize) {
			c.fail(RuleError{Rule: RulePlace, Board: b.ID, Where: "shape, " + v.name, Detail: say.F("%g mm cannot be", v.mm)})
		}
	}
	c.pith(b)
	if !within(b.Heart, 0, mostRadius) {
		c.fail(RuleError{Rule: RulePlace, Board: b.ID, Where: "heart-radius", Detail: say.F("heartwood has a radius of 0 (not known) to %d mm, not %g", mostRadius, b.Heart)})
	}
	for i := range b.Faces {
		c.face(b, i)
	}
	c.cut(b)
	for i, e := range b.Ends {
		if e.Corners != nil && !goodCorners(*e.Corners) && !goodCorners(turnedBack(*e.Corners)) {
			c.fail(RuleError{Rule: RuleCorners, Board: b.ID, Where: fmt.Sprintf("end %c, corners", 'a'+i), Detail: say.T("the corners are not those of an end seen in the picture")})
		}
	}
}

// turnedBack is the same figure seen from behind.
func turnedBack(q [4]geom.Point) [4]geom.Point { return [4]geom.Point{q[3], q[2], q[1], q[0]} }

// pith checks the numbers of the pith and that it agrees with the bark side:
// a pith nearer face 1 than face 2 makes face 1 the heart side.
func (c *checker) pith(b *Board) {
	for i, p := range b.Pith {
		at := RuleError{Board: b.ID, Where: "pith"}
		if len(b.Pith) > 1 {
			at.Where = fmt.Sprintf("pith, place %d", i+1)
		}
		if !within(p.Across, -maxSize, maxSize) || !within(p.Depth, -maxSize, maxSize) ||
			p.HasX && !within(p.X, -maxSize, maxSize) {
			at.Rule, at.Detail = RulePlace, say.T("it does not lie near the board")
			c.fail(at)
			continue
		}
		if len(b.Pith) > 1 && !p.HasX {
			at.Rule, at.Detail = RuleMissing, say.T("several places of the pith need an x each")
			c.fail(at)
		}
		heart := 0
		switch mid := b.Thickness / 2; {
		case p.Depth < mid:
			heart = 1
		case p.Depth > mid:
			heart = 2
		}
		if bark := string(b.Bark); heart != 0 && bark == fmt.Sprint(heart) {
			at.Rule = RuleBarkPith
			at.Detail = say.F("bark side and pith disagree: the pith, %g mm below face 1, makes face %d the heart side, and face %d is called the bark side",
				p.Depth, heart, heart)
			c.fail(at)
		}
	}
}

func (c *checker) face(b *Board, i int) {
	f := &b.Faces[i]
	at := RuleError{Board: b.ID, Where: fmt.Sprintf("face %d", i+1)}
	c.word(at, say.F("%s, base", at.Where), string(f.Base), "", string(Heart), string(Sap), string(Flaw), string(Unseen))
	if f.Corners != nil && !goodCorners(*f.Corners) {
		e := at
		e.Rule, e.Where, e.Detail = RuleCorners, say.F("%s, corners", at.Where), say.T("the corners are not those of a face seen in the picture")
		c.fail(e)
	}
	c.photograph(b, i)
	board := geom.Rect{Max: geom.Pt(b.Length, b.Width)}
	if len(f.Outline) > 0 {
		e := at
		e.Where += say.T(", outline")
		c.onFace(e, f.Outline, board)
	}
	for k, z := range f.Zones {
		e := at
		e.Where = fmt.Sprintf("face %d, zone %d", i+1, k+1)
		c.word(e, e.Where, string(z.Kind), string(Heart), string(Sap), string(Flaw), string(Unseen))
		c.onFace(e, z.Polygon, board)
	}
	c.grain(at, f.Grain, board)
}

// onFace checks a polygon of a face and that some of it lies on the board.
func (c *checker) onFace(at RuleError, p geom.Polygon, board geom.Rect) {
	if !c.polygon(at, p) || board.Empty() {
		return
	}
	if clippedArea(p, board) < minArea {
		at.Rule, at.Detail = RuleOutsideFace, say.T("it lies entirely beside the board")
		c.fail(at)
	}
}

// goodCorners reports whether four pixels run anticlockwise as seen, rows
// counted downwards, and make a convex figure as every picture of a rectangle
// does.
func goodCorners(q [4]geom.Point) bool {
	for i, p := range q {
		a, b := q[(i+1)%4], q[(i+2)%4]
		if !within(p.X, -1e6, 1e6) || !within(p.Y, -1e6, 1e6) || a.Sub(p).Cross(b.Sub(a)) >= 0 {
			return false
		}
	}
	return true
}

// word checks that v is one of the words allowed.
func (c *checker) word(at RuleError, name, v string, allowed ...string) {
	if oneOf(v, allowed...) {
		return
	}
	if allowed[0] == "" {
		allowed = allowed[1:]
	}
	at.Rule, at.Where = RuleWord, name
	at.Detail = say.F("%q is not one of %s", v, strings.Join(allowed, ", "))
	c.fail(at)
}

func oneOf(v string, allowed ...string) bool {
	for _, a := range allowed {
		if v == a {
			return true
		}
	}
	return false
}
