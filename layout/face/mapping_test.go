package face

import (
	"fmt"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// The four states of a strip of L 930, W 95 with a mark at (s, t) = (100, 20),
// worked by hand: up 1 shows it at (100, 20), up 1 turned at (830, 75), up 2 at
// (100, 75), up 2 turned at (830, 20).
var states = []struct {
	up     int
	turned bool
	u, v   float64
}{{1, false, 100, 20}, {1, true, 830, 75}, {2, false, 100, 75}, {2, true, 830, 20}}

// markedPanel holds one strip, cut from (40, 8) of a board 210 wide; nothing
// on the board is symmetrical. The panel is 900 x 85, so the strip begins 15
// left of it and 5 in front of it.
func markedPanel(up int, turned bool, angle float64) *Panel {
	b := &Board{ID: "A", Length: 2400, Width: 210, Thickness: 20}
	return &Panel{ID: "p", Length: 900, Width: 85, Thickness: 20, Limit: [2]float64{1, 1}, Strips: []Strip{
		{ID: "A1", Board: b, X: 40, Y: 8, L: 930, W: 95, Angle: angle, Up: up, Turned: turned},
	}}
}

func nearPoint(t *testing.T, what string, got, want geom.Point) {
	t.Helper()
	layouttest.Near(t, what+" x", got.X, want.X, 1e-9)
	layouttest.Near(t, what+" y", got.Y, want.Y, 1e-9)
}

func TestMarkIsWhereTheHandSaysItIs(t *testing.T) {
	for _, c := range states {
		t.Run(fmt.Sprintf("up %d turned %v", c.up, c.turned), func(t *testing.T) {
			p := markedPanel(c.up, c.turned, 0)
			s := &p.Strips[0]
			nearPoint(t, "strip", s.FromPlace().Apply(geom.Pt(c.u, c.v)), geom.Pt(100, 20))
			// (s, t) = (100, 20) is board point (140, 28), on face 2 (140, 182).
			nearPoint(t, "face 1", s.PlaceToFace(1).Apply(geom.Pt(c.u, c.v)), geom.Pt(140, 28))
			nearPoint(t, "face 2", s.PlaceToFace(2).Apply(geom.Pt(c.u, c.v)), geom.Pt(140, 182))
			// In the panel: X = u - 15, Y = v - 5.
			at := geom.Pt(c.u-15, c.v-5)
			want := [2]geom.Point{{X: 140, Y: 28}, {X: 140, Y: 182}}
			nearPoint(t, "show", p.PanelToFace(0, Show).Apply(at), want[c.up-1])
			nearPoint(t, "back", p.PanelToFace(0, Back).Apply(at), want[2-c.up])
			// The back is seen after rolling about the long axis: Y becomes 85 - Y.
			nearPoint(t, "back view", p.BackView().Apply(at), geom.Pt(at.X, 85-at.Y))
		})
	}
}

func TestAngledStripByHand(t *testing.T) {
	// 90 degrees anticlockwise: (s, t) lies at board (40 - t, 8 + s).
	p := markedPanel(1, false, 90)
	nearPoint(t, "quarter turn", p.Strips[0].PlaceToFace(1).Apply(geom.Pt(100, 20)), geom.Pt(20, 108))
	// 30 degrees: cos 0.8660254038, sin 0.5; (100, 20) lies at
	// (40 + 86.60254038 - 10, 8 + 50 + 17.32050808).
	p = markedPanel(1, false, 30)
	got := p.Strips[0].PlaceToFace(1).Apply(geom.Pt(100, 20))
	layouttest.Near(t, "x", got.X, 116.60254038, 1e-7)
	layouttest.Near(t, "y", got.Y, 75.32050808, 1e-7)
}

// A square knot of 4 mm about the mark must be read where the mark is shown:
// on the show face at (u, v), and rolled over on the back.
func TestReadingFollowsTheMark(t *testing.T) {
	for _, c := range states {
		for face := 1; face <= 2; face++ {
			p := markedPanel(c.up, c.turned, 0)
			at := geom.Pt(140, 28)
			if face == 2 {
				at = geom.Pt(140, 182)
			}
			f := &p.Strips[0].Board.Faces[face-1]
			f.Zones = zones(Flaw, rect(at.X-2, at.Y-2, at.X+2, at.Y+2))
			r := ReadFull(p)
			x, y := c.u-15, c.v-5
			seen, other := &r.Show, &r.Back
			if face != c.up {
				seen, other = &r.Back, &r.Show
				y = 85 - y
			}
			if len(seen.Flaws) != 1 || len(other.Flaws) != 0 {
				t.Fatalf("up %d turned %v face %d: flaws %v and %v", c.up, c.turned, face, seen.Flaws, other.Flaws)
			}
			nearPoint(t, "knot", seen.Flaws[0].Place.Centre(), geom.Pt(x, y))
			layouttest.Near(t, "area", seen.Flaws[0].Area, 16, 1e-9)
		}
	}
}

func TestArrowIsReversedByEitherAndRestoredByBoth(t *testing.T) {
	for i, want := range []bool{false, true, true, false} {
		c := states[i]
		s := Strip{Up: c.up, Turned: c.turned}
		if s.ArrowReversed() != want {
			t.Errorf("up %d turned %v: reversed %v, want %v", c.up, c.turned, s.ArrowReversed(), want)
		}
	}
}

// Planing arrows, from the rule: reversed by turning and by rolling over, both
// together restore it; unknown and mixed have none.
func TestPlaningAsItLies(t *testing.T) {
	for _, c := range []struct {
		planes Planes
		up     int
		turned bool
		want   int // +1 to the right
	}{
		{PlanesFromMarked, 1, false, 1}, {PlanesFromMarked, 1, true, -1},
		{PlanesFromMarked, 2, false, -1}, {PlanesFromMarked, 2, true, 1},
		{PlanesToMarked, 1, false, -1}, {PlanesToMarked, 2, true, -1}, {PlanesToMarked, 2, false, 1},
		{PlanesUnknown, 1, false, 0}, {PlanesUnknown, 2, true, 0}, {PlanesMixed, 2, false, 0},
	} {
		s := Strip{Board: &Board{Planes: c.planes}, Up: c.up, Turned: c.turned}
		if got := s.Planing(); got != c.want {
			t.Errorf("planes %d, up %d, turned %v: %d, want %d", c.planes, c.up, c.turned, got, c.want)
		}
	}
	if got := (&Strip{}).Planing(); got != 0 {
		t.Errorf("no board: %d", got)
	}
}

func TestSideNames(t *testing.T) {
	for bark, want := range [][2]string{{"face 1", "face 2"}, {"bark side", "heart side"}, {"heart side", "bark side"}} {
		b := Board{BarkFace: bark}
		if got := [2]string{b.SideName(1), b.SideName(2)}; got != want {
			t.Errorf("bark face %d: %q, want %q", bark, got, want)
		}
	}
	for up, want := range []int{1, 1, 2} {
		if got := (&Strip{Up: up}).UpFace(); got != want {
			t.Errorf("up %d shows face %d, want %d", up, got, want)
		}
	}
}

func TestAtTakesTheTopZone(t *testing.T) {
	b := &Board{Length: 100, Width: 50}
	f := &b.Faces[0]
	f.Base = Sap
	f.Outline = geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 40}, {X: 0, Y: 40}}
	f.Zones = append(zones(Heart, rect(10, 5, 60, 35)), zones(Flaw, rect(20, 10, 30, 20))...)
	for _, c := range []struct {
		x, y float64
		want Kind
	}{{5, 20, Sap}, {15, 20, Heart}, {25, 15, Flaw}, {50, 45, Blank}, {-1, 20, Blank}, {101, 20, Blank}, {50, 60, Blank}} {
		if got := f.At(geom.Pt(c.x, c.y), b); got != c.want {
			t.Errorf("(%g, %g): %s, want %s", c.x, c.y, got, c.want)
		}
	}
}
