package movement

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
	"heartside/layout/wood/moisture"

	"pgregory.net/rapid"
)

// C(theta) of the reference, worked out apart from this code (C), at 0 15 30
// 45 60 75 90 degrees.
func TestCoefficientByRingAngle(t *testing.T) {
	for name, c := range map[string]struct {
		wood Wood
		want [7]float64
	}{
		"sugar maple": {maple(), [7]float64{.00353, .00340, .00306, .00259, .00212, .00178, .00165}},
		"walnut":      {walnut(), [7]float64{.00274, .00268, .00253, .00232, .00211, .00196, .00190}},
	} {
		s := strain(t, c.wood, 9, 10)
		for i, want := range c.want {
			layouttest.Near(t, name, s.At(AtAngle(float64(15*i)).Flat()), want, 0.51e-5)
		}
	}
}

// 150 mm sugar maple, 4 % less, pith h below its face: width after by the
// exact map of the section in polar coordinates (C). Averaging the angle is
// within 0.006 mm of it.
func TestWidthByTheMapOfTheSection(t *testing.T) {
	s := strain(t, maple(), 12, 8)
	for h, want := range map[float64]float64{30: 148.467, 60: 148.198, 100: 148.040, 200: 147.930, 400: 147.895} {
		r := FromPith(geom.Pt(75, -h), geom.R(0, 0, 150, 0))
		layouttest.Near(t, "width", 150*(1+s.At(r.Flat())), want, 0.006)
	}
}

func TestAngle(t *testing.T) {
	pith := geom.Pt(50, -40)
	for at, want := range map[geom.Point]float64{{X: 50, Y: 0}: 0, {X: 90, Y: 0}: 45, {X: 10, Y: 0}: 45, {X: 90, Y: -40}: 90, {X: 50, Y: -80}: 0, {X: 50, Y: -40}: 0} {
		layouttest.Near(t, "angle", Angle(pith, at), want, 1e-12)
	}
}

// simpson averages cos^2 over the section the slow way.
func simpson(pith geom.Point, s geom.Rect) float64 {
	const n = 400
	weight := func(i int) float64 {
		switch {
		case i == 0 || i == n:
			return 1
		case i%2 == 1:
			return 4
		}
		return 2
	}
	sum, all := 0.0, 0.0
	for i := 0; i <= n; i++ {
		for j := 0; j <= n; j++ {
			w := weight(i) * weight(j)
			at := geom.Pt(s.Min.X+s.W()*float64(i)/n, s.Min.Y+s.H()*float64(j)/n)
			c := math.Cos(Angle(pith, at) * math.Pi / 180)
			sum, all = sum+w*c*c, all+w
		}
	}
	return sum / all
}

func TestFlatIsTheMeanOverTheSection(t *testing.T) {
	for _, c := range []struct {
		pith geom.Point
		rect geom.Rect
		tol  float64
	}{
		{geom.Pt(105, -60), geom.R(0, 0, 92, 26), 1e-9},
		{geom.Pt(-30, 90), geom.R(10, 2, 80, 22), 1e-9},
		{geom.Pt(40, -4000), geom.R(0, 0, 92, 26), 1e-9},
		{geom.Pt(46, 13), geom.R(0, 0, 92, 26), 1e-3}, // the pith in the strip
		{geom.Pt(0, 13), geom.R(0, 0, 92, 26), 1e-3},
	} {
		layouttest.Near(t, "mean", FromPith(c.pith, c.rect).Flat(), simpson(c.pith, c.rect), c.tol)
	}
	// The pith 1 km away is flat-sawn below the face and quarter-sawn beside it.
	layouttest.Near(t, "far below", FromPith(geom.Pt(46, 1e6), geom.R(0, 0, 92, 26)).Flat(), 1, 1e-6)
	layouttest.Near(t, "far beside", FromPith(geom.Pt(1e6, 13), geom.R(0, 0, 92, 26)).Flat(), 0, 1e-6)
}

func TestMirroredStripsMoveAlike(t *testing.T) {
	f := rapid.Float64Range(-300, 300)
	rapid.Check(t, func(t *rapid.T) {
		pith := geom.Pt(f.Draw(t, "across"), f.Draw(t, "depth"))
		x, y := f.Draw(t, "x"), f.Draw(t, "y")
		rect := geom.R(x, y, x+rapid.Float64Range(20, 200).Draw(t, "w"), y+rapid.Float64Range(0, 60).Draw(t, "h"))
		a := FromPith(pith, rect).Flat()
		b := FromPith(geom.Pt(-pith.X, pith.Y), geom.R(-rect.Min.X, rect.Min.Y, -rect.Max.X, rect.Max.Y)).Flat()
		c := FromPith(geom.Pt(pith.X, -pith.Y), geom.R(rect.Min.X, -rect.Min.Y, rect.Max.X, -rect.Max.Y)).Flat()
		if math.Abs(a-b) > 1e-9 || math.Abs(a-c) > 1e-9 || a < 0 || a > 1 {
			t.Fatalf("%g, mirrored %g and %g", a, b, c)
		}
	})
}

func TestRingsThatCannotBe(t *testing.T) {
	for _, r := range []Rings{AtAngle(-1), AtAngle(91), AtAngle(math.NaN()), FromPith(geom.Pt(math.NaN(), 0), geom.R(0, 0, 9, 9)), FromPith(geom.Pt(0, 0), geom.Rect{})} {
		if r.Check() == nil {
			t.Errorf("%+v passes", r)
		}
	}
	var unknown Rings
	if unknown.Check() != nil || unknown.Known() || unknown.Flat() != 1 || unknown.Working()[0].Flag != moisture.Choice {
		t.Error("unknown rings are not taken for flat, as a choice")
	}
}
