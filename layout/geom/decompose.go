package geom

import "slices"

// Decompose appends to dst the trapezoids that make up the inside (even-odd)
// of region, each labelled by the last of the layers that covers it, or base
// where none does. They do not overlap, lie in the order of X0 and then from
// below, and are as few as straight sides allow: neighbours of one label with
// sides in line are one piece.
//
// Rings may cross themselves and each other, share edges, repeat points and
// reach outside the region. A layer with a coordinate that is not finite is
// left out; such a region holds nothing.
func Decompose(dst []Trapezoid, region Polygon, base int, layers []Layer) []Trapezoid {
	var d Decomposer
	return d.Decompose(dst, region, base, layers)
}

// Decomposer is Decompose with buffers that are used again, so that steady use
// allocates nothing. The zero value is ready. It must not be shared between
// goroutines.
type Decomposer struct {
	edges  []sweepEdge
	xs     []float64
	walls  []sweepHit // edges of the region in the slab under way, from below
	hits   []sweepHit // edges of layers likewise
	inside []bool     // of each layer
	pieces []Trapezoid
	open   []int32 // output that ends where the slab begins, from below
	next   []int32
	box    Rect
	eps    float64 // mm along x that count as nothing
	tol    float64 // mm along y likewise
}

// ofRegion marks an edge of the region among those of layers.
const ofRegion = -1

// sweepEdge is an edge from left to right, never upright.
type sweepEdge struct {
	x0, y0, x1, y1 float64
	from, to       int32 // slabs it spans
	layer          int32
}

func (e *sweepEdge) at(x float64) float64 {
	switch {
	case x <= e.x0:
		return e.y0
	case x >= e.x1:
		return e.y1
	}
	return e.y0 + (x-e.x0)/(e.x1-e.x0)*(e.y1-e.y0)
}

// sweepHit is an edge in the slab under way: where it is at the left and the
// right side of it and in the middle.
type sweepHit struct {
	edge        int32
	mid, y0, y1 float64
}

// Decompose is the function of that name; dst must not come from d.
func (d *Decomposer) Decompose(dst []Trapezoid, region Polygon, base int, layers []Layer) []Trapezoid {
	d.edges, d.xs = d.edges[:0], d.xs[:0]
	if !sweepable(region) {
		return dst
	}
	d.box = region.Bounds()
	if d.box.Empty() {
		return dst
	}
	d.eps = sameX * max(-d.box.Min.X, d.box.Max.X)
	d.tol = sameY * max(-d.box.Min.X, d.box.Max.X, -d.box.Min.Y, d.box.Max.Y)
	d.collect(region, ofRegion)
	for i := range layers {
		if p := layers[i].Polygon; sweepable(p) {
			d.collect(p, int32(i))
		}
	}
	slices.SortFunc(d.edges, func(a, b sweepEdge) int {
		switch {
		case a.x0 < b.x0:
			return -1
		case a.x0 > b.x0:
			return 1
		}
		return int(a.layer - b.layer)
	})
	d.cross()
	d.cutSlabs()
	return d.sweep(dst, base, layers)
}

// sweepable reports whether every coordinate of p is usable.
func sweepable(p Polygon) bool {
	for _, q := range p {
		if !(q.X >= -farthest && q.X <= farthest && q.Y >= -farthest && q.Y <= farthest) {
			return false
		}
	}
	return len(p) >= 3
}

// sweep goes through the slabs from left to right.
func (d *Decomposer) sweep(dst []Trapezoid, base int, layers []Layer) []Trapezoid {
	d.walls, d.hits, d.open = d.walls[:0], d.hits[:0], d.open[:0]
	begun := 0
	for k := 0; k+1 < len(d.xs); k++ {
		slab := int32(k)
		d.walls, d.hits = d.drop(d.walls, slab), d.drop(d.hits, slab)
		for begun < len(d.edges) && d.edges[begun].from <= slab {
			e := &d.edges[begun]
			switch {
			case e.to <= slab:
			case e.layer == ofRegion:
				d.walls = append(d.walls, sweepHit{edge: int32(begun)})
			default:
				d.hits = append(d.hits, sweepHit{edge: int32(begun)})
			}
			begun++
		}
		d.place(d.walls, d.xs[k], d.xs[k+1])
		d.place(d.hits, d.xs[k], d.xs[k+1])
		d.cutSlab(base, layers)
		dst = d.flush(dst, d.xs[k], d.xs[k+1])
	}
	return dst
}
