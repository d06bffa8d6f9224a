package geom

import "math"

// Affine maps (x, y) to (A x + B y + C, D x + E y + F).
type Affine struct{ A, B, C, D, E, F float64 }

// Identity maps every point to itself.
var Identity = Affine{A: 1, E: 1}

// Translate returns the map that adds (x, y).
func Translate(x, y float64) Affine { return Affine{1, 0, x, 0, 1, y} }

// Scale returns the map that multiplies x by sx and y by sy about the origin.
func Scale(sx, sy float64) Affine { return Affine{sx, 0, 0, 0, sy, 0} }

// Rotate returns the anticlockwise turn about the origin, in degrees. Quarter
// turns are exact.
func Rotate(degrees float64) Affine {
	s, c := math.Sincos(degrees * math.Pi / 180)
	switch math.Mod(degrees, 360) {
	case 0:
		s, c = 0, 1
	case 90, -270:
		s, c = 1, 0
	case 180, -180:
		s, c = 0, -1
	case 270, -90:
		s, c = -1, 0
	}
	return Affine{c, -s, 0, s, c, 0}
}

// Apply returns the image of p.
func (m Affine) Apply(p Point) Point {
	return Point{m.A*p.X + m.B*p.Y + m.C, m.D*p.X + m.E*p.Y + m.F}
}

// Then returns the map that does m first and n after it.
func (m Affine) Then(n Affine) Affine {
	return Affine{
		n.A*m.A + n.B*m.D, n.A*m.B + n.B*m.E, n.A*m.C + n.B*m.F + n.C,
		n.D*m.A + n.E*m.D, n.D*m.B + n.E*m.E, n.D*m.C + n.E*m.F + n.F,
	}
}

// Det returns the factor by which m multiplies signed area.
func (m Affine) Det() float64 { return m.A*m.E - m.B*m.D }

// Inverse returns the map that undoes m, and false where m flattens the plane.
func (m Affine) Inverse() (Affine, bool) {
	d := m.Det()
	if d == 0 || math.IsNaN(d) {
		return Affine{}, false
	}
	a, b, c, e := m.E/d, -m.B/d, -m.D/d, m.A/d
	return Affine{a, b, -(a*m.C + b*m.F), c, e, -(c*m.C + e*m.F)}, true
}

// ApplyTo returns the image of a polygon, as a new polygon.
func (m Affine) ApplyTo(p Polygon) Polygon {
	out := make(Polygon, len(p))
	for i, q := range p {
		out[i] = m.Apply(q)
	}
	return out
}
