package order

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// forgetful finds the cheapest walk over the places that does not use the
// strip before, nor one it remembers. Of a strip i the walk at j still knows if
// all strips since, j too, have i among their near ones. A state is a place, a
// way and the set of near strips remembered, one bit each.
//
// Strips here are the free ones, then the pinned, which remember too.
type forgetful struct {
	c      *compact
	strips int
	near   [][]int // free strips near each strip, at most as many as the memory holds
	sets   int     // 2 to the size of the memory
	bit    [][]int16
	next   [][]uint16  // [i*strips+j][memory at i] = memory at j, when j follows i
	layers [][]float64 // by place: [way*sets+memory], a pinned way behind the free ones
	here   int         // the pinned way of the place being filled, or -1
}

func newForgetful(c *compact, memory int) *forgetful {
	f := &forgetful{c: c, sets: 1 << memory, strips: c.m + len(c.ways) - c.m*c.k}
	f.near = f.nearest(memory)
	f.bit = make([][]int16, f.strips)
	for i := range f.bit {
		f.bit[i] = make([]int16, f.strips)
		for j := range f.bit[i] {
			f.bit[i][j] = int16(slices.Index(f.near[i], j))
		}
	}
	f.next = make([][]uint16, f.strips*f.strips)
	for i := range f.strips {
		for j := range f.strips {
			f.next[i*f.strips+j] = f.carried(i, j)
		}
	}
	f.layers = make([][]float64, len(c.pinned))
	for k := range f.layers {
		f.layers[k] = make([]float64, (c.m*c.k+1)*f.sets)
	}
	return f
}

// strip returns the strip of a way.
func (f *forgetful) strip(way int) int {
	if free := f.c.m * f.c.k; way >= free {
		return f.c.m + way - free
	}
	return way / f.c.k
}

// nearest lists for each strip the free ones it meets at the least cost.
func (f *forgetful) nearest(memory int) [][]int {
	n := len(f.c.ways)
	meet := make([]int64, f.strips*f.strips)
	for k := range meet {
		meet[k] = never
	}
	for a := range n {
		for b := range n {
			i, j := f.strip(a), f.strip(b)
			x := min(f.c.pair[a*n+b], meet[i*f.strips+j])
			meet[i*f.strips+j] = x
			meet[j*f.strips+i] = min(x, meet[j*f.strips+i])
		}
	}
	out := make([][]int, f.strips)
	for i := range out {
		var others []int
		for j := range f.c.m {
			if j != i {
				others = append(others, j)
			}
		}
		row := meet[i*f.strips:]
		slices.SortStableFunc(others, func(a, b int) int { return cmp.Compare(row[a], row[b]) })
		out[i] = others[:min(memory, len(others))]
	}
	return out
}

// carried returns what is remembered at j for each memory at i.
func (f *forgetful) carried(i, j int) []uint16 {
	out := make([]uint16, f.sets)
	for mem := range out {
		to := uint16(0)
		for b, k := range f.near[i] {
			if at := f.bit[j][k]; mem>>b&1 == 1 && at >= 0 {
				to |= 1 << at
			}
		}
		if at := f.bit[j][i]; at >= 0 {
			to |= 1 << at
		}
		out[mem] = to
	}
	return out
}

// far is a cost that no walk has.
var far = math.Inf(1)

// price returns the cost of a way at a place, with the price of its strip.
func (f *forgetful) price(place, way int, price []float64) float64 {
	x := f.c.single[place*len(f.c.ways)+way]
	if x >= limit {
		return far
	}
	if way < f.c.m*f.c.k {
		return float64(x) + price[way/f.c.k]
	}
	return float64(x)
}

func (f *forgetful) joint(a, b int) float64 {
	if x := f.c.pair[a*len(f.c.ways)+b]; x < limit {
		return float64(x)
	}
	return far
}

// walk returns the least cost of a walk and how often it uses each free strip.
func (f *forgetful) walk(ctx context.Context, price []float64) (float64, []int, error) {
	c := f.c
	for place := range f.layers {
		if ctx.Err() != nil {
			return 0, nil, ctx.Err()
		}
		for x := range f.layers[place] {
			f.layers[place][x] = far
		}
		f.layer(place, price)
	}
	last := f.layers[len(f.layers)-1]
	at := lowest(last)
	cost := last[at]
	if math.IsInf(cost, 1) {
		return far, nil, nil
	}
	uses := make([]int, c.m)
	for place := len(f.layers) - 1; ; place-- {
		if way := f.wayOf(place, at); way < c.m*c.k {
			uses[way/c.k]++
		}
		if place == 0 {
			return cost, uses, nil
		}
		at = f.before(place, at, price)
	}
}

// lowest returns the index of the lowest cost.
func lowest(list []float64) int {
	at := 0
	for x, v := range list {
		if v < list[at] {
			at = x
		}
	}
	return at
}

// rows returns the rows of a layer: the free ways, or the one row of the
// pinned way, which stands behind them.
func (f *forgetful) rows(place int) (from, to int) {
	if f.c.pinned[place] >= 0 {
		return f.c.m * f.c.k, f.c.m*f.c.k + 1
	}
	return 0, f.c.m * f.c.k
}

// wayOf returns the way of a state of a layer.
func (f *forgetful) wayOf(place, at int) int {
	row := at / f.sets
	if row == f.c.m*f.c.k {
		return f.c.pinned[place]
	}
	return row
}

// layer fills the states of a place from those of the place in front.
func (f *forgetful) layer(place int, price []float64) {
	from, to := f.rows(place)
	cost := make([]float64, to)
	for row := from; row < to; row++ {
		cost[row] = f.price(place, f.wayOf(place, row*f.sets), price)
		if place == 0 {
			f.layers[0][row*f.sets] = cost[row]
		}
	}
	if place == 0 {
		return
	}
	was, is := f.layers[place-1], f.layers[place]
	f.here = f.c.pinned[place]
	front, end := f.rows(place - 1)
	joint := make([]float64, to)
	for a := front; a < end; a++ {
		way := f.wayOf(place-1, a*f.sets)
		for row := from; row < to; row++ {
			joint[row] = f.joint(way, f.wayOf(place, row*f.sets)) + cost[row]
		}
		for mem, v := range was[a*f.sets : (a+1)*f.sets] {
			if v < far {
				f.spread(is, v, way, mem, joint, from, to)
			}
		}
	}
}

// spread carries one state on to the next place.
func (f *forgetful) spread(is []float64, v float64, way, mem int, joint []float64, from, to int) {
	c, i := f.c, f.strip(way)
	for row := from; row < to; {
		j, end := row/max(c.k, 1), row+c.k
		if row == c.m*c.k {
			j, end = f.strip(f.here), to
		}
		if b := f.bit[i][j]; j == i || b >= 0 && mem>>b&1 == 1 {
			row = end
			continue
		}
		at := row*f.sets + int(f.next[i*f.strips+j][mem])
		for ; row < end; row++ {
			if x := v + joint[row]; x < is[at] {
				is[at] = x
			}
			at += f.sets
		}
	}
}

// before finds a state of the place in front from which a state came.
func (f *forgetful) before(place, at int, price []float64) int {
	way := f.wayOf(place, at)
	mem := at % f.sets
	cost := f.price(place, way, price)
	was, v := f.layers[place-1], f.layers[place][at]
	front, end := f.rows(place - 1)
	for a := front; a < end; a++ {
		x := f.wayOf(place-1, a*f.sets)
		joint := f.joint(x, way) + cost
		for k, u := range was[a*f.sets : (a+1)*f.sets] {
			if u+joint == v && f.leads(x, k, way, mem) {
				return a*f.sets + k
			}
		}
	}
	return 0
}

// leads reports whether a walk may go from way x with memory k to way y with
// memory mem.
func (f *forgetful) leads(x, k, y, mem int) bool {
	i, j := f.strip(x), f.strip(y)
	b := f.bit[i][j]
	return i != j && !(b >= 0 && k>>b&1 == 1) && int(f.next[i*f.strips+j][k]) == mem
}
