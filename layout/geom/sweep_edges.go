package geom

import "slices"

// collect takes the edges of one ring. What lies left or right of the region
// or runs upright bounds nothing.
func (d *Decomposer) collect(p Polygon, layer int32) {
	b := p[len(p)-1]
	for _, a := range p {
		l, r := a, b
		b = a
		if l.X > r.X {
			l, r = r, l
		}
		if l.X == r.X || r.X <= d.box.Min.X || l.X >= d.box.Max.X {
			continue
		}
		d.edges = append(d.edges, sweepEdge{x0: l.X, y0: l.Y, x1: r.X, y1: r.Y, layer: layer})
	}
}

// cross collects the places along x where something begins, ends or crosses.
// Edges must be sorted by x0.
func (d *Decomposer) cross() {
	d.xs = append(d.xs, d.box.Min.X, d.box.Max.X)
	for i := range d.edges {
		a := &d.edges[i]
		d.mark(a.x0)
		d.mark(a.x1)
		lo, hi := max(min(a.y0, a.y1), d.box.Min.Y), min(max(a.y0, a.y1), d.box.Max.Y)
		if lo > hi {
			continue
		}
		for j := i + 1; j < len(d.edges) && d.edges[j].x0 < a.x1; j++ {
			b := &d.edges[j]
			if max(b.y0, b.y1) < lo || min(b.y0, b.y1) > hi {
				continue
			}
			left, right := b.x0, min(a.x1, b.x1)
			d0, d1 := a.at(left)-b.at(left), a.at(right)-b.at(right)
			if (d0 < 0 && d1 > 0) || (d0 > 0 && d1 < 0) {
				d.mark(left + (right-left)*(d0/(d0-d1)))
			}
		}
	}
}

// mark notes a place along x that lies inside the region's extent.
func (d *Decomposer) mark(x float64) {
	if x > d.box.Min.X && x < d.box.Max.X {
		d.xs = append(d.xs, x)
	}
}

// cutSlabs leaves one of the places that are as good as the same, and tells
// each edge the slabs it spans. Every point of a ring moves to the same place
// whichever edge it ends, so rings stay closed.
func (d *Decomposer) cutSlabs() {
	slices.Sort(d.xs)
	n := 1
	for _, x := range d.xs[1:] {
		if x-d.xs[n-1] > d.eps {
			d.xs[n] = x
			n++
		}
	}
	last := d.xs[len(d.xs)-1]
	d.xs = d.xs[:n]
	d.xs[n-1] = last // the region keeps its extent
	for i := range d.edges {
		e := &d.edges[i]
		e.from, e.to = d.slabAt(e.x0), d.slabAt(e.x1)
	}
}

// slabAt returns the number of the slab side at or next left of x.
func (d *Decomposer) slabAt(x float64) int32 {
	lo, hi := 0, len(d.xs)-1
	if x >= d.xs[hi]-d.eps {
		return int32(hi)
	}
	for lo < hi { // least side right of x
		m := (lo + hi) / 2
		if d.xs[m] > x {
			hi = m
		} else {
			lo = m + 1
		}
	}
	return int32(max(hi-1, 0))
}

// drop takes away the edges that end at or before the slab.
func (d *Decomposer) drop(hits []sweepHit, slab int32) []sweepHit {
	keep := hits[:0]
	for _, h := range hits {
		if d.edges[h.edge].to > slab {
			keep = append(keep, h)
		}
	}
	return keep
}

// place finds where the edges are in the slab from x0 to x1 and puts them in
// order from below. They arrive nearly in order.
func (d *Decomposer) place(hits []sweepHit, x0, x1 float64) {
	for i := range hits {
		h := &hits[i]
		e := &d.edges[h.edge]
		h.y0, h.y1 = e.at(x0), e.at(x1)
		h.mid = h.y0/2 + h.y1/2
		for k := i; k > 0 && hits[k].mid < hits[k-1].mid; k-- {
			hits[k], hits[k-1] = hits[k-1], hits[k]
		}
	}
}
