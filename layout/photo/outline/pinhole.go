package outline

import (
	"math"
	"slices"

	"heartside/layout/geom"
)

// A camera's focal length in widths of the picture's longer side: most lie
// about 0.9, hardly any beyond 0.5 and 2. Engineering choice.
const (
	focalUsual  = 0.9
	focalSpread = 0.35 // of its natural logarithm
)

// focals are those tried, the usual ones first.
var focals = func() (f [9]float64) {
	for i := range f {
		f[i] = 0.55 * math.Pow(2.1/0.55, float64(i)/float64(len(f)-1))
	}
	slices.SortFunc(f[:], func(a, b float64) int { return compare(unusual(a), unusual(b)) })
	return f
}()

// unusual is what a focal length costs.
func unusual(f float64) float64 {
	l := math.Log(f/focalUsual) / focalSpread
	return l * l
}

var focalCosts = func() (c [len(focals)]float64) {
	for i, f := range focals {
		c[i] = unusual(f)
	}
	return c
}()

type vec [3]float64

func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func (a vec) dot(b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) len() float64      { return math.Sqrt(a.dot(a)) }

// shape is how far a quadrilateral is from the picture of a rectangle.
type shape struct {
	aspect float64 // natural logarithm of its sides' ratio over that wanted
	skew   float64 // radians from a right angle
	focal  float64 // with which it fits best
	cost   float64 // squared deviations in units of the spreads given
}

// shapeOf judges four corners without bow, after Zhang and He (whiteboard
// scanning, 2007): a pinhole with square pixels and its axis in the middle.
// The focal length is free within what cameras have. spread is the usual error
// of a ratio or an angle.
func shapeOf(q [4]geom.Point, middle geom.Point, longer, length, width, spread float64) shape {
	best := shape{cost: math.Inf(1)}
	var m [4]vec
	for i, p := range q {
		m[i] = vec{(p.X - middle.X) / longer, (p.Y - middle.Y) / longer, 1}
	}
	// m0, m1, m3 span the plane; the depths follow from the parallelogram.
	k2n := m[0].cross(m[2]).dot(m[3])
	k2d := m[1].cross(m[2]).dot(m[3])
	k3n := m[0].cross(m[2]).dot(m[1])
	k3d := m[3].cross(m[2]).dot(m[1])
	if k2d == 0 || k3d == 0 {
		return best
	}
	k1, k3 := k2n/k2d, k3n/k3d
	if !(k1 > 0.2 && k1 < 5 && k3 > 0.2 && k3 < 5) {
		return best
	}
	var u, v vec
	for c := range u {
		u[c] = k1*m[1][c] - m[0][c]
		v[c] = k3*m[3][c] - m[0][c]
	}
	// Of the sides all but the depths' part goes with the focal length.
	su, sv, suv := u[0]*u[0]+u[1]*u[1], v[0]*v[0]+v[1]*v[1], u[0]*v[0]+u[1]*v[1]
	wanted := length / width
	try := func(f, usual float64) {
		k := 1 / (f * f)
		a2, b2 := su*k+u[2]*u[2], sv*k+v[2]*v[2]
		s := shape{focal: f, aspect: 0.5 * math.Log(a2/(b2*wanted*wanted))}
		s.cost = s.aspect*s.aspect/(spread*spread) + usual
		if !(s.cost < best.cost) {
			return
		}
		s.skew = math.Asin(min(max((suv*k+u[2]*v[2])/math.Sqrt(a2*b2), -1), 1))
		if s.cost += s.skew * s.skew / (spread * spread); s.cost < best.cost {
			best = s
		}
	}
	for i, f := range focals {
		if usual := focalCosts[i]; usual < best.cost {
			try(f, usual)
		}
	}
	if spread < roughSpread {
		for k := 1.08; k > 1.003; k = math.Sqrt(k) {
			f := best.focal
			try(f*k, unusual(f*k))
			try(f/k, unusual(f/k))
		}
	}
	return best
}

// line is a x + b y + c = 0 with a, b of length 1.
type line struct{ a, b, c float64 }

func through(p, q geom.Point) line {
	d := q.Sub(p)
	l := d.Len()
	if l == 0 {
		l = 1
	}
	a, b := -d.Y/l, d.X/l
	return line{a, b, -a*p.X - b*p.Y}
}

func (l line) off(p geom.Point) float64 { return l.a*p.X + l.b*p.Y + l.c }

// meet returns where two lines cross; ok is false for parallels.
func (l line) meet(m line) (geom.Point, bool) {
	d := l.a*m.b - m.a*l.b
	if math.Abs(d) < 1e-9 {
		return geom.Point{}, false
	}
	return geom.Pt((l.b*m.c-m.b*l.c)/d, (m.a*l.c-l.a*m.c)/d), true
}
