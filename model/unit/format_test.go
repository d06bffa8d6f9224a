package unit

import (
	"math"
	"strings"
	"testing"

	"heartside/model/say"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		sys  System
		want string
	}{
		{930, MM, "930 mm"}, {930, "", "930 mm"}, {92.44, MM, "92.4 mm"}, {92.45, MM, "92.5 mm"}, {91.96, MM, "92 mm"}, {0, MM, "0 mm"}, {0.04, MM, "0 mm"}, {-0.04, MM, "0 mm"}, {-3.26, MM, "−3.3 mm"},
		{187.325, Inch, `7 3/8"`}, {9.525, Inch, `3/8"`}, {25.4, Inch, `1"`}, {0, Inch, `0"`}, {0.5, Inch, `0"`}, {0.8, Inch, `1/16"`}, {-0.5, Inch, `0"`},
		{15.999 * 25.4, Inch, `16"`}, // the fraction carries
		{11.98 * 25.4, Inch, `12"`},
		{14.5 * 25.4, Inch, `14 1/2"`}, {-14.5 * 25.4, Inch, `−14 1/2"`}, {-9.525, Inch, `−3/8"`},
		{math.NaN(), MM, "not known"}, {math.Inf(1), Inch, "not known"}, {math.Inf(-1), MM, "not known"},
	} {
		if got := Format(c.mm, c.sys); got != c.want {
			t.Errorf("%g in %q: %s, want %s", c.mm, c.sys, got, c.want)
		}
	}
}

func TestFormatStyles(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		s    Style
		want string
	}{
		{92.5, Style{WholeMM: true}, "93 mm"}, {-92.5, Style{WholeMM: true}, "−93 mm"}, {0.4, Style{WholeMM: true}, "0 mm"},
		{25.4 * 0.03125, Style{System: Inch, PerInch: 32}, `1/32"`}, {25.4 * 0.375, Style{System: Inch, PerInch: 64}, `3/8"`}, {25.4 * 63 / 64, Style{System: Inch, PerInch: 64}, `63/64"`}, {25.4 * 0.3, Style{System: Inch, PerInch: 8}, `1/4"`}, {25.4 * 0.3, Style{System: Inch, PerInch: -1}, `5/16"`},
		{368.3, Style{System: Inch, Feet: true}, `1'-2 1/2"`}, {304.8, Style{System: Inch, Feet: true}, `1'-0"`}, {609.6 + 9.525, Style{System: Inch, Feet: true}, `2'-0 3/8"`}, {187.325, Style{System: Inch, Feet: true}, `7 3/8"`}, {-368.3, Style{System: Inch, Feet: true}, `−1'-2 1/2"`},
		{11.99 * 25.4, Style{System: Inch, Feet: true}, `1'-0"`}, {23.99 * 25.4, Style{System: Inch, Feet: true}, `2'-0"`}, // carries into feet
	} {
		if got := c.s.Format(c.mm); got != c.want {
			t.Errorf("%g as %+v: %s, want %s", c.mm, c.s, got, c.want)
		}
	}
}

func TestFormatTakesAnyNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64().Draw(t, "amount")
		for _, sys := range []System{MM, Inch} {
			for _, s := range []string{Format(v, sys), Style{System: sys, Feet: true, PerInch: 64}.Format(v), FormatArea(v, sys), FormatVolume(v, sys)} {
				if s == "" || strings.Contains(s, "Inf") || strings.Contains(s, "NaN") || strings.HasPrefix(s, "−0 ") || strings.Contains(s, "-0 ") && !strings.Contains(s, "'-0 ") {
					t.Fatalf("%g prints as %q", v, s)
				}
			}
		}
	})
}

// A board foot is 144 cubic inches, 2359.737 216 cm3; a cubic metre holds
// 423.776 of them; 12 make a cubic foot. All by the definition of the inch.
func TestBoardMeasure(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
		tol       float64
	}{
		{"1 x 12 x 12 in", BoardFeet(25.4 * 304.8 * 304.8), 1, 1e-12},
		{"2 in x 6 in x 8 ft", BoardFeet(50.8 * 152.4 * 2438.4), 8, 1e-12},
		{"2359.737216 cm3", BoardFeet(2359.737216e3), 1, 1e-12},
		{"a cubic metre", BoardFeet(1e9), 423.776, 5e-4},
		{"a cubic foot", BoardFeet(CubicFootMM3), 12, 1e-12},
		{"12 x 12 x 12 in", CubicFeet(304.8 * 304.8 * 304.8), 1, 1e-12},
		{"a cubic metre in feet", CubicFeet(1e9), 35.3147, 5e-5}, // NIST SP 811, appendix B: 1 ft3 = 2.831685E-02 m3
		{"2400 x 210 x 26 mm", CubicMetres(2400 * 210 * 26), 0.013104, 1e-12},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("%s: %.9g, want %.9g", c.name, c.got, c.want)
		}
	}
}

func TestFormatMeasures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{FormatVolume(2400*210*26, MM), "0.0131 m³"}, {FormatVolume(2400*210*26, Inch), "5.55 bd ft"}, // 0.013104 x 423.776
		{FormatVolume(100*50*20, MM), "100 cm³"}, {FormatVolume(0, MM), "0 cm³"}, {FormatVolume(math.NaN(), MM), "not known"},
		{FormatCubicFeet(2400 * 210 * 26), "0.46 ft³"}, {FormatCubicFeet(math.Inf(1)), "not known"},
		{FormatArea(900*450, MM), "0.405 m²"}, {FormatArea(900*25, MM), "225 cm²"}, {FormatArea(1234, MM), "12.3 cm²"}, {FormatArea(99, MM), "99 mm²"}, {FormatArea(-1e6, MM), "−1.000 m²"}, {FormatArea(math.NaN(), Inch), "not known"},
		{FormatArea(900*450, Inch), "4.36 ft²"}, {FormatArea(900*25, Inch), "34.9 in²"}, {FormatArea(144*645.16, Inch), "1.00 ft²"}, {FormatArea(2*645.16, Inch), "2 in²"},
		{FormatMoney(12.5, "EUR"), "12.50 EUR"}, {FormatMoney(-3, ""), "−3.00"}, {FormatMoney(0.004, "GBP"), "0.00 GBP"}, {FormatMoney(-0.004, "GBP"), "0.00 GBP"}, {FormatMoney(math.NaN(), "USD"), "not known"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

func TestFormatPercent(t *testing.T) {
	for share, want := range map[float64]string{
		0: "0 %", 0.0001: "under 0.1 %", 0.0005: "0.1 %", 0.004: "0.4 %", 0.06: "6 %", 0.063: "6.3 %", 0.0996: "10 %", 0.134: "13 %", 0.135: "14 %",
		0.5: "50 %", 0.986: "99 %", 0.996: "99.6 %", 0.9999: "over 99.9 %", 1: "100 %", 1.2: "120 %", -0.02: "−2 %", math.NaN(): "not known",
	} {
		if got := FormatPercent(share); got != want {
			t.Errorf("%g: %s, want %s", share, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(1e-12, 1-1e-12).Draw(t, "share")
		if got := FormatPercent(share); got == "0 %" || got == "100 %" {
			t.Fatalf("%g prints as %s", share, got)
		}
	})
}

// Beside 1.2 m2, 45 cm2 are 0.005 m2; beside a volume of 0.01 m3, 90 cm3 are 0.0001.
func TestLikeUnits(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{FormatAreaLike(4500, 1.2e6, MM), "0.005 m²"},
		{FormatAreaLike(0, 1.2e6, MM), "0.000 m²"},
		{FormatAreaLike(72*645.16, 20*92903.04, Inch), "0.50 ft²"},
		{FormatVolumeLike(90e3, 1e7, MM), "0.0001 m³"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// What is printed in a language with a decimal comma is read as it was meant.
func TestDecimalCommaIsReadBack(t *testing.T) {
	t.Cleanup(func() { say.Use("", nil) })
	say.Use("de", map[string]string{". [decimal]": ","})
	for mm, want := range map[float64]string{92.4: "92,4 mm", 1234.5: "1234,5 mm", -0.3: "−0,3 mm", 40: "40 mm"} {
		got := Format(mm, MM)
		if got != want {
			t.Errorf("%g is printed as %q, want %q", mm, got, want)
		}
		if back, err := Parse(got, MM); err != nil || math.Abs(back-mm) > 1e-9 {
			t.Errorf("%q is read as %g, %v", got, back, err)
		}
	}
	for got, want := range map[string]string{
		FormatPercent(0.004): "0,4 %", FormatMoney(12.5, "EUR"): "12,50 EUR", FormatVolume(13.1e6, MM): "0,0131 m³", FormatArea(22.55e3, MM): "225,5 cm²",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
