package order

import (
	"math"
	"math/bits"
)

// grid is how many steps the greatest possible total has: fine enough that
// rounding costs to it changes no order that matters (a part in 10^13), coarse
// enough that sums which should be equal are. An engineering choice.
const grid = 1 << 44

// never is a cost that no order has; twice it still fits. What is at least
// limit is never, with something taken off or put on.
const (
	never = int64(1) << 61
	limit = never / 2
)

// way is a strip in a state, and compact the problem in those that can be:
// first the ways of the free strips, k to a strip, then the pinned ones.
type way struct {
	strip int // of the problem
	state uint8
	there bool // false where it only fills up a strip's k
}

type compact struct {
	p      *Problem
	m, k   int     // free strips, ways each
	free   []int   // their indices in the problem
	ways   []way   // m*k, then one for each pinned strip
	pinned []int   // by place: its way, or -1
	filled []int   // by place: free strips used up to and with it
	fixed  uint64  // pinned strips
	step   float64 // of the grid
	single []int64 // [place*len(ways)+way]
	pair   []int64 // [way*len(ways)+way]
}

// open returns how many places are free.
func (c *compact) open() int { return c.filled[len(c.filled)-1] }

func compacted(p *Problem) *compact {
	c := &compact{p: p}
	for _, f := range p.Fixed {
		c.fixed |= 1 << f.Strip
	}
	for i := range p.Strips {
		if c.fixed>>i&1 == 0 {
			c.free = append(c.free, i)
			c.k = max(c.k, bits.OnesCount8(p.allowed(i)&(1<<States-1)))
		}
	}
	c.m = len(c.free)
	for _, i := range c.free {
		n := 0
		for s := uint8(0); s < States; s++ {
			if p.allowed(i)>>s&1 == 1 {
				c.ways = append(c.ways, way{i, s, true})
				n++
			}
		}
		for ; n < c.k; n++ {
			c.ways = append(c.ways, way{strip: i})
		}
	}
	c.pinned = make([]int, p.Places)
	for k := range c.pinned {
		c.pinned[k] = -1
	}
	for _, f := range p.Fixed {
		c.pinned[f.Place] = len(c.ways)
		c.ways = append(c.ways, way{f.Strip, f.State, true})
	}
	c.filled = make([]int, p.Places)
	used := 0
	for k := range c.filled {
		if c.pinned[k] < 0 {
			used++
		}
		c.filled[k] = used
	}
	c.round()
	return c
}

// round sets the step of the grid and the costs on it.
func (c *compact) round() {
	p, n := c.p, len(c.ways)
	most := 0.0
	for _, x := range p.Single {
		if !math.IsInf(x, 0) {
			most = max(most, math.Abs(x))
		}
	}
	joint := 0.0
	for k, x := range p.Pair {
		if i, j := k/(p.Strips*States)/States, k%(p.Strips*States)/States; i != j && !math.IsInf(x, 0) {
			joint = max(joint, x)
		}
	}
	c.step = 1
	// Halved before they are added, as costs near the largest number would
	// not fit.
	if total := float64(p.Places) * (most/grid + joint/grid); total > 0 {
		_, e := math.Frexp(total)
		c.step = math.Ldexp(1, max(e, -1020))
	}
	c.single = make([]int64, p.Places*n)
	for place := range p.Places {
		for w, y := range c.ways {
			c.single[place*n+w] = never
			// A pinned strip has its place, and the place its strip.
			if y.there && (w < c.m*c.k) == (c.pinned[place] < 0) && (w < c.m*c.k || c.pinned[place] == w) {
				c.single[place*n+w] = c.onGrid(p.single(place, y.strip, y.state))
			}
		}
	}
	c.pair = make([]int64, n*n)
	for a, x := range c.ways {
		for b, y := range c.ways {
			c.pair[a*n+b] = never
			if x.there && y.there && x.strip != y.strip {
				c.pair[a*n+b] = c.onGrid(p.pair(x.strip, x.state, y.strip, y.state))
			}
		}
	}
}

func (c *compact) onGrid(x float64) int64 {
	if math.IsInf(x, 1) {
		return never
	}
	return int64(math.Round(x / c.step))
}

// enough reports whether a full set of free strips will do.
func (c *compact) enough(set uint64) bool {
	if c.p.Enough == nil {
		return true
	}
	return c.p.Enough(c.strips(set) | c.fixed)
}

// strips turns a set of free strips into one of the problem's.
func (c *compact) strips(set uint64) uint64 {
	var out uint64
	for ; set != 0; set &= set - 1 {
		out |= 1 << c.free[bits.TrailingZeros64(set)]
	}
	return out
}
