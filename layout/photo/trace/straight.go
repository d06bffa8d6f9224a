package trace

import (
	"fmt"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// StraightLine returns m with the border between heart and sap straight from a
// to b, face mm: the border between the places of it nearest to a and to b is
// moved onto that line, and what the line passes over changes kind. Flaws and
// places not seen stay; the border counts as running through them. It fails
// where there is no border within reach mm of a or of b, and where the two lie
// on different borders.
func StraightLine(m *photo.Mask, a, b geom.Point, reach float64) (*photo.Mask, error) {
	if err := checkEdit(m, []geom.Point{a, b}, photo.Heart); err != nil {
		return nil, fmt.Errorf("straight line: %w", err)
	}
	if !(a.Dist(b) > 0) {
		return nil, fmt.Errorf("straight line: both ends are at %.1f, %.1f: give two places", a.X, a.Y)
	}
	woods := spreadOver(m, func(l photo.Label) bool { return l != photo.Heart && l != photo.Sap })
	path, left, right, err := borderBetween(woods, a, b, reach)
	if err != nil {
		return nil, fmt.Errorf("straight line: %w", err)
	}
	out := copyOf(m)
	spans(m, append(path, b, a), func(j, from, to, turns int) {
		// What the ring goes round anticlockwise was at the border's left and
		// is now at the line's right.
		kind := left
		if turns > 0 {
			kind = right
		}
		row := out.Pix[j*m.W:]
		for i := from; i < to; i++ {
			if l := row[i]; l == photo.Heart || l == photo.Sap {
				row[i] = kind
			}
		}
	}, true)
	return out, nil
}

// near is a place on a ring of a region.
type near struct {
	k    int // of the ring's points
	dist float64
}

// borderBetween returns the border from its place nearest to a to that nearest
// to b, and the kinds at its left and right.
func borderBetween(m *photo.Mask, a, b geom.Point, reach float64) (path geom.Polygon, left, right photo.Label, err error) {
	r := label(m)
	arcs, g := r.arcs(), gridOf(m)
	rings, _ := arcs.rings()
	best := math.Inf(1)
	var nearA, nearB = math.Inf(1), math.Inf(1)
	for _, ring := range rings {
		left0 := r.kind[ring.region]
		if left0 != photo.Heart && left0 != photo.Sap {
			continue
		}
		points, other := arcs.points(g, ring)
		find := func(q geom.Point) near {
			n := near{-1, math.Inf(1)}
			for k, p := range points {
				if d := p.Dist(q); d < n.dist && other[k] >= 0 && woods(left0, r.kind[other[k]]) {
					n = near{k, d}
				}
			}
			return n
		}
		na, nb := find(a), find(b)
		nearA, nearB = math.Min(nearA, na.dist), math.Min(nearB, nb.dist)
		if na.k < 0 || nb.k < 0 || !(na.dist <= reach && nb.dist <= reach) {
			continue
		}
		if p, ok := shorter(points, other, na.k, nb.k); ok && na.dist+nb.dist < best {
			best = na.dist + nb.dist
			path, left, right = p.points, left0, photo.Heart+photo.Sap-left0
			if p.back {
				left, right = right, left
			}
		}
	}
	for _, e := range []struct {
		q geom.Point
		d float64
	}{{a, nearA}, {b, nearB}} {
		if !(e.d <= reach) {
			return nil, 0, 0, fmt.Errorf("no border of heartwood and sapwood lies within %g mm of %.1f, %.1f: begin and end on the border", reach, e.q.X, e.q.Y)
		}
	}
	if path == nil {
		return nil, 0, 0, fmt.Errorf("the places %.1f, %.1f and %.1f, %.1f lie on different borders: choose two on one", a.X, a.Y, b.X, b.Y)
	}
	return path, left, right, nil
}

func woods(a, b photo.Label) bool {
	return a != b && (a == photo.Heart || a == photo.Sap) && (b == photo.Heart || b == photo.Sap)
}

// points returns the middles of all sides of a ring in order, its region at
// the left, and what lies at the right of each; -1 off the face.
func (a *arcs) points(g grid, r ring) (p geom.Polygon, other []int32) {
	for _, w := range r.ways {
		c, right := a.all[w/2].corners, a.left(w^1)
		for k := 0; k+1 < len(c); k++ {
			i := k
			if w&1 == 1 {
				i = len(c) - 2 - k
			}
			p, other = append(p, g.middle(c[i], c[i+1])), append(other, right)
		}
	}
	return p, other
}

// stretch is one of the two ways along a ring.
type stretch struct {
	points geom.Polygon
	back   bool // against the ring
	length float64
}

// shorter returns the shorter way from point i to point j of a ring that does
// not run along the face's outline.
func shorter(p geom.Polygon, other []int32, i, j int) (best stretch, ok bool) {
	for _, step := range [2]int{1, len(p) - 1} {
		s := stretch{points: geom.Polygon{p[i]}, back: step != 1}
		inside := other[i] >= 0
		for k := i; k != j; {
			n := (k + step) % len(p)
			s.length += p[k].Dist(p[n])
			s.points = append(s.points, p[n])
			inside = inside && other[n] >= 0
			k = n
		}
		if inside && (!ok || s.length < best.length) {
			best, ok = s, true
		}
	}
	return best, ok
}
