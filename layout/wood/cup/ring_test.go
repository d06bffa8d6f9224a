package cup

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, tol)
	}
}

func cupped(t *testing.T, s Section, e Strains) *Rings {
	t.Helper()
	r, err := Cup(s, e)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// under is a section whose show face lies h above the pith, in the middle.
func under(width, thickness, h float64) Section {
	return Section{width, thickness, geom.Pt(width/2, thickness-h)}
}

// Coefficients per 1 % moisture, radial and tangential: Wood Handbook 2010,
// Table 13-5, read there.
var (
	maple  = [2]float64{0.00165, 0.00353}
	oak    = [2]float64{0.00158, 0.00369} // red oak, commercial
	cherry = [2]float64{0.00126, 0.00248}
	walnut = [2]float64{0.00190, 0.00274}
	beech  = [2]float64{0.00190, 0.00431}
)

func dried(c [2]float64) Strains { return ByCoefficient(c[0], c[1], -4) }

// Rise of the show face of 150 mm boards, 4 points drier, pith h below its
// middle: a table derived from the same map in an independent calculation
// (flag C).
func TestCupOfBoards(t *testing.T) {
	h := []float64{30, 60, 100, 200, 400}
	for _, c := range []struct {
		name string
		wood [2]float64
		want []float64
	}{
		{"sugar maple", maple, []float64{0.6701, 0.5040, 0.3618, 0.2016, 0.1041}},
		{"red oak", oak, []float64{0.7519, 0.5655, 0.4058, 0.2262, 0.1168}},
		{"black cherry", cherry, []float64{0.4351, 0.3274, 0.2350, 0.1310, 0.0677}},
		{"black walnut", walnut, []float64{0.2997, 0.2255, 0.1619, 0.0903, 0.0466}},
		{"beech", beech, []float64{0.8586, 0.6456, 0.4633, 0.2582, 0.1334}},
	} {
		for i, want := range c.want {
			r := cupped(t, under(150, 20, h[i]), dried(c.wood))
			near(t, c.name, r.Show.Sagitta, want, 0.00006)
		}
	}
	for i, want := range []float64{1.4100, 0.7050, 0.4230, 0.2115, 0.1058} {
		r := cupped(t, under(150, 20, h[i]), dried(maple))
		near(t, "small angles", r.Small*75*75/2, want, 0.00006)
	}
	for i, want := range []float64{148.467, 148.198, 148.040, 147.930, 147.895} {
		near(t, "width after", cupped(t, under(150, 20, h[i]), dried(maple)).Show.Chord, want, 0.0006)
	}
	// Green to ovendry, shrinkage 4.8 and 9.9 %.
	for i, want := range []float64{4.492, 3.360, 2.404} {
		near(t, "ovendry", cupped(t, under(150, 20, h[i]), Strains{-0.048, -0.099}).Show.Sagitta, want, 0.0006)
	}
	// A layered model fed with the strain along the face alone gives 1.6e-5
	// at h = 100: eight times too little. The mean curvature is 1.29e-4.
	k := cupped(t, under(150, 20, 100), dried(maple)).Show.Kappa
	near(t, "mean curvature", k, 1.29e-4, 0.005e-4)
}

// The back of the drying board bends the same way: h = 80, worked by hand.
// r = hypot(75, 80) = 109.6586, phi = atan(75/80) = 0.753151, k = (1 - 0.01412)/
// (1 - 0.0066) = 0.992430; r' = 108.9349, phi' = 0.747449, cos phi' = 0.733424;
// 108.9349 x 0.733424 - 80 (1 - 0.0066) = 79.8955 - 79.4720 = 0.4235.
func TestBackOfABoard(t *testing.T) {
	near(t, "back", cupped(t, under(150, 20, 100), dried(maple)).Back.Sagitta, 0.4235, 0.0003)
}

// Strains 4 points by equation 13-3 from the shrinkages of sugar maple: 150 mm
// flat-sawn shrink by 150 x 4 / (30 x 100 / 9.9 - 30 + 10) = 2.119 mm (by hand).
func TestStrains(t *testing.T) {
	e, err := ByShrinkage(4.8, 9.9, 10, 6)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tangential", 150*e.T, -600/(3000/9.9-20), 1e-12)
	near(t, "radial", 150*e.R, -600/(3000/4.8-20), 1e-12)
	// Nothing changes above 30 %; from there to ovendry it is the shrinkage.
	if e, _ = ByShrinkage(4.8, 9.9, 80, 40); e != (Strains{}) {
		t.Errorf("green wood moved: %v", e)
	}
	e, _ = ByShrinkage(4.8, 9.9, 60, 0)
	near(t, "green to ovendry", e.T, -0.099, 1e-12)
	for _, bad := range [][4]float64{{0, 9, 10, 6}, {4, -1, 10, 6}, {4, 9, -1, 6}, {4, 9, 10, math.NaN()}} {
		if _, err := ByShrinkage(bad[0], bad[1], bad[2], bad[3]); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
}

// A plane finite-element calculation of one 150 x 20 mm strip (quadratic
// elements 2.5 mm, E_R 1832, E_T 902, G_RT 150 N/mm2, strains of sugar maple 4
// points drier turned with the rings, small displacements): rise of the show
// face with the pith in the wood, not split. The plate form used here is a
// theory of thin strips: within 0.08 mm.
func TestPithInTheWood(t *testing.T) {
	for _, c := range []struct{ high, want float64 }{{2, 0.709}, {5, 0.575}, {10, 0}, {15, -0.575}, {18, -0.709}} {
		r := cupped(t, Section{150, 20, geom.Pt(75, c.high)}, dried(maple))
		near(t, "rise", r.Middle.Sagitta, c.want, 0.08)
		if !r.Inside {
			t.Error("the pith is in the wood, and not said")
		}
		// Split from the pith to the back, the show face is hollow as a board's
		// just above the pith; split to the show face, it bulges.
		if r.Show.Sagitta <= 0 || r.Back.Sagitta >= 0 {
			t.Errorf("split either way: %g and %g", r.Show.Sagitta, r.Back.Sagitta)
		}
	}
}

func TestFarPithDoesNotCup(t *testing.T) {
	for _, p := range []geom.Point{{X: math.Inf(1), Y: 10}, {X: math.Inf(-1), Y: 3}, {X: 75, Y: math.Inf(-1)}, {X: 75, Y: 1e300}, {X: -1e12, Y: 1e12}} {
		r := cupped(t, Section{150, 20, p}, dried(beech))
		for _, l := range []Line{r.Show, r.Back, r.Middle} {
			if math.Abs(l.Sagitta) > 1e-5 || math.Abs(l.Kappa) > 1e-8 {
				t.Errorf("pith at %v: rise %g", p, l.Sagitta)
			}
		}
	}
	// Straight rings at 0 and 90 degrees: the width changes by T or by R.
	near(t, "flat", cupped(t, Section{150, 20, geom.Pt(75, math.Inf(-1))}, dried(maple)).Show.Chord, 147.882, 0.0006)
	near(t, "quarter", cupped(t, Section{150, 20, geom.Pt(math.Inf(1), 10)}, dried(maple)).Show.Chord, 150-0.990, 0.0006)
}

// On a line through the pith, rise from the side: a quarter-sawn strip level
// with its pith is symmetric about its middle plane.
func TestPithBeside(t *testing.T) {
	r := cupped(t, Section{100, 20, geom.Pt(-40, 10)}, dried(beech))
	near(t, "middle", r.Middle.Sagitta, 0, 1e-12)
	near(t, "faces", r.Show.Sagitta, -r.Back.Sagitta, 1e-12)
	if r.Inside {
		t.Error("a pith beside the strip is not in it")
	}
	// The pith just outside a corner, level with the wood: no jump of angle.
	for _, p := range []geom.Point{{X: -1e-9, Y: 19}, {X: 100 + 1e-9, Y: 1}, {X: 50, Y: -1e-9}, {X: 50, Y: 20 + 1e-9}, {X: 0, Y: 0}, {X: 100, Y: 20}} {
		r := cupped(t, Section{100, 20, p}, dried(beech))
		for _, l := range []Line{r.Show, r.Back, r.Middle} {
			if math.Abs(l.Sagitta) > 2 || l.Chord < 97 || l.Chord > 100 {
				t.Errorf("pith at %v: rise %g, chord %g", p, l.Sagitta, l.Chord)
			}
		}
	}
}

func anySection(t *rapid.T) Section {
	f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	return Section{f(20, 300, "width"), f(5, 60, "thickness"), geom.Pt(f(-300, 600, "pith across"), f(-300, 300, "pith up"))}
}

func anyStrains(t *rapid.T) Strains {
	return Strains{rapid.Float64Range(-0.05, 0.05).Draw(t, "eR"), rapid.Float64Range(-0.1, 0.1).Draw(t, "eT")}
}

func TestRollAndTurn(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, e := anySection(rt), anyStrains(rt)
		r, err := Cup(s, e)
		if err != nil {
			rt.Fatal(err)
		}
		if m := math.Min(math.Abs(s.Pith.Y), math.Abs(s.Pith.Y-s.Thickness)); m < 1e-6 || math.Min(math.Abs(s.Pith.X), math.Abs(s.Pith.X-s.Width)) < 1e-6 {
			rt.Skip("the pith on the border: in or out by the last digit")
		}
		over, _ := Cup(s.RolledOver(), e)
		turned, _ := Cup(s.Turned(), e)
		same := func(what string, a, b float64) {
			if math.Abs(a-b) > 1e-9 {
				rt.Fatalf("%s: %g and %g", what, a, b)
			}
		}
		same("rolled over", over.Middle.Kappa, -r.Middle.Kappa)
		same("rolled over, faces", over.Show.Sagitta, -r.Back.Sagitta)
		same("turned", turned.Middle.Kappa, r.Middle.Kappa)
		same("turned, show", turned.Show.Kappa, r.Show.Kappa)
		same("turned, edges", turned.Middle.front, -r.Middle.rear)
		none, _ := Cup(s, Strains{})
		same("no strain", none.Middle.Sagitta, 0)
		even, _ := Cup(s, Strains{e.T, e.T}) // growing alike all over
		same("even strain", even.Show.Sagitta, 0)
		same("even strain, width", even.Show.Chord, s.Width*(1+e.T))
	})
}

func TestBadSections(t *testing.T) {
	good := under(100, 20, 60)
	for _, s := range []Section{{0, 20, good.Pith}, {100, -1, good.Pith}, {100, math.NaN(), good.Pith}, {math.Inf(1), 20, good.Pith},
		{100, 20, geom.Pt(math.NaN(), 0)}, {100, 20, geom.Pt(math.Inf(1), math.Inf(1))}} {
		if _, err := Cup(s, dried(oak)); err == nil {
			t.Errorf("%v is taken", s)
		}
	}
	for _, e := range []Strains{{math.NaN(), 0}, {0, -8}, {1, 0}} {
		if _, err := Cup(good, e); err == nil {
			t.Errorf("%v is taken", e)
		}
	}
}

// A board 200 wide, pith 100 across and 60 beyond face 1 (depth -60). A strip
// from 40, 80 wide, 3 mm off face 1, 20 thick. Face 1 up: pith across 100 - 40
// = 60, and 60 + 3 above the show face, at 20 + 63 = 83. Rolled over: across
// 80 - 60 = 20, at 20 - 83 = -63. Turned: across mirrored.
func TestCutByHand(t *testing.T) {
	c := Cut{Pith: geom.Pt(100, -60), From: 40, Width: 80, Off: 3, Thickness: 20, Up: 1}
	for _, w := range []struct {
		up     int
		turned bool
		want   geom.Point
		bark   Bark
	}{{1, false, geom.Pt(60, 83), BarkDown}, {1, true, geom.Pt(20, 83), BarkDown}, {2, false, geom.Pt(20, -63), BarkUp}, {2, true, geom.Pt(60, -63), BarkUp}} {
		c.Up, c.Turned = w.up, w.turned
		s, err := c.Section()
		if err != nil || s.Pith != w.want || s.Bark() != w.bark {
			t.Errorf("up %d turned %v: pith at %v, bark %s, %v; want %v, %s", w.up, w.turned, s.Pith, s.Bark(), err, w.want, w.bark)
		}
	}
	c.Up = 3
	if _, err := c.Section(); err == nil {
		t.Error("face 3 is taken")
	}
	// Rings by hand: 45 degrees where the pith lies as far below as beside.
	near(t, "angle", (Section{100, 20, geom.Pt(-50, -90)}).Angle(), 45, 1e-9)
	near(t, "flat", under(100, 20, 50).Angle(), 0, 1e-9)
	if b := (Section{100, 20, geom.Pt(-200, 0)}).Bark(); b != BarkBeside {
		t.Errorf("quarter-sawn: %q", b)
	}
}
