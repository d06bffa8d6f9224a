package depth

import (
	"math"

	"heartside/layout/geom"
)

// curve is where the heartwood of a section ends, from face 1 to face 2, or
// from a face to where the heartwood closes.
type curve struct {
	plain [2]float64 // across, on face 1 and face 2
	round bool       // about the pith
	from  polar
	to    polar
	z     [2]float64 // depths of from and to
	loose [2]bool    // from, to: not seen
}

// polar is a place about the pith.
type polar struct{ angle, r float64 }

// at returns where the line lies at depth z, a share t of the thickness.
func (c *curve) at(p geom.Point, z, t float64) float64 {
	if !c.round {
		return c.plain[0] + t*(c.plain[1]-c.plain[0])
	}
	y, _ := c.about(p, z)
	return y
}

// about returns where the line about the pith lies at a depth, and how far
// along the curve that is.
func (c *curve) about(p geom.Point, z float64) (y, u float64) {
	da, dr := turn(c.from.angle, c.to.angle), c.to.r-c.from.r
	lo, hi := 0.0, 1.0
	zlo, zhi := c.z[0], c.z[1]
	if z <= zlo {
		return p.X + c.from.r*math.Cos(c.from.angle), 0
	}
	if z >= zhi {
		return p.X + c.to.r*math.Cos(c.to.angle), 1
	}
	for n := 0; ; n++ {
		u = lo + (hi-lo)*(z-zlo)/(zhi-zlo)
		if n%3 == 2 {
			u = (lo + hi) / 2
		}
		sin, cos := math.Sincos(c.from.angle + u*da)
		r := c.from.r + ease(u)*dr
		y = p.X + r*cos
		d := p.Y + r*sin - z
		if math.Abs(d) < 1e-3 || n > 40 {
			return y, u
		}
		if d < 0 {
			lo, zlo = u, d+z
		} else {
			hi, zhi = u, d+z
		}
	}
}

// ease goes from 0 to 1 as u does, evenly at neither end: near a face the line
// follows the ring that this face shows.
func ease(u float64) float64 { return u * u * (3 - 2*u) }
