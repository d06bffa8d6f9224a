package colour

import "image/color"

// Luminance returns the relative luminance of a colour as WCAG 2.2 defines it,
// 0 for black to 1 for white, whatever its alpha. WCAG puts the knee of the
// sRGB curve at 0.03928 and IEC 61966-2-1 at 0.04045; no 8-bit value lies
// between.
func Luminance(c color.NRGBA) float64 {
	return dot(0.2126, Light(c.R), 0.7152, Light(c.G), 0.0722, Light(c.B))
}

// Grey returns the grey of the same luminance and alpha: what a colour looks
// like on a printer without colours.
func Grey(c color.NRGBA) color.NRGBA {
	v := eight(Luminance(c))
	return color.NRGBA{R: v, G: v, B: v, A: c.A}
}

// ContrastRatio returns the contrast of two opaque colours as WCAG 2.2 defines
// it, from 1 to 21, in either order. Text wants 4.5 (success criterion 1.4.3),
// large text and what carries meaning in a drawing 3 (1.4.3 and 1.4.11).
func ContrastRatio(a, b color.NRGBA) float64 {
	x, y := Luminance(a), Luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}
