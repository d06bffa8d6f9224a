package colour

import (
	"image/color"
	"math"
	"testing"
)

// Figures by the definitions of relative luminance and contrast ratio in WCAG
// 2.2 (W3C Recommendation, 5 October 2023), worked by hand: black on white is
// 1.05 / 0.05; #777777 has light ((119/255 + 0.055) / 1.055)^2.4 = 0.1845, so
// 1.05 / 0.2345 = 4.48 on white, just short of 4.5; #767676 0.1812, so 4.54.
// Pure colours follow from the coefficients alone: 1.05 / (0.2126 + 0.05).
func TestContrastRatio(t *testing.T) {
	white, black := color.NRGBA{255, 255, 255, 255}, color.NRGBA{A: 255}
	for _, c := range []struct {
		name string
		a, b color.NRGBA
		want float64
		tol  float64
	}{
		{"black on white", black, white, 21, 1e-12},
		{"the same", white, white, 1, 0},
		{"#777 on white", color.NRGBA{0x77, 0x77, 0x77, 255}, white, 4.48, 0.005},
		{"#767676 on white", color.NRGBA{0x76, 0x76, 0x76, 255}, white, 4.54, 0.005},
		{"red on white", color.NRGBA{255, 0, 0, 255}, white, 1.05 / 0.2626, 1e-9},
		{"green on white", color.NRGBA{0, 255, 0, 255}, white, 1.05 / 0.7652, 1e-9},
		{"blue on black", color.NRGBA{0, 0, 255, 255}, black, 0.1222 / 0.05, 1e-9},
	} {
		if got, back := ContrastRatio(c.a, c.b), ContrastRatio(c.b, c.a); math.Abs(got-c.want) > c.tol || got != back {
			t.Errorf("%s: %.4f and %.4f, want %.4f", c.name, got, back, c.want)
		}
	}
}

func TestGreyKeepsLuminanceAndAlpha(t *testing.T) {
	for v := range 256 {
		c := color.NRGBA{uint8(v), uint8(v), uint8(v), 90}
		if got := Grey(c); got != c {
			t.Fatalf("grey %v became %v", c, got)
		}
	}
	// Light 0.2126 is, by the curve, 1.055 * 0.2126^(1/2.4) - 0.055 = 0.4985,
	// 127 of 255.
	if got := Grey(color.NRGBA{255, 0, 0, 255}); got != (color.NRGBA{127, 127, 127, 255}) {
		t.Errorf("red: %v", got)
	}
}
