package trace

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Zone is one region of a face: a ring in face mm, y up, anticlockwise.
type Zone struct {
	Kind    photo.Label // Heart, Sap, Flaw or Unseen
	Polygon geom.Polygon
}

// Options say how polygons are drawn from a mask.
type Options struct {
	Tolerance float64 // mm that a border may lie off the mask's; 0 keeps every step
	Least     float64 // mm2; smaller regions become what surrounds them
	SapBase   bool    // the base may be sap, where that covers more than half
}

// Defaults returns the usual options. The least area is an engineering choice:
// a pin knot of 4 mm is kept.
func Defaults() Options { return Options{Tolerance: 1, Least: 10} }

// Base returns what lies under the zones: heart, or sap where that may be and
// covers more than half of the face.
func Base(m *photo.Mask, sapBase bool) photo.Label {
	if m != nil && sapBase && m.Shares()[photo.Sap] > 0.5 {
		return photo.Sap
	}
	return photo.Heart
}

// Polygons returns the zones of a mask, larger ones first so that what lies
// inside another comes after it, and the base they lie on. No border is more
// than the tolerance off the mask's, neighbours share theirs point for point,
// and borders along the face's outline lie on it. Cells outside the board
// count as what is nearest on it; a board's own outline is kept elsewhere. A
// mask that is all Outside gives no zones.
func Polygons(m *photo.Mask, o Options) (zones []Zone, base photo.Label, err error) {
	if err := check(m); err != nil {
		return nil, photo.Heart, fmt.Errorf("polygons of a mask: %w", err)
	}
	if !(o.Tolerance >= 0) || !(o.Least >= 0) {
		return nil, photo.Heart, fmt.Errorf("polygons of a mask: a tolerance of %g mm and a least area of %g mm2 cannot be: give 0 or more", o.Tolerance, o.Least)
	}
	base = Base(m, o.SapBase)
	if !slices.ContainsFunc(m.Pix, func(l photo.Label) bool { return l != photo.Outside }) {
		return nil, base, nil
	}
	m = spreadOver(m, func(l photo.Label) bool { return l == photo.Outside })
	r := label(m)
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	if thinned := absorb(m, r, o.Least/(dx*dy)); thinned != m {
		r = label(thinned)
	}
	a := r.arcs()
	g := gridOf(m)
	// What the middles of sides cut off comes out of the tolerance.
	cut := smoothCut * math.Hypot(dx, dy)
	raw := o.Tolerance <= cut
	lines := make([]line, len(a.all))
	for i := range a.all {
		lines[i] = g.lineOf(&a.all[i], raw)
	}
	room := o.Tolerance - cut
	if raw {
		room = o.Tolerance
	}
	thinAll(lines, a.knots(), room*(1-1e-9))
	rings, of := a.rings()
	inside := a.nested(rings, of)
	type found struct {
		Zone
		area  float64
		first int
	}
	var all []found
	for i, g := range rings {
		kind := r.kind[g.region]
		if g.area <= 0 || kind == base && !inside[g.region] {
			continue
		}
		var p geom.Polygon
		for _, w := range g.ways {
			p = appendWay(p, &lines[w/2], w&1 == 1)
		}
		all = append(all, found{Zone{kind, tidy(p)}, g.area, i})
	}
	slices.SortFunc(all, func(s, t found) int {
		return cmp.Or(cmp.Compare(t.area, s.area), cmp.Compare(s.first, t.first))
	})
	for _, f := range all {
		zones = append(zones, f.Zone)
	}
	return zones, base, nil
}

// nested tells which regions lie in a hole of another.
func (a *arcs) nested(rings []ring, of []int32) []bool {
	n := len(a.r.kind)
	beside := make(union, n+1) // the last is what is off the face
	for i := range beside {
		beside[i] = int32(i)
	}
	region := func(k int32) int32 {
		if k < 0 {
			return int32(n)
		}
		return k
	}
	outer := func(way int32) bool { return of[way] >= 0 && rings[of[way]].area > 0 }
	for w := int32(0); w < int32(len(of)); w += 2 {
		one, two := a.left(w), a.left(w+1)
		if outer(w) && (two < 0 || outer(w+1)) || outer(w+1) && one < 0 {
			beside.join(region(one), region(two))
		}
	}
	in := make([]bool, n)
	top := beside.find(int32(n))
	for k := range in {
		in[k] = beside.find(int32(k)) != top
	}
	return in
}

// appendWay adds the points of a line to a ring, the last left out where it
// begins the next line.
func appendWay(p geom.Polygon, l *line, back bool) geom.Polygon {
	n := len(l.thin)
	last := n - 1
	if l.closed {
		last = n
	}
	for k := range last {
		if back {
			p = append(p, l.thin[n-1-k])
		} else {
			p = append(p, l.thin[k])
		}
	}
	return p
}

// tidy takes out points that lie on the straight between their neighbours:
// where borders of other regions end on this one's.
func tidy(p geom.Polygon) geom.Polygon {
	out := make(geom.Polygon, 0, len(p))
	for i, q := range p {
		a, b := p[(i+len(p)-1)%len(p)], p[(i+1)%len(p)]
		if u, v := q.Sub(a), b.Sub(q); u.Cross(v) == 0 && u.Dot(v) > 0 {
			continue
		}
		out = append(out, q)
	}
	if len(out) < 3 {
		return p
	}
	return out
}
