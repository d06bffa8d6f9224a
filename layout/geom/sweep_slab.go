package geom

import "math"

// cutSlab fills pieces with what one slab holds, from below.
func (d *Decomposer) cutSlab(base int, layers []Layer) {
	d.pieces = d.pieces[:0]
	if cap(d.inside) < len(layers) {
		d.inside = make([]bool, len(layers))
	}
	d.inside = d.inside[:len(layers)]
	clear(d.inside)
	h := 0
	for i := 0; i+1 < len(d.walls); i += 2 {
		lo, hi := d.walls[i], d.walls[i+1]
		for i+3 < len(d.walls) && d.touch(hi, d.walls[i+2]) {
			hi = d.walls[i+3]
			i += 2
		}
		hi.y0, hi.y1 = max(lo.y0, hi.y0), max(lo.y1, hi.y1)
		for h < len(d.hits) && d.hits[h].mid <= lo.mid {
			d.toggle(h)
			h++
		}
		first := len(d.pieces)
		label := d.top(base, layers)
		at := lo
		for ; h < len(d.hits) && d.hits[h].mid < hi.mid; h++ {
			d.toggle(h)
			above := d.top(base, layers)
			if above == label {
				continue
			}
			to := d.hits[h]
			to.y0 = min(max(to.y0, at.y0), hi.y0)
			to.y1 = min(max(to.y1, at.y1), hi.y1)
			if d.add(first, at, to, label) {
				at = to
			}
			label = above
		}
		if !d.add(first, at, hi, label) {
			d.close(first, at, hi, label)
		}
	}
}

// touch reports whether two edges run together through the slab.
func (d *Decomposer) touch(a, b sweepHit) bool {
	return math.Abs(a.y0-b.y0) <= d.tol && math.Abs(a.y1-b.y1) <= d.tol
}

func (d *Decomposer) toggle(h int) {
	l := d.edges[d.hits[h].edge].layer
	d.inside[l] = !d.inside[l]
}

// top returns the label of the last layer that covers the place in hand.
func (d *Decomposer) top(base int, layers []Layer) int {
	for i := len(d.inside) - 1; i >= 0; i-- {
		if d.inside[i] {
			return layers[i].Label
		}
	}
	return base
}

// add puts a piece between two edges on those from first on, and says no where
// it is too thin to be one.
func (d *Decomposer) add(first int, lo, hi sweepHit, label int) bool {
	if hi.y0-lo.y0 <= d.tol && hi.y1-lo.y1 <= d.tol {
		return false
	}
	if n := len(d.pieces); n > first && d.pieces[n-1].Label == label {
		d.pieces[n-1].Hi0, d.pieces[n-1].Hi1 = hi.y0, hi.y1
		return true
	}
	d.pieces = append(d.pieces, Trapezoid{Lo0: lo.y0, Lo1: lo.y1, Hi0: hi.y0, Hi1: hi.y1, Label: label})
	return true
}

// close gives the thin rest below hi to the piece under it, or where the
// region itself is that thin makes it one.
func (d *Decomposer) close(first int, lo, hi sweepHit, label int) {
	switch n := len(d.pieces); {
	case n > first:
		d.pieces[n-1].Hi0, d.pieces[n-1].Hi1 = hi.y0, hi.y1
	case hi.y0 > lo.y0 || hi.y1 > lo.y1:
		d.pieces = append(d.pieces, Trapezoid{Lo0: lo.y0, Lo1: lo.y1, Hi0: hi.y0, Hi1: hi.y1, Label: label})
	}
}

// flush appends the pieces of the slab from x0 to x1 to dst, or carries on
// those that run straight on from the slab before.
func (d *Decomposer) flush(dst []Trapezoid, x0, x1 float64) []Trapezoid {
	d.next = d.next[:0]
	from := 0
	for _, p := range d.pieces {
		p.X0, p.X1 = x0, x1
		for from < len(d.open) && dst[d.open[from]].Lo1 < p.Lo0-d.tol {
			from++
		}
		on := int32(len(dst))
		for k := from; k < len(d.open) && dst[d.open[k]].Lo1 <= p.Lo0+d.tol; k++ {
			if d.straight(&dst[d.open[k]], &p) {
				on, from = d.open[k], k+1
				break
			}
		}
		d.next = append(d.next, on)
		if int(on) == len(dst) {
			dst = append(dst, p)
			continue
		}
		t := &dst[on]
		t.X1, t.Lo1, t.Hi1 = x1, p.Lo1, p.Hi1
	}
	d.open, d.next = d.next, d.open
	return dst
}

// straight reports whether p carries on a without a bend.
func (d *Decomposer) straight(a, p *Trapezoid) bool {
	if a.Label != p.Label || math.Abs(a.Lo1-p.Lo0) > d.tol || math.Abs(a.Hi1-p.Hi0) > d.tol {
		return false
	}
	share := (a.X1 - a.X0) / (p.X1 - a.X0)
	return math.Abs(a.Lo0+share*(p.Lo1-a.Lo0)-a.Lo1) <= d.tol &&
		math.Abs(a.Hi0+share*(p.Hi1-a.Hi0)-a.Hi1) <= d.tol
}
