package photo

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

// Worked by hand from the division model: half diagonal 500 of 600 x 800, a
// point 250 out is r = 0.5; with Bow -0.2 it lies at 0.5 / (1 - 0.05) without.
func TestLensByHand(t *testing.T) {
	l := LensOf(600, 800, -0.2)
	got := l.Straight(geom.Pt(300+250, 400))
	if want := 300 + 250/0.95; math.Abs(got.X-want) > 1e-9 || math.Abs(got.Y-400) > 1e-9 {
		t.Errorf("got %v, want (%g, 400)", got, want)
	}
	if p := LensOf(600, 800, 0).Straight(geom.Pt(1, 2)); p != geom.Pt(1, 2) {
		t.Errorf("a perfect lens moved (1, 2) to %v", p)
	}
	if p := (Lens{Bow: 0.1}).Bowed(geom.Pt(1, 2)); p != geom.Pt(1, 2) {
		t.Errorf("the lens of no picture moved (1, 2) to %v", p)
	}
	if b := LensOf(10, 10, math.NaN()).Bow; b != 0 {
		t.Errorf("bow of no number taken as %g", b)
	}
}

func TestLensThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := LensOf(rapid.IntRange(10, 9000).Draw(t, "w"), rapid.IntRange(10, 9000).Draw(t, "h"), rapid.Float64Range(-0.3, 0.3).Draw(t, "bow"))
		p := geom.Pt(rapid.Float64Range(0, 1).Draw(t, "x")*2*l.Middle.X, rapid.Float64Range(0, 1).Draw(t, "y")*2*l.Middle.Y)
		if q := l.Bowed(l.Straight(p)); q.Dist(p) > 1e-6*l.Half {
			t.Fatalf("%v came back as %v", p, q)
		}
	})
}
