package ageing

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/colour"
)

// Greys by the formula of Sharma, Wu and Dalal (2005), where only lightness
// counts: dE = |dL| / SL, SL = 1 + 0.015 (Lm-50)^2 / sqrt(20 + (Lm-50)^2).
// 40 and 60 have SL = 1 and differ by 20. From 40 a spread of 3 reaches
// d = 3 SL lighter: d = 3.32, mean 41.66, off^2 = 69.6, SL = 1.1103, d = 3.33.
// 43.33 and 60 have mean 51.67, SL = 1 + 0.015 x 2.77 / 4.77 = 1.0087 and differ
// by 16.53. Darker: d = 3.46, mean 38.27, off^2 = 137.6, SL = 1.1644, d = 3.49;
// 36.51 and 60 have mean 48.25, SL = 1 + 0.015 x 3.05 / 4.80 = 1.0095 and differ
// by 23.27.
func TestContrastOfGreys(t *testing.T) {
	c := Between(Shade{Lab: colour.Lab{L: 40}, Spread: 3, Basis: Direction}, Shade{Lab: colour.Lab{L: 60}, Basis: Measured})
	if math.Abs(c.DE-20) > 1e-9 || math.Abs(c.Low-16.53) > 0.02 || c.DL != 20 || c.Basis != Direction {
		t.Errorf("%+v", c)
	}
	// Off the line to white the colours are no greys; the bound is no tighter.
	if c.High < 23.25 {
		t.Errorf("high %.3f, the greys alone reach 23.27", c.High)
	}
	if c := Between(Shade{Lab: colour.Lab{L: 40}}, Shade{Lab: colour.Lab{L: 60}}); c.Low != c.DE || c.High != c.DE {
		t.Errorf("no spread, but %+v", c)
	}
	if c := Between(Shade{Lab: colour.Lab{L: 58}, Spread: 2}, Shade{Lab: colour.Lab{L: 60}, Spread: 1}); c.Low != 0 {
		t.Errorf("spreads that meet leave %g", c.Low)
	}
}

func TestContrastProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(0, 9)
		a := Shade{Lab: anyLab(t, "heart"), Spread: s.Draw(t, "spread of heart")}
		b := Shade{Lab: anyLab(t, "sap"), Spread: s.Draw(t, "spread of sap")}
		x, y := Between(a, b), Between(b, a)
		if math.Abs(x.DE-y.DE) > 1e-9 || math.Abs(x.Low-y.Low) > 1e-6 || math.Abs(x.High-y.High) > 1e-6 || x.DL != -y.DL {
			t.Fatalf("one way %+v, the other %+v", x, y)
		}
		if !(0 <= x.Low && x.Low <= x.DE && x.DE <= x.High) {
			t.Fatalf("%+v", x)
		}
	})
}

// A wider spread holds the narrower one, but for the coarseness of the
// directions. Colours of wood: near grey the mean hue of CIEDE2000 jumps.
func TestWiderSpreadsHoldNarrowerOnes(t *testing.T) {
	wood := func(t *rapid.T, name string) Shade {
		return Shade{Lab: colour.Lab{
			L: rapid.Float64Range(30, 90).Draw(t, name+" L"),
			A: rapid.Float64Range(0, 30).Draw(t, name+" a"),
			B: rapid.Float64Range(12, 40).Draw(t, name+" b"),
		}, Spread: rapid.Float64Range(0, 6).Draw(t, name+" spread")}
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := wood(t, "heart"), wood(t, "sap")
		x := Between(a, b)
		a.Spread += 2
		if y := Between(a, b); y.Low > x.Low+0.5 || y.High < x.High-0.5 {
			t.Fatalf("a wider spread gives %+v, was %+v", y, x)
		}
	})
}

// A slow reference: colours drawn at random within the spreads never leave the
// interval by more than 0.5, the coarseness of its directions.
func TestContrastHoldsWhatMayBe(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	within := func(s Shade) colour.Lab {
		for {
			c := plus(s.Lab, colour.Lab{L: 24 * (2*r.Float64() - 1), A: 24 * (2*r.Float64() - 1), B: 24 * (2*r.Float64() - 1)})
			if c.L >= 0 && c.L <= 100 && colour.DeltaE(s.Lab, c) <= s.Spread {
				return c
			}
		}
	}
	for range 40 {
		heart := Shade{Lab: colour.Lab{L: 35 + 35*r.Float64(), A: 4 + 16*r.Float64(), B: 15 + 20*r.Float64()}, Spread: 2 + 5*r.Float64()}
		sap := Shade{Lab: colour.Lab{L: 70 + 18*r.Float64(), A: 6 * r.Float64(), B: 14 + 12*r.Float64()}, Spread: 2 + 5*r.Float64()}
		c := Between(heart, sap)
		for range 400 {
			if d := colour.DeltaE(within(heart), within(sap)); d < c.Low-0.5 || d > c.High+0.5 {
				t.Fatalf("%v and %v may differ by %.2f, outside %.2f to %.2f", heart, sap, d, c.Low, c.High)
			}
		}
	}
}

func TestOutlook(t *testing.T) {
	of := func(now, one, ten float64) Outlook {
		c := func(y, d float64) Contrast { return Contrast{Years: y, DE: d, Low: d - 1, High: d + 1} }
		return Outlook{c(0, now), c(1, one), c(10, ten)}
	}
	for _, k := range []struct {
		o        Outlook
		change   Change
		sure     bool
		greatest float64
		appears  float64 // years, 0 for never
		may      bool
	}{
		{of(4, 5, 8), Grows, true, 10, 10, true}, // the drawn case: 4 today, 8 in ten years
		{of(4, 7, 5), Holds, false, 1, 1, true},
		{of(4, 4, 5.5), Holds, false, 10, 0, true},
		{of(4, 4, 4), Holds, false, 0, 0, false},
		{of(4, 4, 6), Grows, false, 10, 10, true},
		{of(9, 8, 5), Shrinks, true, 0, 0, false},
		{of(7, 8, 9.5), Grows, true, 10, 0, false}, // shows already
	} {
		c, sure := k.o.Change()
		seen, ok := k.o.Appears(6)
		if c != k.change || sure != k.sure || k.o.Greatest().Years != k.greatest || seen.Years != k.appears || ok != (k.appears > 0) || k.o.MayAppear(6) != k.may {
			t.Errorf("%v: %v %v, greatest at %g, appears at %g, may %v", k.o, c, sure, k.o.Greatest().Years, seen.Years, k.o.MayAppear(6))
		}
	}
}

func BenchmarkContrast(b *testing.B) {
	heart := Shade{Lab: colour.Lab{L: 45, A: 14, B: 25}, Spread: 7}
	sap := Shade{Lab: colour.Lab{L: 80, A: 3, B: 20}, Spread: 5}
	for b.Loop() {
		Between(heart, sap)
	}
}
