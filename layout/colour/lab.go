package colour

import (
	"image/color"
	"math"
)

// delta is where the cube root of CIELAB gives way to a straight line (CIE 15).
const delta = 6.0 / 29

// Lab turns CIE coordinates into CIELAB for the white of D65.
func (c XYZ) Lab() Lab {
	w := White()
	x, y, z := root(c.X/w.X), root(c.Y/w.Y), root(c.Z/w.Z)
	return Lab{float64(116*y) - 16, 500 * (x - y), 200 * (y - z)}
}

// XYZ turns CIELAB into CIE coordinates.
func (c Lab) XYZ() XYZ {
	w := White()
	y := (c.L + 16) / 116
	return XYZ{w.X * cube(y+c.A/500), w.Y * cube(y), w.Z * cube(y-c.B/200)}
}

func root(t float64) float64 {
	if t > delta*delta*delta {
		return math.Cbrt(t)
	}
	return t/(3*delta*delta) + 4.0/29
}

func cube(v float64) float64 {
	if v > delta {
		return v * v * v
	}
	return 3 * delta * delta * (v - 4.0/29)
}

// Lab turns light into CIELAB.
func (c Linear) Lab() Lab { return c.XYZ().Lab() }

// Linear turns CIELAB into light.
func (c Lab) Linear() Linear { return c.XYZ().Linear() }

// FromRGBA turns a pixel into CIELAB. Its alpha says how much of the colour is
// there and is taken out; without any the colour is not known and L is NaN.
func FromRGBA(c color.RGBA) Lab {
	switch c.A {
	case 0:
		return Lab{L: math.NaN()}
	case 255:
		return FromSRGB(c.R, c.G, c.B).Lab()
	}
	full := func(v uint8) float64 { return Decode(min(float64(v)/float64(c.A), 1)) }
	return Linear{full(c.R), full(c.G), full(c.B)}.Lab()
}

// FromNRGBA turns a colour into CIELAB, whatever its alpha.
func FromNRGBA(c color.NRGBA) Lab { return FromSRGB(c.R, c.G, c.B).Lab() }

// ToNRGBA returns the nearest opaque 8-bit sRGB colour, each channel brought
// into range by itself.
func (c Lab) ToNRGBA() color.NRGBA {
	r, g, b := c.Linear().SRGB()
	return color.NRGBA{R: r, G: g, B: b, A: 255}
}

// Known reports whether c is a colour: its parts are finite.
func (c Lab) Known() bool {
	return !math.IsNaN(c.L-c.L) && !math.IsNaN(c.A-c.A) && !math.IsNaN(c.B-c.B)
}
