package order

import (
	"context"
	"math"
)

// Sizes of the memory of a walk, and how often the prices are moved with it.
// More of either gives a higher bound for more work. Engineering choices.
const (
	shortMemory, shortRounds = 4, 120
	longMemory, longRounds   = 8, 12
)

// Bound returns a proved lower bound of the cost of every order of p, for
// problems that Best cannot do; at most what Best would return, +Inf where it
// sees that there is no order.
//
// It is the least cost of a walk that may come back to a strip it has
// forgotten (state space relaxation: N. Christofides, A. Mingozzi, P. Toth,
// Networks 11, 1981), where a strip is remembered as long as only strips it
// meets cheaply follow (ng-routes: R. Baldacci, A. Mingozzi, R. Roberti,
// Operations Research 59, 2011). Prices on the use of strips are moved by
// subgradient steps so that walks come to use each at most once, or just once
// where all are placed (M. Held, R. M. Karp, Mathematical Programming 1, 1971);
// every set of prices gives a valid bound and the best is returned. Where the
// memory holds all strips, the bound is the optimum, Enough apart.
//
// When ctx ends it returns the best bound so far, -Inf where there is none,
// with the context's error.
func Bound(ctx context.Context, p *Problem) (float64, error) {
	if err := p.check(); err != nil {
		return math.Inf(-1), err
	}
	c := compacted(p)
	b := pricing{c: c, price: make([]float64, c.m), best: math.Inf(-1), known: c.greedy()}
	short := min(shortMemory, c.m)
	err := b.improve(ctx, newForgetful(c, short), shortRounds)
	if long := min(longMemory, c.m); err == nil && long > short && !math.IsInf(b.best, 1) {
		err = b.improve(ctx, newForgetful(c, long), longRounds)
	}
	if math.IsInf(b.best, 0) {
		return b.best, err
	}
	// Rounding to the grid and the sums with prices, of which each may be as
	// large as the total.
	slack := c.step * float64(4*p.Places) * (1 + grid*1e-13)
	return b.best*c.step - slack, err
}

// pricing moves the prices of strips. All costs are in steps of the grid.
type pricing struct {
	c     *compact
	price []float64 // of a use of a free strip
	best  float64
	at    []float64 // the prices of the best
	known float64   // what some order costs, or about that
}

// greedy returns the cost of the order that takes the cheapest way at every
// place; where it comes to an end before the last, of what it has, in
// proportion.
func (c *compact) greedy() float64 {
	n, sum := len(c.ways), int64(0)
	used, last := make([]bool, c.p.Strips), -1
	for place := range c.pinned {
		best, at := limit, -1
		for w, y := range c.ways {
			x := c.single[place*n+w]
			if last >= 0 {
				x += c.pair[last*n+w]
			}
			if !used[y.strip] && x < best {
				best, at = x, w
			}
		}
		if at < 0 {
			return float64(sum) / float64(max(place, 1)) * float64(len(c.pinned))
		}
		sum += best
		last = at
		used[c.ways[at].strip] = true
	}
	return float64(sum)
}

// improve makes so many rounds of subgradient steps with one relaxation.
func (b *pricing) improve(ctx context.Context, f *forgetful, rounds int) error {
	if b.at != nil {
		copy(b.price, b.at)
	}
	must := b.c.open() == b.c.m // every strip is used
	part, idle := 0.5, 0
	for range rounds {
		cost, uses, err := f.walk(ctx, b.price)
		if err != nil {
			return err
		}
		if math.IsInf(cost, 1) {
			b.best = cost
			return nil
		}
		for _, x := range b.price {
			cost -= x
		}
		off := 0.0
		for i, n := range uses {
			d := float64(n - 1)
			if !must && d < 0 && b.price[i] <= 0 {
				d = 0
			}
			off += d * d
		}
		if cost > b.best {
			b.best, b.at, idle = cost, append(b.at[:0], b.price...), 0
		} else if idle++; idle > 3 {
			part, idle = part/2, 0
		}
		if off == 0 {
			return nil // an order, or one with prices to spare: no step helps
		}
		// A step as long as would close the gap to an order known, were all
		// straight (M. Held, P. Wolfe, H. P. Crowder, Mathematical Programming 6,
		// 1974), less where that brings nothing.
		length := part * max(b.known-cost, 1) / off
		for i, n := range uses {
			b.price[i] += length * float64(n-1)
			if !must {
				b.price[i] = max(0, b.price[i])
			}
		}
	}
	return nil
}
