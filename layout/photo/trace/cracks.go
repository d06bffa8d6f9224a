package trace

// Borders run along the sides of cells, from corner to corner of the grid:
// corner (i, j) is left of column i and above row j. A side leaves a corner
// in one of four directions, anticlockwise from the right: 0 right, 1 up,
// 2 left, 3 down.

// arc is a border between two regions, from one place where three or more
// meet to the next; or a whole ring that meets no third region.
type arc struct {
	corners     []int32 // of the grid, first and last included
	left, right int32   // regions along it; -1 is off the face
	first, last int8    // directions of its first and last side
	closed      bool
}

// arcs holds all borders of a mask and how they meet.
type arcs struct {
	r    *regions
	all  []arc
	from map[int64]int32 // corner*4 + direction: the way that sets out there
}

// A way is an arc gone along: 2*arc as it stands, 2*arc+1 backwards.

// around returns the regions about a corner by direction: between right and
// up, up and left, left and down, down and right. A side in direction d has
// q[d] at its left and q[d+3] at its right.
func (r *regions) around(corner int32) (q [4]int32) {
	i, j := int(corner)%(r.w+1), int(corner)/(r.w+1)
	k := j*r.stride + i
	return [4]int32{r.id[k+1], r.id[k], r.id[k+r.stride], r.id[k+r.stride+1]}
}

// turn returns the direction to go on in, having come to a corner in
// direction d, so that the same region stays at the left. Cells that meet
// only there stay apart.
func turn(q [4]int32, d int8) int8 {
	switch c := q[(d+1)&3]; {
	case q[d] != c:
		return (d + 1) & 3
	case q[(d+3)&3] != c:
		return d
	}
	return (d + 3) & 3
}

// arcs finds the borders of a labelled mask.
func (r *regions) arcs() *arcs {
	a := &arcs{r: r, from: map[int64]int32{}}
	var nodes, sides []int32
	w1 := r.w + 1
	for j := 0; j <= r.h; j++ {
		top, low := r.id[j*r.stride:][:w1+1], r.id[(j+1)*r.stride:][:w1+1]
		nw, sw := top[0], low[0]
		for i := range w1 {
			ne, se := top[i+1], low[i+1]
			if ne == nw && se == sw && ne == se {
				continue
			}
			if ne != se && i < r.w {
				sides = append(sides, int32(j*w1+i))
			}
			n := 0
			for _, meet := range [4]bool{ne != se, nw != ne, sw != nw, se != sw} {
				if meet {
					n++
				}
			}
			if n > 2 || (i == 0 || i == r.w) && (j == 0 || j == r.h) {
				nodes = append(nodes, int32(j*w1+i))
			}
			nw, sw = ne, se
		}
	}
	mark := make(marks, w1*(r.h+1))
	for _, v := range nodes {
		mark[v] |= node
	}
	for _, v := range nodes {
		q := r.around(v)
		for d := int8(0); d < 4; d++ {
			if q[d] != q[(d+3)&3] && !mark.seen(v, d, w1) {
				a.follow(v, d, mark)
			}
		}
	}
	for _, v := range sides {
		if !mark.seen(v, 0, w1) {
			a.follow(v, 0, mark)
		}
	}
	return a
}

// marks notes, for each corner, what has been gone along and where arcs end.
type marks []uint8

const (
	rightSide uint8 = 1 << iota // the side to its right is part of an arc
	lowerSide                   // the side below it is
	node                        // arcs end here
)

// side returns where the mark of the side that leaves corner v in direction d
// is kept.
func (marks) side(v int32, d int8, w1 int) (int32, uint8) {
	switch d {
	case 0:
		return v, rightSide
	case 2:
		return v - 1, rightSide
	case 3:
		return v, lowerSide
	}
	return v - int32(w1), lowerSide
}

func (m marks) seen(v int32, d int8, w1 int) bool {
	at, bit := m.side(v, d, w1)
	return m[at]&bit != 0
}

// follow adds the arc that leaves corner v in direction d.
func (a *arcs) follow(v int32, d int8, mark marks) {
	r := a.r
	step := [4]int32{1, -int32(r.w + 1), -1, int32(r.w + 1)}
	q := r.around(v)
	b := arc{corners: []int32{v}, left: q[d], right: q[(d+3)&3], first: d}
	for at := v; ; {
		k, bit := mark.side(at, d, r.w+1)
		mark[k] |= bit
		at += step[d]
		b.corners = append(b.corners, at)
		b.last = d
		if mark[at]&node != 0 {
			break
		}
		if at == v {
			b.closed = true
			break
		}
		d = turn(r.around(at), d)
	}
	n := int32(len(a.all))
	a.all = append(a.all, b)
	if !b.closed {
		a.from[4*int64(v)+int64(b.first)] = 2 * n
		a.from[4*int64(b.corners[len(b.corners)-1])+int64((b.last+2)&3)] = 2*n + 1
	}
}

// knots returns the places where three or more arcs end.
func (a *arcs) knots() (out []knot) {
	for i := range a.all {
		b := &a.all[i]
		if b.closed {
			continue
		}
		for _, end := range [2]int32{b.corners[0], b.corners[len(b.corners)-1]} {
			var k knot
			for d := int64(0); d < 4; d++ {
				if way, ok := a.from[4*int64(end)+d]; ok {
					k = append(k, way)
				}
			}
			// Each knot once: by the first of its ways.
			if len(k) > 2 && (k[0] == int32(2*i) && end == b.corners[0] || k[0] == int32(2*i+1) && end == b.corners[len(b.corners)-1]) {
				out = append(out, k)
			}
		}
	}
	return out
}

// ring is one closed border of a region, which lies at its left.
type ring struct {
	region int32
	ways   []int32
	area   float64 // cells; positive round the outside, negative round a hole
}

// left returns the region at the left of a way.
func (a *arcs) left(way int32) int32 {
	if way&1 == 0 {
		return a.all[way/2].left
	}
	return a.all[way/2].right
}

// next returns the way that goes on round the same region.
func (a *arcs) next(way int32) int32 {
	b := &a.all[way/2]
	if b.closed {
		return way
	}
	end, d := b.corners[len(b.corners)-1], b.last
	if way&1 == 1 {
		end, d = b.corners[0], (b.first+2)&3
	}
	return a.from[4*int64(end)+int64(turn(a.r.around(end), d))]
}

// rings returns all borders of all regions, and for each way the ring it
// belongs to (-1 off the face).
func (a *arcs) rings() (all []ring, of []int32) {
	of = make([]int32, 2*len(a.all))
	for i := range of {
		of[i] = -1
	}
	for w := range int32(len(of)) {
		if of[w] >= 0 || a.left(w) < 0 {
			continue
		}
		g := ring{region: a.left(w)}
		for k := w; of[k] < 0; k = a.next(k) {
			of[k] = int32(len(all))
			g.ways = append(g.ways, k)
			g.area += a.area(k)
		}
		all = append(all, g)
	}
	return all, of
}

// area returns a way's part in the area of its ring, in cells.
func (a *arcs) area(way int32) float64 {
	var s float64
	c, w1 := a.all[way/2].corners, int32(a.r.w+1)
	for k := 1; k < len(c); k++ {
		// Rows run down, which turns the sign.
		s -= float64(c[k-1]%w1)*float64(c[k]/w1) - float64(c[k]%w1)*float64(c[k-1]/w1)
	}
	if way&1 == 1 {
		s = -s
	}
	return s / 2
}
