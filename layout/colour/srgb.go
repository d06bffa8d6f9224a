package colour

import "math"

// Linear is light in the primaries of sRGB, 0 to 1 a channel; outside that it
// is no colour a screen can show.
type Linear struct{ R, G, B float64 }

// Decode returns the light of an sRGB value from 0 to 1 (IEC 61966-2-1).
func Decode(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// Encode returns the sRGB value, from 0 to 1, of light (IEC 61966-2-1).
func Encode(light float64) float64 {
	if light <= 0.0031308 {
		return 12.92 * light
	}
	return float64(1.055*math.Pow(light, 1/2.4)) - 0.055
}

// lights is Decode of each of the 256 values. It is never changed.
var lights = func() (t [256]float64) {
	for i := range t {
		t[i] = Decode(float64(i) / 255)
	}
	return t
}()

// Light returns the light of an 8-bit sRGB value, 0 to 1, from a table.
func Light(v uint8) float64 { return lights[v] }

// FromSRGB returns the light of an 8-bit sRGB colour.
func FromSRGB(r, g, b uint8) Linear { return Linear{lights[r], lights[g], lights[b]} }

// SRGB returns the nearest 8-bit sRGB colour, each channel brought into range
// by itself. What is not a number becomes 0.
func (c Linear) SRGB() (r, g, b uint8) { return eight(c.R), eight(c.G), eight(c.B) }

func eight(light float64) uint8 {
	v := math.Round(255 * Encode(light))
	switch {
	case v >= 255:
		return 255
	case v > 0:
		return uint8(v)
	}
	return 0
}

// XYZ is a colour in the CIE 1931 coordinates, Y of white 1.
type XYZ struct{ X, Y, Z float64 }

// White is the light of D65 that sRGB white has: the row sums of the matrix of
// IEC 61966-2-1, so that greys have no hue.
func White() XYZ { return XYZ{0.9505, 1, 1.0890} }

// XYZ turns light by the matrix of IEC 61966-2-1.
func (c Linear) XYZ() XYZ {
	return XYZ{
		dot(0.4124, c.R, 0.3576, c.G, 0.1805, c.B),
		dot(0.2126, c.R, 0.7152, c.G, 0.0722, c.B),
		dot(0.0193, c.R, 0.1192, c.G, 0.9505, c.B),
	}
}

// Linear undoes Linear.XYZ. The numbers are the inverse of that matrix; the
// standard prints them to four places (3.2406 -1.5372 -0.4986 and so on).
func (c XYZ) Linear() Linear {
	return Linear{
		dot(3.2406254773200533, c.X, -1.5372079722103187, c.Y, -0.4986285986982479, c.Z),
		dot(-0.9689307147293194, c.X, 1.875756060885241, c.Y, 0.04151752384295394, c.Z),
		dot(0.05571012044551061, c.X, -0.2040210505984867, c.Y, 1.0569959422543882, c.Z),
	}
}

// dot rounds each product before the sum.
func dot(a, x, b, y, c, z float64) float64 { return float64(a*x) + float64(b*y) + float64(c*z) }
