package geom

import "math"

// Ellipse returns n points, at least 3, of the ellipse that fills r,
// anticlockwise from its right end. The points lie on the ellipse, so the ring
// is a little smaller: its area is that of the ellipse times
// sin(2 pi/n) / (2 pi/n).
func Ellipse(r Rect, n int) Polygon {
	n = max(n, 3)
	c, a, b := r.Centre(), r.W()/2, r.H()/2
	p := make(Polygon, n)
	for i := range p {
		s, k := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		p[i] = Point{c.X + a*k, c.Y + b*s}
	}
	return p
}
