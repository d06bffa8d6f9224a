package cutting

import (
	"math"
	"testing"

	"heartside/layout/face"
)

// Worked by hand: a strip of 930 x 92 at (40, 8) with 3 mm to rest, 1.5 mm to
// joint and 25 mm at each end is sawn out from (15, 3.5) to (995, 104.5).
func TestBlankByHand(t *testing.T) {
	s := &face.Strip{Board: &face.Board{Length: 2400, Width: 210}, X: 40, Y: 8, L: 930, W: 92, Up: 1}
	a := Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	b := Blank(s, a).Bounds()
	for _, c := range []struct{ got, want float64 }{{b.Min.X, 15}, {b.Min.Y, 3.5}, {b.Max.X, 995}, {b.Max.Y, 104.5}} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("blank %+v: got %g, want %g", b, c.got, c.want)
		}
	}
	if l, w := BlankSize(s.L, s.W, a); l != 980 || w != 101 {
		t.Errorf("blank of %g x %g, want 980 x 101", l, w)
	}
}
