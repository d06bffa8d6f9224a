package photo

import (
	"math"
	"testing"

	"heartside/layout/geom"
)

// A face of 100 x 50 mm seen at 4 pixels a mm, upright: by hand, places 4 and
// 8 pixels off the lower edge and 2 off the left end are 1, 2 and 0.5 mm off;
// rms sqrt((1 + 4 + 0.25 + 0) / 4) = 1.1456.
func TestResidualByHand(t *testing.T) {
	v := View{Corners: [4]geom.Point{{X: 10, Y: 210}, {X: 410, Y: 210}, {X: 410, Y: 10}, {X: 10, Y: 10}}}
	rms, most, err := Residual(v, 420, 220, 100, 50, [4][]geom.Point{
		{{X: 100, Y: 214}, {X: 300, Y: 202}}, nil, {{X: 50, Y: 10}}, {{X: 12, Y: 100}},
	})
	if err != nil || math.Abs(rms-math.Sqrt(5.25/4)) > 1e-9 || math.Abs(most-2) > 1e-9 {
		t.Errorf("rms %g, most %g, %v", rms, most, err)
	}
}

// Edges seen through the pinhole camera lie on the squared face's edges; with
// a bowed lens they do where the view knows the bow, and not where it does not.
func TestResidualThroughACamera(t *testing.T) {
	c := testCamera()
	const l, w = 900, 210
	lens := LensOf(1600, 1000, -0.06)
	seen := func(x, y float64) geom.Point { return lens.Bowed(c.look(x, y)) }
	var sides [4][]geom.Point
	for k := 0.0; k <= 1; k += 0.05 {
		sides[0] = append(sides[0], seen(k*l, 0))
		sides[1] = append(sides[1], seen(l, k*w))
		sides[2] = append(sides[2], seen(k*l, w))
		sides[3] = append(sides[3], seen(0, k*w))
	}
	v := View{Corners: [4]geom.Point{seen(0, 0), seen(l, 0), seen(l, w), seen(0, w)}, Bow: -0.06}
	if rms, most, err := Residual(v, 1600, 1000, l, w, sides); err != nil || rms > 1e-6 || most > 1e-6 {
		t.Errorf("with the bow known: rms %g, most %g mm, %v", rms, most, err)
	}
	v.Bow = 0
	// The middle of a long edge bulges by some mm: more than half a mm of rms.
	if rms, most, err := Residual(v, 1600, 1000, l, w, sides); err != nil || rms < 0.5 || most < rms {
		t.Errorf("without the bow: rms %g, most %g mm, %v", rms, most, err)
	}
	for i, bad := range []func() error{
		func() error { _, _, err := Residual(v, 1600, 1000, l, w, [4][]geom.Point{}); return err },
		func() error { _, _, err := Residual(View{}, 1600, 1000, l, w, sides); return err },
		func() error { _, _, err := Residual(v, 1600, 1000, 0, w, sides); return err },
		func() error {
			_, _, err := Residual(v, 1600, 1000, l, w, [4][]geom.Point{{{X: math.NaN()}}})
			return err
		},
	} {
		if bad() == nil {
			t.Errorf("bad input %d passed", i)
		}
	}
}
