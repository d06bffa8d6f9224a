package colour

import "math"

const (
	degree  = math.Pi / 180
	pow25_7 = 6103515625 // 25 to the 7th
)

// DeltaE returns the CIEDE2000 difference of two colours with kL = kC = kH = 1
// (Sharma, Wu and Dalal, Color Research and Application 30, 2005, 21-30).
func DeltaE(a, b Lab) float64 {
	c1, c2 := norm(a.A, a.B), norm(b.A, b.B)
	stretch := 1 + 0.5*(1-math.Sqrt(chromaShare((c1+c2)/2)))
	a1, a2 := a.A*stretch, b.A*stretch
	c1, c2 = norm(a1, a.B), norm(a2, b.B)
	grey := c1*c2 == 0
	h1, h2 := hue(a1, a.B), hue(a2, b.B)

	// The mean hue, and half the way from h1 to h2, the shorter way round.
	half, mean := 0.0, h1+h2
	if !grey {
		half, mean = (h2-h1)/2, (h1+h2)/2
		switch {
		case !farther(h1, h2, float64(a1*b.B)-float64(a2*a.B)):
		case h1+h2 < 360:
			half, mean = turned(half), mean+180
		default:
			half, mean = turned(half), mean-180
		}
	}
	l, c := (a.L+b.L)/2, (c1+c2)/2
	dl, dc := b.L-a.L, c2-c1
	dh := 2 * math.Sqrt(c1*c2) * math.Sin(half*degree)

	off := float64((l - 50) * (l - 50))
	sl := 1 + 0.015*off/math.Sqrt(20+off)
	sc := 1 + float64(0.045*c)
	sh := 1 + float64(0.015*c*hueWeight(mean))
	x, y, z := dl/sl, dc/sc, dh/sh
	sum := float64(x*x) + float64(y*y) + float64(z*z)
	if rt := rotation(mean, c); rt != 0 {
		sum += float64(rt * y * z)
	}
	return math.Sqrt(max(sum, 0))
}

// norm is math.Hypot without its care for very large numbers.
func norm(x, y float64) float64 { return math.Sqrt(float64(x*x) + float64(y*y)) }

// chromaShare is c^7/(c^7 + 25^7).
func chromaShare(c float64) float64 {
	c2 := c * c
	c7 := c2 * c2 * c2 * c
	return c7 / (c7 + pow25_7)
}

// hue returns the angle in degrees from 0 to 360; 0 for grey.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := math.Atan2(b, a) / degree
	if h < 0 {
		h += 360
	}
	return h
}

// farther reports whether two hues lie more than 180 degrees apart. At exactly
// that the angles are rounded, but the cross product of the colours is 0.
func farther(h1, h2, cross float64) bool {
	return (h2-h1 > 90 && cross < 0) || (h1-h2 > 90 && cross > 0)
}

// turned brings half a difference of hues over to the other way round.
func turned(half float64) float64 {
	if half > 0 {
		return half - 180
	}
	return half + 180
}

// hueWeight is T: 1 - 0.17 cos(h-30) + 0.24 cos 2h + 0.32 cos(3h+6) -
// 0.20 cos(4h-63), from one sine and cosine.
func hueWeight(mean float64) float64 {
	s, c := math.Sincos(mean * degree)
	s2, c2 := 2*float64(s*c), float64(c*c)-float64(s*s)
	s3, c3 := float64(s2*c)+float64(c2*s), float64(c2*c)-float64(s2*s)
	s4, c4 := 2*float64(s2*c2), float64(c2*c2)-float64(s2*s2)
	const ( // cosines and sines of 30, 6 and 63 degrees
		c30, s30 = 0.8660254037844386468, 0.5
		c06, s06 = 0.9945218953682733132, 0.1045284632676534720
		c63, s63 = 0.4539904997395467915, 0.8910065241883678623
	)
	return 1 - float64(0.17*(float64(c*c30)+float64(s*s30))) + float64(0.24*c2) +
		float64(0.32*(float64(c3*c06)-float64(s3*s06))) - float64(0.20*(float64(c4*c63)+float64(s4*s63)))
}

// rotation is R_T, which matters for blues only: ten of its widths off it is
// under 1e-40.
func rotation(mean, c float64) float64 {
	off := (mean - 275) / 25
	if math.Abs(off) > 10 {
		return 0
	}
	return -math.Sin(60*degree*math.Exp(-float64(off*off))) * 2 * math.Sqrt(chromaShare(c))
}
