package match

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

func three() []Front {
	return []Front{{"d1", 400, 150}, {"d2", 500, 150}, {"d3", 400, 150}}
}

// Gaps of 4 and a kerf of 3: 1 mm of waste a cut, the fronts at 20, 424 and
// 928, the row 400 + 500 + 400 + 2 x 4 = 1308 long and with 20 at both ends
// 1348.
func TestRowSkipsTheGap(t *testing.T) {
	r, err := Row(plank("A", 1400, 180), three(), RowOptions{Gap: 4, Kerf: 3, Ends: 20, Edges: 5, Up: 1})
	if err != nil || !r.Enough() {
		t.Fatalf("%+v, %v", r, err)
	}
	for i, x := range [3]float64{20, 424, 928} {
		s := r.Strips[i]
		if s.ID != three()[i].ID || math.Abs(s.X-x) > 1e-9 || s.Y != 5 || s.Up != 1 || s.Turned {
			t.Errorf("front %d: %+v", i, s)
		}
	}
	if p := r.Partings[0]; p != (Parting{Gap: 4, Skip: 4, Lost: 3, Waste: 1}) {
		t.Errorf("parting %+v", p)
	}
	near(t, "need", r.Need, 1348, 1e-9)
	near(t, "need across", r.NeedAcross, 160, 1e-9)
	near(t, "jump", r.Jump, 0, 0)
}

// A gap of 2 under a kerf of 3 and 0.5 of trimming on both sides: 4 lost, so
// the picture jumps by 2 at each of the two gaps. Forgotten kerfs make the
// last one short: 1300 + 2 x 4 and 0.5 at both ends is 1309, not 1305.
func TestRowKerfOverGap(t *testing.T) {
	o := RowOptions{Gap: 2, Kerf: 3, Trim: 0.5, Up: 1}
	r, err := Row(plank("A", 1309, 151), three(), o)
	if err != nil || !r.Enough() {
		t.Fatalf("%+v, %v", r, err)
	}
	if p := r.Partings[1]; p != (Parting{Gap: 2, Skip: 4, Lost: 4, Jump: 2}) {
		t.Errorf("parting %+v", p)
	}
	near(t, "jump", r.Jump, 4, 1e-9)
	near(t, "last", r.Strips[2].X+r.Strips[2].L, 1308.5, 1e-9)
	r, err = Row(plank("A", 1308, 151), three(), o)
	if err != nil || r.Enough() {
		t.Fatalf("a board 1 mm short: %+v, %v", r, err)
	}
	near(t, "need", r.Need, 1309, 1e-9)
	if r, _ = Row(plank("A", 2000, 150), three(), o); r.Enough() {
		t.Error("a board 1 mm narrow is enough")
	}
	// The gaps need not be alike.
	o.Gaps = []float64{2, 10}
	if r, _ = Row(plank("A", 1400, 160), three(), o); r.Jump != 2 || r.Partings[1].Waste != 6 {
		t.Errorf("gaps 2 and 10: %+v", r.Partings)
	}
}

// As seen, the first front is at the left. Turned, the marked end is at the
// right: the first front is the one farthest from it. With face 2 up the lower
// edge as seen is the board's other edge.
func TestRowAsItLies(t *testing.T) {
	fronts := []Front{{"d1", 400, 150}, {"d2", 500, 140}}
	r, _ := Row(plank("A", 1000, 180), fronts, RowOptions{Gap: 4, Kerf: 3, Up: 2, Turned: true})
	if len(r.Strips) != 2 {
		t.Fatal("no row")
	}
	// It keeps to the marked end: d2 from 0 to 500, d1 from 504. Face 2 turned
	// has the marked edge at the bottom again.
	for i, w := range [2]geom.Point{{X: 504}, {}} {
		if s := r.Strips[i]; math.Abs(s.X-w.X) > 1e-9 || math.Abs(s.Y-w.Y) > 1e-9 {
			t.Errorf("front %d at %g, %g, want %v", i, s.X, s.Y, w)
		}
	}
	// Unturned, face 2 has the marked edge on top: the row lies against it, and
	// the narrower front stands on the same lower line, 10 from it.
	r, _ = Row(plank("A", 1000, 180), fronts, RowOptions{Gap: 4, Kerf: 3, Up: 2})
	for i, w := range [2]geom.Point{{}, {X: 404, Y: 10}} {
		if s := r.Strips[i]; math.Abs(s.X-w.X) > 1e-9 || math.Abs(s.Y-w.Y) > 1e-9 {
			t.Errorf("front %d at %g, %g, want %v", i, s.X, s.Y, w)
		}
	}
	// One above another on face 1: the first is the lowest.
	r, _ = Row(plank("A", 600, 400), fronts, RowOptions{Across: true, Gap: 4, Kerf: 3, Up: 1})
	if len(r.Strips) != 2 || r.Strips[0].Y != 0 || r.Strips[1].Y != 154 || r.Strips[1].X != 0 {
		t.Errorf("across: %+v", r.Strips)
	}
	near(t, "need", r.Need, 150+4+140, 1e-9)
	near(t, "have", r.Have, 400, 0)
}

// The fronts lie at 0, 404 and 908 from where the row begins, which is at 0 to
// 100: over 410 to 440 there is always one of them.
func TestRowAvoidsFlaws(t *testing.T) {
	knot := func(x0, y0, x1, y1 float64, f int) *face.Board {
		b := plank("A", 1408, 180)
		b.Faces[f-1].Zones = []face.Zone{{Kind: face.Flaw, Polygon: geom.R(x0, y0, x1, y1).Polygon()}}
		return b
	}
	o := RowOptions{Gap: 4, Kerf: 3, Up: 1}
	r, _ := Row(knot(410, 0, 440, 180, 1), three(), o)
	if len(r.Strips) == 0 || len(r.Flaws) == 0 {
		t.Fatalf("a knot 30 wide over the whole width cannot lie in a gap of 4: %+v", r)
	}
	// One of 3 mm can: from 440 to 443 it lies in the first gap, 400 to 404 of
	// the row, where that begins at 39 to 40.
	r, _ = Row(knot(440, 0, 443, 180, 1), three(), o)
	if len(r.Flaws) != 0 || r.Strips[0].X < 39-1e-9 || r.Strips[0].X > 40+1e-9 {
		t.Errorf("thin flaw: x %g, flaws %+v", r.Strips[0].X, r.Flaws)
	}
	// A knot at the marked edge is passed across: 150 of 180, with 20 of knot.
	r, _ = Row(knot(410, 0, 440, 20, 1), three(), o)
	if len(r.Flaws) != 0 || r.Strips[0].Y != 20 {
		t.Errorf("knot at the edge: y %g, flaws %+v", r.Strips[0].Y, r.Flaws)
	}
	// Clear of it by 5, and on the back as on the show face. Face 2 has it from
	// y 160 to 180, which is the marked edge.
	o.Clear = 5
	r, _ = Row(knot(410, 160, 440, 180, 2), three(), o)
	if len(r.Flaws) != 0 || r.Strips[0].Y != 25 {
		t.Errorf("knot on the back: y %g, flaws %+v", r.Strips[0].Y, r.Flaws)
	}
	// Where the back cannot be clear the show face still is.
	b := knot(410, 0, 440, 20, 1)
	b.Faces[1].Zones = []face.Zone{{Kind: face.Flaw, Polygon: geom.R(600, 60, 640, 100).Polygon()}}
	o.Clear = 0
	r, _ = Row(b, three(), o)
	if len(r.Flaws) != 1 || r.Flaws[0].Side != face.Back || r.Flaws[0].Front != 1 {
		t.Errorf("flaws %+v", r.Flaws)
	}
	near(t, "area", r.Flaws[0].Area, 1600, 1e-6)
}

func TestRowOfWaneyBoard(t *testing.T) {
	b := plank("A", 1400, 200)
	b.Faces[0].Outline = geom.Polygon{geom.Pt(0, 30), geom.Pt(1400, 30), geom.Pt(1400, 200), geom.Pt(0, 200)}
	r, err := Row(b, three(), RowOptions{Gap: 4, Kerf: 3, Up: 1})
	if err != nil || len(r.Flaws) != 0 || math.Abs(r.Strips[0].Y-30) > 1e-9 {
		t.Errorf("%+v, %v", r, err)
	}
}

func TestRowAnswersBadInput(t *testing.T) {
	b := plank("A", 1400, 200)
	for _, c := range []struct {
		b    *face.Board
		f    []Front
		o    RowOptions
		want string
	}{
		{nil, three(), RowOptions{Up: 1}, "board"},
		{b, nil, RowOptions{Up: 1}, "needs a front"},
		{b, []Front{{"x", math.NaN(), 10}}, RowOptions{Up: 1}, "front 1"},
		{b, three(), RowOptions{}, "which face"},
		{b, three(), RowOptions{Up: 1, Gaps: []float64{1}}, "gaps"},
		{b, three(), RowOptions{Up: 1, Kerf: -1}, "0 or more"},
	} {
		if _, err := Row(c.b, c.f, c.o); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.want, err)
		}
	}
}
