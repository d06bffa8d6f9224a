package cutting

import (
	"fmt"
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// knotted is a strip of 400 x 80 at (100, 50) of a board of 1000 x 200 in a
// panel of 360 x 80, so that 20 mm are trimmed off each end. Its finished part
// is x 120 to 480, y 50 to 130 of face 1. knots are rectangles in face-1
// coordinates, also those of face 2.
func knotted(f int, knots ...geom.Rect) *face.Panel {
	b := board("A", 1000, 200)
	for _, k := range knots {
		poly := k.Polygon()
		if f == 2 {
			poly = b.Other().ApplyTo(poly)
		}
		b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, face.Zone{Kind: face.Flaw, Polygon: poly})
	}
	p := panelOf(strip("s", b, 100, 50, 400, 80, 0))
	p.Length = 360
	return p
}

func said(p *face.Panel, margin float64) string {
	a := plain
	a.FlawMargin = margin
	out := ""
	for _, f := range only(Check([]*face.Panel{p}, nil, a, Machines{}), face.FlawInEdge) {
		out += fmt.Sprintf("%s %d %.0f;", f.Why, f.Side, f.Measure)
	}
	return out
}

func TestFlawOnTheBack(t *testing.T) {
	inside := geom.R(200, 80, 220, 95) // 300 mm2
	for _, c := range []struct {
		name string
		p    *face.Panel
		want string
	}{
		{"knot on the back", knotted(2, inside), "back 1 300;"},
		{"knot on the show face is the reading's", knotted(1, inside), ""},
		{"half of it in the trimmed end comes out in the end", knotted(2, geom.R(110, 80, 130, 95)), ""},
		{"all of it in the trimmed end", knotted(2, geom.R(102, 80, 118, 95)), ""},
		{"beside the strip", knotted(2, geom.R(200, 20, 220, 45)), ""},
		{"less than a square mm", knotted(2, geom.R(200, 80, 200.9, 81)), ""},
	} {
		if got := said(c.p, 0); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	both := knotted(2, inside)
	both.BothShow = true
	if got := said(both, 0); got != "" {
		t.Errorf("the back is seen: %q, the reading tells it", got)
	}
	through := knotted(2, inside)
	through.Strips[0].Board.Faces[0].Zones = []face.Zone{{Kind: face.Flaw, Polygon: geom.R(202, 82, 222, 97).Polygon()}}
	if got := said(through, 0); got != "" {
		t.Errorf("a knot right through: %q, the show face tells it", got)
	}
	guessed := knotted(2, inside)
	guessed.Strips[0].Board.Faces[1].Guessed = true
	if got := said(guessed, 0); got != "" {
		t.Errorf("a face nobody looked at: %q", got)
	}
	rolled := knotted(1, inside)
	rolled.Strips[0].Up = 2
	if got := said(rolled, 0); got != "back 1 300;" {
		t.Errorf("rolled over: %q", got)
	}
	mended := knotted(2, inside)
	bf := &mended.Strips[0].Board.Faces[1]
	bf.Zones = append(bf.Zones, face.Zone{Kind: face.Heart, Polygon: geom.R(150, 50, 300, 150).Polygon()})
	if got := said(mended, 0); got != "" {
		t.Errorf("a later zone lies over the knot: %q", got)
	}
}

// In an inner strip a knot that crosses the glue line comes out in no edge of
// the panel, so it is told here. The board's far edge is the back of the panel.
func TestFlawAcrossAGlueLine(t *testing.T) {
	p := knotted(2, geom.R(200, 120, 220, 140))
	q := strip("t", board("B", 1000, 200), 100, 50, 400, 80, 0)
	p.Strips = append(p.Strips, q)
	p.Width = 160
	if got := said(p, 0); got != "back 1 200;" { // 20 x 10 lie in the strip
		t.Errorf("knot across the glue line: %q", got)
	}
}

func TestFlawWithinTheMargin(t *testing.T) {
	for _, c := range []struct {
		name string
		p    *face.Panel
		want string
	}{
		{"4 mm from the edge", knotted(1, geom.R(200, 134, 220, 150)), "margin 0 4;"},
		{"the same on the back", knotted(2, geom.R(200, 134, 220, 150)), "margin 1 4;"},
		{"6 mm off", knotted(1, geom.R(200, 136, 220, 150)), ""},
		{"3 mm beyond the trimmed end", knotted(1, geom.R(105, 80, 117, 95)), "margin 0 3;"},
		// 3 and 4 mm off the corner: 5 mm, which is not within 5.
		{"off the corner", knotted(1, geom.R(100, 134, 117, 150)), ""},
	} {
		if got := said(c.p, 5); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// A face 2 waney along the marked edge, 70 wide there: it reaches 20 mm into
// the strip all along, 360 mm of which stay.
func TestWaneOnTheBack(t *testing.T) {
	p := knotted(2)
	b := p.Strips[0].Board
	b.Faces[1].Outline = b.Other().ApplyTo(geom.R(0, 70, 1000, 200).Polygon())
	p.Strips = append([]face.Strip{strip("o", board("B", 1000, 200), 100, 50, 400, 80, 0)}, p.Strips...)
	p.Strips = append(p.Strips, strip("q", board("C", 1000, 200), 100, 50, 400, 80, 0))
	p.Width = 240
	if got := said(p, 0); got != "back 1 7200;" {
		t.Errorf("wane right through: %q", got)
	}
	b.Faces[1].Outline = b.Other().ApplyTo(geom.Polygon{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 250, Y: 70}, {X: 300, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 200}, {X: 0, Y: 200}})
	// A bay 70 deep and 100 wide at the edge: 20 deep and 100 * 20 / 70 wide
	// within the strip.
	if got, want := said(p, 0), fmt.Sprintf("back 1 %.0f;", math.Round(20*100*20/70.0/2)); got != want {
		t.Errorf("a bay on the back: %q, want %q", got, want)
	}
}

func TestFlawPlaceIsAsSeen(t *testing.T) {
	p := knotted(2, geom.R(200, 80, 220, 95))
	got := only(Check([]*face.Panel{p}, nil, plain, Machines{}), face.FlawInEdge)
	// Finished x from 120, so X 80 to 100; y 30 to 45 of the show face, and
	// seen on the back 80 - 45 to 80 - 30.
	if len(got) != 1 || got[0].Place.Min.Dist(geom.Pt(80, 35)) > 1e-6 || got[0].Place.Max.Dist(geom.Pt(100, 50)) > 1e-6 {
		t.Errorf("place %+v, want 80, 35 to 100, 50", got)
	}
}
