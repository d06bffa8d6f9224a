package photo

import (
	"math"

	"heartside/layout/geom"
)

// Lens is the bow a lens gives to straight lines, as the division model of
// Fitzgibbon (2001) has it: a point at distance r from the middle of the
// picture would lie, were the lens perfect, at r / (1 + Bow r^2) from it, with
// r in units of half the picture's diagonal. Lines bulge outwards (barrel)
// where Bow is negative. The zero Lens of a picture of any size is perfect.
type Lens struct {
	Middle geom.Point // pixels
	Half   float64    // half the diagonal, pixels
	Bow    float64    // -0.3 to 0.3
}

// mostBow bounds the bow of a lens that draws boards at all.
const mostBow = 0.3

// LensOf returns the lens of a picture of width x height pixels. A bow beyond
// what a camera has is taken as the most it can have.
func LensOf(width, height int, bow float64) Lens {
	if bow != bow {
		bow = 0
	}
	w, h := float64(width), float64(height)
	return Lens{Middle: geom.Pt(w/2, h/2), Half: math.Hypot(w, h) / 2, Bow: math.Min(math.Max(bow, -mostBow), mostBow)}
}

// Straight returns where a point of the picture, pixels, would lie without the
// bow.
func (l Lens) Straight(p geom.Point) geom.Point {
	if l.Bow == 0 || l.Half <= 0 {
		return p
	}
	d := p.Sub(l.Middle)
	r2 := d.Dot(d) / (l.Half * l.Half)
	return l.Middle.Add(d.Mul(1 / (1 + l.Bow*r2)))
}

// Bowed is the inverse of Straight: where the picture shows a point that lies
// at p without the bow. Beyond the reach of a barrel-shaped picture it returns
// the edge of that reach.
func (l Lens) Bowed(p geom.Point) geom.Point {
	if l.Bow == 0 || l.Half <= 0 {
		return p
	}
	d := p.Sub(l.Middle)
	u2 := d.Dot(d) / (l.Half * l.Half)
	// r = u (1 + Bow r^2), the root that is u where Bow is 0.
	under := max(1-4*l.Bow*u2, 0)
	return l.Middle.Add(d.Mul(2 / (1 + math.Sqrt(under))))
}
