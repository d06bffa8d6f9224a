package geom

import "math"

// Polygon is one closed ring of points. It is never changed once handed on.
type Polygon []Point

// SignedArea returns the area in mm2, positive where the ring runs
// anticlockwise.
func (p Polygon) SignedArea() float64 {
	var s float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		s += a.Cross(b)
	}
	return s / 2
}

// Area returns the absolute area in mm2 of a ring that does not cross itself.
func (p Polygon) Area() float64 { return math.Abs(p.SignedArea()) }

// Bounds returns the least rectangle that holds p.
func (p Polygon) Bounds() Rect {
	if len(p) == 0 {
		return Rect{}
	}
	r := Rect{p[0], p[0]}
	for _, q := range p[1:] {
		r.Min.X, r.Min.Y = math.Min(r.Min.X, q.X), math.Min(r.Min.Y, q.Y)
		r.Max.X, r.Max.Y = math.Max(r.Max.X, q.X), math.Max(r.Max.Y, q.Y)
	}
	return r
}

// Contains reports whether q lies inside p by the even-odd rule. Points on
// the ring may fall either way.
func (p Polygon) Contains(q Point) bool {
	in := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
