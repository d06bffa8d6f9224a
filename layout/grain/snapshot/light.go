package snapshot

import (
	"math"

	"heartside/layout/colour"
)

// rgb is light, linear in the primaries of sRGB.
type rgb [3]float64

func light(c colour.Lab) rgb {
	l := c.Linear()
	return rgb{math.Max(l.R, 0.003), math.Max(l.G, 0.003), math.Max(l.B, 0.003)}
}

func lab(l, a, b float64) rgb { return light(colour.Lab{L: l, A: a, B: b}) }

func (c rgb) mix(d rgb, t float64) rgb {
	return rgb{c[0] + t*(d[0]-c[0]), c[1] + t*(d[1]-c[1]), c[2] + t*(d[2]-c[2])}
}

func (c rgb) times(k float64) rgb { return rgb{c[0] * k, c[1] * k, c[2] * k} }

func (c rgb) by(d rgb) rgb { return rgb{c[0] * d[0], c[1] * d[1], c[2] * d[2]} }

func (c rgb) plus(d rgb) rgb { return rgb{c[0] + d[0], c[1] + d[1], c[2] + d[2]} }

// darker takes light away, blue more than red as in wood; a negative d adds
// some.
func (c rgb) darker(d float64) rgb {
	f := func(k float64) float64 { return math.Max(1-k*d, 0.03) }
	return rgb{c[0] * f(1.25), c[1] * f(1.5), c[2] * f(1.7)}
}

func (c rgb) small() [3]float32 { return [3]float32{float32(c[0]), float32(c[1]), float32(c[2])} }
