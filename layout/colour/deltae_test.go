package colour

import (
	"math"
	"strconv"
	"testing"

	"heartside/layout/layouttest"

	"pgregory.net/rapid"
)

type pair struct {
	a, b Lab
	want float64
}

// sharmaPairs reads the pairs of Sharma, Wu and Dalal (2005), table 1.
func sharmaPairs(t testing.TB) []pair {
	t.Helper()
	_, rows := layouttest.CSV(t, "testdata/ciede2000.csv")
	var out []pair
	for _, row := range rows {
		var v [7]float64
		for i := range v {
			var err error
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, pair{Lab{v[0], v[1], v[2]}, Lab{v[3], v[4], v[5]}, v[6]})
	}
	if len(out) != 34 {
		t.Fatalf("%d pairs, the paper has 34", len(out))
	}
	return out
}

func TestDeltaEOfThePublishedPairs(t *testing.T) {
	for i, p := range sharmaPairs(t) {
		for _, got := range []float64{DeltaE(p.a, p.b), DeltaE(p.b, p.a)} {
			if math.Abs(got-p.want) > 1e-4 {
				t.Errorf("pair %d: %.5f, want %.4f", i+1, got, p.want)
			}
		}
	}
}

// plainDeltaE is the paper's equations (2) to (22) one by one, in degrees.
func plainDeltaE(p, q Lab) float64 {
	sin := func(d float64) float64 { return math.Sin(d * math.Pi / 180) }
	cos := func(d float64) float64 { return math.Cos(d * math.Pi / 180) }
	root7 := func(c float64) float64 { return math.Sqrt(math.Pow(c, 7) / (math.Pow(c, 7) + math.Pow(25, 7))) }
	g := 0.5 * (1 - root7((math.Hypot(p.A, p.B)+math.Hypot(q.A, q.B))/2))
	a1, a2 := (1+g)*p.A, (1+g)*q.A
	c1, c2 := math.Hypot(a1, p.B), math.Hypot(a2, q.B)
	angle := func(a, b float64) float64 {
		if a == 0 && b == 0 {
			return 0
		}
		return math.Mod(math.Atan2(b, a)*180/math.Pi+360, 360)
	}
	h1, h2 := angle(a1, p.B), angle(a2, q.B)
	var dh, hm float64
	switch {
	case c1*c2 == 0:
		dh, hm = 0, h1+h2
	case math.Abs(h2-h1) <= 180:
		dh, hm = h2-h1, (h1+h2)/2
	default:
		dh = h2 - h1 - 360
		if h2 <= h1 {
			dh = h2 - h1 + 360
		}
		hm = (h1 + h2 - 360) / 2
		if h1+h2 < 360 {
			hm = (h1 + h2 + 360) / 2
		}
	}
	big := 2 * math.Sqrt(c1*c2) * sin(dh/2)
	lm, cm := (p.L+q.L)/2, (c1+c2)/2
	tt := 1 - 0.17*cos(hm-30) + 0.24*cos(2*hm) + 0.32*cos(3*hm+6) - 0.20*cos(4*hm-63)
	theta := 30 * math.Exp(-math.Pow((hm-275)/25, 2))
	sl := 1 + 0.015*math.Pow(lm-50, 2)/math.Sqrt(20+math.Pow(lm-50, 2))
	sc, sh := 1+0.045*cm, 1+0.015*cm*tt
	rt := -sin(2*theta) * 2 * root7(cm)
	x, y, z := (q.L-p.L)/sl, (c2-c1)/sc, big/sh
	return math.Sqrt(x*x + y*y + z*z + rt*y*z)
}

func drawLab(t *rapid.T, name string) Lab {
	return Lab{
		rapid.Float64Range(0, 100).Draw(t, name+" L"),
		rapid.Float64Range(-110, 110).Draw(t, name+" a"),
		rapid.Float64Range(-110, 110).Draw(t, name+" b"),
	}
}

func TestDeltaEIsThePaperEquationByEquation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawLab(t, "first"), drawLab(t, "second")
		// The formula jumps where hues are opposite and where one is 0, and
		// rounding decides the side; the published pairs stand for those.
		stretch := math.Hypot(a.A, a.B) * math.Hypot(b.A, b.B)
		if math.Abs(a.A*b.B-a.B*b.A) <= 1e-6*stretch || min(math.Abs(a.B), math.Abs(b.B)) < 1e-6 {
			t.Skip("at a jump")
		}
		got, want := DeltaE(a, b), plainDeltaE(a, b)
		if math.Abs(got-want) > 1e-9*(1+want) {
			t.Fatalf("%v to %v: %.12g, want %.12g", a, b, got, want)
		}
		if back := DeltaE(b, a); math.Abs(got-back) > 1e-9*(1+got) {
			t.Fatalf("%v to %v: %g, but %g the other way", a, b, got, back)
		}
	})
}

// Two greys differ in lightness only: dL / S_L, by hand. Lightness 40 and 60
// have a mean of 50, where S_L is 1; 50 and 70 have 60, where it is
// 1 + 1.5 / sqrt(120).
func TestDeltaEOfGreys(t *testing.T) {
	for _, c := range []struct{ l1, l2, want float64 }{
		{40, 60, 20}, {50, 70, 20 / (1 + 1.5/math.Sqrt(120))}, {30, 30, 0},
	} {
		if got := DeltaE(Lab{L: c.l1}, Lab{L: c.l2}); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("greys %g and %g: %g, want %g", c.l1, c.l2, got, c.want)
		}
	}
	if got := DeltaE(Lab{L: math.NaN()}, Lab{}); !math.IsNaN(got) {
		t.Errorf("of no colour: %g", got)
	}
}

func TestClasses(t *testing.T) {
	for _, c := range []struct {
		de   float64
		want Class
	}{
		{0, OneColour}, {1.999, OneColour}, {2, Medium}, {5.999, Medium}, {6, Large}, {11.999, Large}, {12, Different}, {90, Different}, {math.NaN(), OneColour},
	} {
		if got := ClassOf(c.de); got != c.want {
			t.Errorf("%g: %v, want %v", c.de, got, c.want)
		}
	}
	for c, want := range map[Class]string{OneColour: "very small", Medium: "small to medium", Large: "large", Different: "a different colour", 9: "unknown"} {
		if c.String() != want {
			t.Errorf("class %d is called %q, want %q", int(c), c, want)
		}
	}
}

func BenchmarkDeltaE(b *testing.B) {
	heart, sap := Lab{38, 8, 17}, Lab{72, 5, 22}
	var sum float64
	for b.Loop() {
		sum += DeltaE(heart, sap)
	}
	if sum <= 0 {
		b.Fatal("no difference")
	}
}
