package cup

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func bend(t *testing.T, layers ...Layer) *Bend {
	t.Helper()
	b, err := Layers(layers)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// S. Timoshenko, Analysis of bi-metal thermostats (1925), equation 4, with
// h = 20 mm and a difference of strain of 0.001: m = t1/t2, n = E1/E2; layer 2
// grows more, lies on top and ends convex. Citation from memory (M), numbers
// derived and checked (C).
func TestTwoLayers(t *testing.T) {
	for _, c := range []struct{ m, n, want float64 }{
		{1, 1, 7.50000e-5}, {0.5, 2, 7.29730e-5}, {0.25, 1, 4.80000e-5}, {1, 0.5, 7.27273e-5}, {2, 0.3, 7.48614e-5},
	} {
		t1 := 20 * c.m / (1 + c.m)
		b := bend(t, Layer{t1, 1000 * c.n, 0}, Layer{20 - t1, 1000, 0.001})
		near(t, "two layers", -b.Kappa, c.want, 6e-11)
		mn := c.m * c.n // the equation itself
		p := (1 + c.m) * (1 + c.m)
		near(t, "equation", -b.Kappa, 6*0.001*p/(20*(3*p+(1+mn)*(c.m*c.m+1/mn))), 1e-15)
	}
}

// Rises of a circle of radius 13 333.33 mm, exact and by the parabola, and the
// radius back from the rise (derived, C).
func TestRise(t *testing.T) {
	for _, c := range [][3]float64{{150, 0.21094, 0.21094}, {600, 3.37543, 3.37500}, {900, 7.59591, 7.59375}} {
		s, err := Rise(7.5e-5, c[0])
		if err != nil {
			t.Fatal(err)
		}
		near(t, "exact", s, c[1], 5.1e-6)
		near(t, "parabola", 7.5e-5*c[0]*c[0]/8, c[2], 5.1e-6)
		rho, err := Radius(c[0], s)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "radius", rho, 1/7.5e-5, 1e-6)
	}
	// A ring on the end of a board: chord 100, rise 6.5 mm.
	r, _ := Radius(100, 6.5)
	near(t, "ring", r, 195.6, 0.05)
	if _, err := Rise(0.1, 30); err == nil {
		t.Error("a chord longer than the circle is wide")
	}
	if _, err := Radius(100, 0); err == nil {
		t.Error("no rise, no circle")
	}
}

// Sections of more layers (derived, checked by two independent calculations, C).
func TestLayersByHand(t *testing.T) {
	b := bend(t, Layer{10, 1, 0}, Layer{10, 1, 1e-3})
	near(t, "even", -b.Kappa, 7.5e-5, 1e-15)
	near(t, "width", b.Strain, 5e-4, 1e-15)
	b = bend(t, Layer{5, 1, 1e-3}, Layer{10, 2, 0}, Layer{5, 1, 1e-3})
	near(t, "symmetric", b.Kappa, 0, 1e-18)
	near(t, "symmetric width", b.Strain, 3.33333e-4, 5e-10)
	b = bend(t, Layer{4, 1060, 0.004}, Layer{12, 620, 0.003}, Layer{4, 620, 0.003})
	near(t, "three", -b.Kappa, -5.775389e-5, 5e-12)
	near(t, "three width", b.Strain, 3.299435e-3, 5e-10)
	near(t, "centre", b.Centre, 9.005650, 5e-7)
}

// A 20 mm walnut strip with a sapwood skin 2 points behind (0.00548 of strain):
// skin 2.5, 5, 10 mm (derived, C).
func TestWalnutSkin(t *testing.T) {
	for _, c := range []struct{ skin, kappa, rise float64 }{{2.5, 1.80e-4, 0.51}, {5, 3.08e-4, 0.87}, {10, 4.11e-4, 1.16}} {
		b := bend(t, Layer{20 - c.skin, 700, 0}, Layer{c.skin, 700, -0.00548})
		near(t, "skin", b.Kappa, c.kappa, 0.006e-4)
		rise, _ := Rise(b.Kappa, 150)
		near(t, "rise", rise, c.rise, 0.006)
	}
}

// Both resultants of the stresses vanish, whatever the layers: each layer's
// stress is a straight line, so its force and moment are closed forms. Layers
// that would all be alike do not bend, and upside down the bend turns.
func TestLayersBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		var ls, up []Layer
		for range rapid.IntRange(1, 6).Draw(t, "layers") {
			l := Layer{f(0.5, 20, "thickness"), f(100, 3000, "modulus"), f(-0.05, 0.05, "strain")}
			ls, up = append(ls, l), append([]Layer{l}, up...)
		}
		b, err := Layers(ls)
		if err != nil {
			t.Fatal(err)
		}
		over, _ := Layers(up)
		if math.Abs(over.Kappa+b.Kappa) > 1e-12 {
			t.Fatalf("upside down %g, before %g", over.Kappa, b.Kappa)
		}
		var force, moment, y float64
		for i, s := range b.Stress {
			h := ls[i].Thickness
			force += h * (s.Bottom + s.Top) / 2
			moment += h * (s.Bottom*(3*y+h) + s.Top*(3*y+2*h)) / 6
			y += h
		}
		if math.Abs(force) > 1e-8 || math.Abs(moment) > 1e-6 {
			t.Fatalf("force %g, moment %g left", force, moment)
		}
	})
}

// Walnut, 2 points over 20 mm: 0.00274 x 2 / 20 = 2.74e-4, rise 12.3 mm on 600
// (derived, C). A face 1 point drier over a panel of 900 x 20: 13.9 mm.
func TestGradient(t *testing.T) {
	b, err := Gradient(0.00274, 10, 8, 20)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "curvature", b.Kappa, 2.74e-4, 1e-15)
	near(t, "600 mm", b.Kappa*600*600/8, 12.33, 0.005)
	// Many thin layers come to the same.
	var ls []Layer
	for i := range 200 {
		ls = append(ls, Layer{0.1, 700, -0.00548 * (float64(i) + 0.5) / 200})
	}
	near(t, "as layers", bend(t, ls...).Kappa, 2.74e-4, 1e-8)
	if b, _ = Gradient(0.00274, 8, 10, 20); b.Kappa >= 0 {
		t.Error("a show face wetter than the back is not hollow")
	}
	for _, bad := range [][4]float64{{0.27, 10, 8, 20}, {0.00274, 10, 8, 0}, {math.NaN(), 10, 8, 20}, {-0.001, 10, 8, 20}} {
		if _, err := Gradient(bad[0], bad[1], bad[2], bad[3]); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
}

// Coefficients by ring angle: sugar maple and walnut at 0 to 90 degrees, a
// printed transform worked out (from memory M, numbers C).
func TestAtAngle(t *testing.T) {
	for _, c := range []struct {
		wood [2]float64
		want []float64
	}{{maple, []float64{.00353, .00340, .00306, .00259, .00212, .00178, .00165}}, {walnut, []float64{.00274, .00268, .00253, .00232, .00211, .00196, .00190}}} {
		for i, a := range []float64{0, 15, 30, 45, 60, 75, 90} {
			near(t, "coefficient", AtAngle(c.wood[0], c.wood[1], a), c.want[i], 5.1e-6)
		}
	}
}

// Sapwood on the show half of the section, moving 1.1 times as much: two equal
// layers, 3 d / 2h = 3 x 0.1 x 0.01 / 40 = 7.5e-5 (Timoshenko), hollow when it
// dries. A wedge that is on half the stations bends half as much; sapwood that
// moves alike, on both faces alike or all through does not bend at all.
func TestSapBend(t *testing.T) {
	half := Sap{FromBack: []float64{0, 0}, FromShow: []float64{0.5, 0.5}}
	b, err := SapBend(half, 20, -0.01, 1.1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "half", b.Kappa, 7.5e-5, 1e-15)
	wedge := Sap{FromBack: []float64{0, 0}, FromShow: []float64{0.5, 0}}
	b, _ = SapBend(wedge, 20, -0.01, 1.1)
	near(t, "wedge", b.Kappa, 3.75e-5, 1e-15)
	for _, none := range []struct {
		s      Sap
		factor float64
	}{{half, 1}, {Sap{[]float64{0.25}, []float64{0.25}}, 1.2}, {Sap{[]float64{0.7}, []float64{0.6}}, 1.2}, {Sap{[]float64{0}, []float64{1}}, 1.2}} {
		b, err := SapBend(none.s, 20, -0.01, none.factor)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "no bend", b.Kappa, 0, 1e-18)
	}
	for _, bad := range []Sap{{}, {[]float64{0}, nil}, {[]float64{-0.1}, []float64{0}}, {[]float64{0}, []float64{math.NaN()}}} {
		if _, err := SapBend(bad, 20, -0.01, 1.1); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
	if _, err := SapBend(half, 20, -0.01, 0); err == nil {
		t.Error("sapwood that does not move at all")
	}
	for _, bad := range [][]Layer{nil, {{0, 1, 0}}, {{1, 0, 0}}, {{1, 1, 7}}, {{math.NaN(), 1, 0}}} {
		if _, err := Layers(bad); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
}
