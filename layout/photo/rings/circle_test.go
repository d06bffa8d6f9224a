package rings

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

// By hand: (0, 0), (8, 0) and (0, 6) have a right angle at the first, so the
// middle lies halfway between the other two, at (4, 3), 5 away (Thales).
func TestThroughThreePoints(t *testing.T) {
	c, err := Through(geom.Pt(0, 0), geom.Pt(8, 0), geom.Pt(0, 6))
	if err != nil || c.Middle.Dist(geom.Pt(4, 3)) > 1e-12 || math.Abs(c.Radius-5) > 1e-12 {
		t.Errorf("%v, %v", c, err)
	}
	if _, err := Through(geom.Pt(0, 0), geom.Pt(1, 1), geom.Pt(3, 3)); err == nil {
		t.Error("points in line make a circle")
	}
}

// Points drawn on a circle come from that circle, however few and wherever.
func TestFitFindsTheCircleDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mid := geom.Pt(rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y"))
		r := rapid.Float64Range(5, 400).Draw(t, "r")
		from := rapid.Float64Range(0, 6).Draw(t, "from")
		arc := rapid.Float64Range(0.3, 6).Draw(t, "arc")
		n := rapid.IntRange(3, 9).Draw(t, "n")
		var ps []geom.Point
		for k := range n {
			sin, cos := math.Sincos(from + arc*float64(k)/float64(n))
			ps = append(ps, mid.Add(geom.Pt(cos, sin).Mul(r)))
		}
		c, err := Fit(ps)
		if err != nil || c.Middle.Dist(mid) > 1e-4*r || math.Abs(c.Radius-r) > 1e-4*r {
			t.Fatalf("%v, %v; want %v, %g", c, err, mid, r)
		}
	})
}

// With points that miss the circle by the same amount outwards and inwards in
// turn, all the way round, the middle stays by symmetry.
func TestFitOfManyStaysInTheMiddle(t *testing.T) {
	var ps []geom.Point
	for k := range 12 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 6)
		r := 50 + float64(k%2*2-1)
		ps = append(ps, geom.Pt(30+r*cos, -20+r*sin))
	}
	c, err := Fit(ps)
	if err != nil || c.Middle.Dist(geom.Pt(30, -20)) > 1e-9 || math.Abs(c.Radius-50) > 0.1 {
		t.Errorf("%v, %v", c, err)
	}
}

func TestSeveralRingsShareTheirMiddle(t *testing.T) {
	mid := geom.Pt(60, 95)
	arc := func(r float64, degrees ...float64) (out Ring) {
		for _, d := range degrees {
			sin, cos := math.Sincos(d * math.Pi / 180)
			out = append(out, mid.Add(geom.Pt(cos, sin).Mul(r)))
		}
		return out
	}
	p, err := FromClicks(Clicks{Rings: []Ring{arc(70, 240, 270, 300), arc(90, 225, 260, 280, 310)}})
	if err != nil || p.At.Dist(mid) > 1e-6 {
		t.Errorf("%+v, %v", p, err)
	}
	if !p.Found || p.Error > 20 {
		t.Errorf("two wide arcs: %+v", p)
	}
	// 4 mm of arc at 90 mm: with clicks a millimetre off that is no middle.
	p, err = FromClicks(Clicks{Rings: []Ring{arc(90, 269, 270, 271.5)}})
	if err != nil || p.Found {
		t.Errorf("a short arc is trusted: %+v, %v", p, err)
	}
}

func TestClicksThatCannotBeAreRefused(t *testing.T) {
	for name, c := range map[string]Clicks{
		"none":       {},
		"two points": {Rings: []Ring{{geom.Pt(0, 0), geom.Pt(1, 0)}}},
		"in line":    {Rings: []Ring{{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(2, 0)}}},
		"no place":   {Rings: []Ring{{geom.Pt(math.NaN(), 0), geom.Pt(1, 0), geom.Pt(2, 0)}}},
		"error":      {Rings: []Ring{{geom.Pt(0, 0), geom.Pt(1, 1), geom.Pt(2, 0)}}, Error: -1},
	} {
		if _, err := FromClicks(c); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
