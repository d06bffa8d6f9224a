package colour

import (
	"image/color"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func close3(a, b, c, x, y, z, tol float64) bool {
	return math.Abs(a-x) <= tol && math.Abs(b-y) <= tol && math.Abs(c-z) <= tol
}

// Chromaticities of the primaries and of D65 as IEC 61966-2-1 lists them; its
// matrix has four places.
func TestPrimariesHaveTheirChromaticities(t *testing.T) {
	for _, c := range []struct {
		r, g, b uint8
		x, y    float64
	}{
		{255, 0, 0, 0.6400, 0.3300}, {0, 255, 0, 0.3000, 0.6000}, {0, 0, 255, 0.1500, 0.0600}, {255, 255, 255, 0.3127, 0.3290}, {77, 77, 77, 0.3127, 0.3290},
	} {
		q := FromSRGB(c.r, c.g, c.b).XYZ()
		s := q.X + q.Y + q.Z
		if math.Abs(q.X/s-c.x) > 2e-4 || math.Abs(q.Y/s-c.y) > 2e-4 {
			t.Errorf("%d %d %d: x %.4f y %.4f, want %.4f %.4f", c.r, c.g, c.b, q.X/s, q.Y/s, c.x, c.y)
		}
	}
}

// The primaries' CIELAB worked independently with the seven-place matrix that
// follows from the chromaticities (0.4124564 0.3575761 0.1804375 and so on);
// the four-place one of the standard moves them by up to 0.02.
func TestLabOfPrimaries(t *testing.T) {
	for _, c := range []struct {
		rgb  [3]uint8
		want Lab
	}{
		{[3]uint8{255, 0, 0}, Lab{53.2408, 80.0925, 67.2032}},
		{[3]uint8{0, 255, 0}, Lab{87.7347, -86.1827, 83.1793}},
		{[3]uint8{0, 0, 255}, Lab{32.2970, 79.1875, -107.8602}},
	} {
		got := FromSRGB(c.rgb[0], c.rgb[1], c.rgb[2]).Lab()
		if !close3(got.L, got.A, got.B, c.want.L, c.want.A, c.want.B, 0.025) {
			t.Errorf("%v: %v, want %v", c.rgb, got, c.want)
		}
	}
}

// Greys by the definition of CIE 15, worked by hand: L = 116 Y^(1/3) - 16, so
// Y = (66/116)^3 is L 50, Y = (24/116)^3 = 0.008856 is L 8 where the straight
// part ends, and half that Y is L 4.
func TestLightnessOfGreys(t *testing.T) {
	for _, c := range []struct{ y, l float64 }{
		{0, 0}, {1, 100}, {math.Pow(66.0/116, 3), 50}, {math.Pow(24.0/116, 3), 8}, {math.Pow(24.0/116, 3) / 2, 4}, {0.001, 0.9032963},
	} {
		got := Linear{c.y, c.y, c.y}.Lab()
		if !close3(got.L, got.A, got.B, c.l, 0, 0, 1e-6) {
			t.Errorf("grey of light %g: %v, want L %g", c.y, got, c.l)
		}
	}
	for v := range 256 {
		if got := FromSRGB(uint8(v), uint8(v), uint8(v)).Lab(); math.Abs(got.A) > 1e-12 || math.Abs(got.B) > 1e-12 {
			t.Errorf("grey %d has a hue: %v", v, got)
		}
	}
}

// The sRGB curve at points worked by hand from IEC 61966-2-1: straight below
// the knee, and both parts the same at it to the four places of the standard.
func TestCurve(t *testing.T) {
	for _, c := range []struct{ v, light float64 }{
		{0, 0}, {0.02584, 0.002}, {0.04045, 0.0031308}, {1, 1}, {0.5, math.Pow(1.11/2.11, 2.4)},
	} {
		if got := Decode(c.v); math.Abs(got-c.light) > 1e-7 {
			t.Errorf("decode %g: %g, want %g", c.v, got, c.light)
		}
		if got := Encode(c.light); math.Abs(got-c.v) > 1e-6 {
			t.Errorf("encode %g: %g, want %g", c.light, got, c.v)
		}
	}
	for v := range 256 {
		if got, want := Light(uint8(v)), Decode(float64(v)/255); got != want {
			t.Errorf("table at %d: %g, want %g", v, got, want)
		}
	}
}

func TestEightBitColoursComeBack(t *testing.T) {
	for r := 0; r < 256; r += 5 {
		for g := 0; g < 256; g += 5 {
			for b := 0; b < 256; b += 5 {
				c := color.NRGBA{R: uint8(r), G: uint8(g), B: uint8(b), A: 255}
				if got := FromNRGBA(c).ToNRGBA(); got != c {
					t.Fatalf("%v came back as %v", c, got)
				}
			}
		}
	}
}

func TestLabAndLightGoBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawLab(t, "colour")
		if got := c.Linear().Lab(); !close3(got.L, got.A, got.B, c.L, c.A, c.B, 1e-9) {
			t.Fatalf("%v came back as %v", c, got)
		}
	})
}

func TestOutOfRangeIsBroughtIn(t *testing.T) {
	for c, want := range map[Lab]color.NRGBA{
		{L: 150}: {255, 255, 255, 255}, {L: -20}: {0, 0, 0, 255},
	} {
		if got := c.ToNRGBA(); got != want {
			t.Errorf("%v: %v, want %v", c, got, want)
		}
	}
	if got := (Lab{L: math.NaN()}).ToNRGBA(); got != (color.NRGBA{A: 255}) {
		t.Errorf("no colour: %v", got)
	}
	if got := (Lab{L: 60, A: 120, B: -120}).ToNRGBA(); got.G != 0 || got.B != 255 {
		t.Errorf("no screen shows this purple: %v", got)
	}
}

func TestAlphaIsTakenOut(t *testing.T) {
	full, half := FromRGBA(color.RGBA{R: 200, G: 100, B: 50, A: 255}), FromRGBA(color.RGBA{R: 100, G: 50, B: 25, A: 128})
	if DeltaE(full, half) > 1 { // 100/128 is 199.2/255
		t.Errorf("half there: %v, want about %v", half, full)
	}
	if FromRGBA(color.RGBA{}).Known() {
		t.Error("a pixel that is not there has a colour")
	}
	if got := FromRGBA(color.RGBA{R: 255, G: 255, B: 255, A: 10}); math.Abs(got.L-100) > 1e-9 {
		t.Errorf("brighter than its alpha: %v", got)
	}
}

func BenchmarkLabOfPixel(b *testing.B) {
	var sum float64
	var v uint8
	for b.Loop() {
		sum += FromSRGB(v, 128, 64).Lab().L
		v++
	}
	if sum <= 0 {
		b.Fatal("black")
	}
}
