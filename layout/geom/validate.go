package geom

import (
	"fmt"
	"math"
)

// ShapeRule names what a ring must keep to.
type ShapeRule string

// Rules of a ring.
const (
	TooFewPoints  ShapeRule = "too-few-points"
	NotFinite     ShapeRule = "not-finite"
	CrossesItself ShapeRule = "crosses-itself"
	ZeroArea      ShapeRule = "zero-area"
)

// ShapeError tells which rule a ring breaks and where. Points are counted
// from 0; Edge and Other are edges named by the point they begin at, and -1
// where the rule has no such place.
type ShapeError struct {
	Rule        ShapeRule
	Points      int   // how many the ring has
	Edge, Other int   // the point (NotFinite) or the two edges (CrossesItself)
	At          Point // where, mm
}

// Error says what is wrong, counting points from 1.
func (e *ShapeError) Error() string {
	switch e.Rule {
	case TooFewPoints:
		return fmt.Sprintf("the outline has %d points: it needs 3 or more", e.Points)
	case NotFinite:
		return fmt.Sprintf("point %d (%v) of the outline is not finite: give numbers in mm", e.Edge+1, e.At)
	case CrossesItself:
		return fmt.Sprintf("the outline crosses itself at %.1f, %.1f: the edge after point %d meets the edge after point %d", e.At.X, e.At.Y, e.Edge+1, e.Other+1)
	case ZeroArea:
		return fmt.Sprintf("the outline has no area: its %d points lie on one line or run back on themselves", e.Points)
	}
	return "the outline breaks the rule " + string(e.Rule)
}

// Validate returns a *ShapeError for the first rule that p breaks, or nil. A
// ring may touch itself and repeat points; it must not cross itself.
func (p Polygon) Validate() error {
	bad := func(rule ShapeRule, edge, other int, at Point) error {
		return &ShapeError{Rule: rule, Points: len(p), Edge: edge, Other: other, At: at}
	}
	if len(p) < 3 {
		return bad(TooFewPoints, -1, -1, Point{})
	}
	for i, q := range p {
		if !(math.Abs(q.X) <= farthest && math.Abs(q.Y) <= farthest) {
			return bad(NotFinite, i, -1, q)
		}
	}
	edge, other, at, touches := p.crossing()
	if edge >= 0 && !touches {
		return bad(CrossesItself, edge, other, at)
	}
	// A ring that only touches itself encloses nothing twice and nothing the
	// other way round, so both ways of measuring agree.
	box := p.Bounds()
	inside := p.InsideArea()
	if edge >= 0 && math.Abs(math.Abs(p.LocalArea())-inside) > sameArea*box.W()*box.H() {
		return bad(CrossesItself, edge, other, at)
	}
	if !(inside > sameArea*box.W()*box.H()) {
		return bad(ZeroArea, -1, -1, Point{})
	}
	return nil
}

// InsideArea returns the area in mm2 of what lies inside p by the even-odd
// rule, also where p crosses itself.
func (p Polygon) InsideArea() float64 {
	var sum float64
	for _, t := range Decompose(nil, p, 0, nil) {
		sum += t.Area()
	}
	return sum
}

// LocalArea returns SignedArea measured from the first point, which keeps its
// digits far from the origin.
func (p Polygon) LocalArea() float64 {
	var s float64
	for i := 1; i+1 < len(p); i++ {
		s += p[i].Sub(p[0]).Cross(p[i+1].Sub(p[0]))
	}
	return s / 2
}

// crossing finds two edges that cross, or failing that two that touch, or
// cross no deeper than rounding, without being neighbours; -1 where there are
// none.
func (p Polygon) crossing() (edge, other int, at Point, touches bool) {
	edge, other = -1, -1
	n := len(p)
	for i := range p {
		a, b := p[i], p[(i+1)%n]
		lox, hix := min(a.X, b.X), max(a.X, b.X)
		loy, hiy := min(a.Y, b.Y), max(a.Y, b.Y)
		for j := i + 1; j < n; j++ {
			c, d := p[j], p[(j+1)%n]
			if max(c.X, d.X) < lox || min(c.X, d.X) > hix || max(c.Y, d.Y) < loy || min(c.Y, d.Y) > hiy {
				continue
			}
			if x, cross := crossPoint(a, b, c, d); cross {
				if deep(a, b, c, d) {
					return i, j, x, false
				}
				if edge < 0 {
					edge, other, at, touches = i, j, x, true
				}
				continue
			}
			if edge < 0 {
				if x, meet := touchPoint(a, b, c, d, j == i+1, i == 0 && j == n-1); meet {
					edge, other, at, touches = i, j, x, true
				}
			}
		}
	}
	return edge, other, at, touches
}

// deep reports whether each end of two crossing edges lies off the other edge
// by more than rounding.
func deep(a, b, c, d Point) bool {
	u, v := b.Sub(a), d.Sub(c)
	lu, lv := u.Len(), v.Len()
	least := sameX * (lu + lv)
	return min(math.Abs(u.Cross(c.Sub(a))), math.Abs(u.Cross(d.Sub(a)))) > least*lu &&
		min(math.Abs(v.Cross(a.Sub(c))), math.Abs(v.Cross(b.Sub(c)))) > least*lv
}

// touchPoint returns a point common to two edges that do not cross. The end
// that neighbours share does not count: next means c is b, last that d is a.
func touchPoint(a, b, c, d Point, next, last bool) (Point, bool) {
	on := func(q, e, f Point) bool {
		return f.Sub(e).Cross(q.Sub(e)) == 0 && q.Sub(e).Dot(q.Sub(f)) <= 0
	}
	switch {
	case !next && on(c, a, b):
		return c, true
	case !last && on(d, a, b):
		return d, true
	case !last && on(a, c, d):
		return a, true
	case !next && on(b, c, d):
		return b, true
	}
	return Point{}, false
}
