package snapshot

import (
	"math"

	"heartside/layout/geom"
)

// side of a box a ray meets.
const (
	topSide = iota
	lowSide // that of least y, the near edge
	highSide
	leftSide
	rightSide
)

// box is a thing on the ground: a board, a rule, a sheet of paper.
type box struct {
	mid         geom.Point
	sin, cos    float64 // of its turn
	l, w        float64 // half of length and width, mm
	top, bottom float64
	skin        skin
	pos         vec // of the camera, in the box's frame
	lo, hi      geom.Point
}

// skin is the colour of a box: u and v run from its lower left corner, deep
// down from its top.
type skin interface {
	colour(side int, u, v, deep, px float64) rgb
}

// set makes the box ready for a camera.
func (b *box) set(v *view) {
	b.pos = b.local(v.pos)
	b.lo, b.hi = geom.Pt(math.Inf(1), math.Inf(1)), geom.Pt(math.Inf(-1), math.Inf(-1))
	for i := range 8 {
		x, y, z := b.l*float64(i&1*2-1), b.w*float64(i&2-1), b.top
		if i&4 != 0 {
			z = b.bottom
		}
		p := v.project(vec{b.mid.X + b.cos*x - b.sin*y, b.mid.Y + b.sin*x + b.cos*y, z})
		b.lo = geom.Pt(math.Min(b.lo.X, p.X), math.Min(b.lo.Y, p.Y))
		b.hi = geom.Pt(math.Max(b.hi.X, p.X), math.Max(b.hi.Y, p.Y))
	}
	// A bowed side stands out a little over its ends.
	m := geom.Pt(3+0.03*(b.hi.X-b.lo.X), 3+0.03*(b.hi.Y-b.lo.Y))
	m = geom.Pt(m.X+m.Y, m.X+m.Y)
	b.lo, b.hi = b.lo.Sub(m), b.hi.Add(m)
}

func (b *box) local(p vec) vec {
	x, y := p[0]-b.mid.X, p[1]-b.mid.Y
	return vec{b.cos*x + b.sin*y, -b.sin*x + b.cos*y, p[2]}
}

// meet returns how far along the ray d from the camera the box is met, and on
// which side; false where it is missed.
func (b *box) meet(d vec) (t float64, s int, ok bool) {
	e := vec{b.cos*d[0] + b.sin*d[1], -b.sin*d[0] + b.cos*d[1], d[2]}
	in, out := 0.0, math.Inf(1)
	slab := func(p, v, lo, hi float64, sideLo, sideHi int) bool {
		if v == 0 {
			return p >= lo && p <= hi
		}
		a, c := (lo-p)/v, (hi-p)/v
		from := sideLo
		if a > c {
			a, c, from = c, a, sideHi
		}
		if a > in {
			in, s = a, from
		}
		out = math.Min(out, c)
		return in <= out
	}
	ok = slab(b.pos[2], e[2], b.bottom, b.top, topSide, topSide) &&
		slab(b.pos[0], e[0], -b.l, b.l, leftSide, rightSide) &&
		slab(b.pos[1], e[1], -b.w, b.w, lowSide, highSide)
	return in, s, ok && in > 0
}

// at returns the box's colour where the ray meets it.
func (b *box) at(d vec, t float64, s int, px float64) rgb {
	e := vec{b.cos*d[0] + b.sin*d[1], -b.sin*d[0] + b.cos*d[1], d[2]}
	x, y, z := b.pos[0]+t*e[0], b.pos[1]+t*e[1], b.pos[2]+t*e[2]
	return b.skin.colour(s, clamp(x+b.l, 0, 2*b.l), clamp(y+b.w, 0, 2*b.w), clamp(b.top-z, 0, b.top-b.bottom), px)
}

// away returns how far a place of the ground lies from the box moved by d.
func (b *box) away(p, d geom.Point) float64 {
	q := p.Sub(b.mid).Sub(d)
	x := math.Max(math.Abs(b.cos*q.X+b.sin*q.Y)-b.l, 0)
	y := math.Max(math.Abs(-b.sin*q.X+b.cos*q.Y)-b.w, 0)
	return math.Hypot(x, y)
}

// swept returns how far a place of the ground lies from what the box covers
// while it moves by d. The distance is convex in the way gone, so that thirds
// close in on its least.
func (b *box) swept(p, d geom.Point) float64 {
	lo, hi := 0.0, 1.0
	for range 9 {
		m, n := lo+(hi-lo)/3, hi-(hi-lo)/3
		if b.away(p, d.Mul(m)) <= b.away(p, d.Mul(n)) {
			hi = n
		} else {
			lo = m
		}
	}
	return b.away(p, d.Mul((lo+hi)/2))
}
