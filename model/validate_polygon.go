package model

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/model/say"
)

const (
	minArea     = 1e-6 // mm2; less is a line
	maxVertices = 200000
)

// polygon checks one ring and reports whether it is sound.
func (c *checker) polygon(at RuleError, p geom.Polygon) bool {
	at.Rule = RulePolygon
	switch {
	case len(p) < 3:
		at.Detail = say.F("a region needs three corners, it has %d", len(p))
	case len(p) > maxVertices:
		at.Detail = say.F("%d corners are more than a region may have", len(p))
	case slices.ContainsFunc(p, func(q geom.Point) bool { return !within(q.X, -maxSize, maxSize) || !within(q.Y, -maxSize, maxSize) }):
		at.Detail = say.T("a corner is not a place within 20000 mm")
	default:
		i, j, crosses := crossing(p)
		if !crosses && spread(p) >= minArea {
			return true
		}
		at.Detail = say.T("the region has no area")
		if crosses {
			at.Detail = say.F("its border crosses itself: the side from corner %d and the side from corner %d", i+1, j+1)
		}
	}
	c.fail(at)
	return false
}

// spread is the area, from a corner of the ring so that far-off small rings
// lose no digits.
func spread(p geom.Polygon) float64 { return math.Abs(p.LocalArea()) }

// crossing finds two sides that cross in their insides. Sides that only touch
// are let pass: a region traced from a picture may touch itself at a corner.
func crossing(p geom.Polygon) (i, j int, ok bool) {
	type side struct {
		i    int
		a, b geom.Point
		r    geom.Rect
	}
	sides := make([]side, len(p))
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sides[i] = side{i, a, b, geom.R(a.X, a.Y, b.X, b.Y)}
	}
	slices.SortStableFunc(sides, func(s, t side) int { return cmp.Compare(s.r.Min.X, t.r.Min.X) })
	var active []side
	for _, s := range sides {
		live := active[:0]
		for _, t := range active {
			if t.r.Max.X < s.r.Min.X {
				continue
			}
			live = append(live, t)
			if t.r.Min.Y <= s.r.Max.Y && s.r.Min.Y <= t.r.Max.Y && cross(s.a, s.b, t.a, t.b) {
				return min(s.i, t.i), max(s.i, t.i), true
			}
		}
		active = append(live, s)
	}
	return 0, 0, false
}

// cross reports whether the insides of ab and cd meet in one point.
func cross(a, b, c, d geom.Point) bool {
	side := func(p, q, r geom.Point) float64 {
		v, w := q.Sub(p), r.Sub(p)
		k := v.Cross(w)
		if math.Abs(k) <= 1e-9*(v.Len()*w.Len()) {
			return 0
		}
		return k
	}
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// clippedArea returns the area of p within r.
func clippedArea(p geom.Polygon, r geom.Rect) float64 {
	if b := p.Bounds(); b.Min.X >= r.Min.X && b.Max.X <= r.Max.X && b.Min.Y >= r.Min.Y && b.Max.Y <= r.Max.Y {
		return spread(p)
	}
	return spread(p.ClipRect(r))
}
