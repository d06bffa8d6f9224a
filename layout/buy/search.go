package buy

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// search looks for the cheapest set of boards by branch and bound: boards are
// taken or left one after another, the likeliest first. What the boards not yet
// decided must cost at least follows from each of the sums of the problem alone,
// as if every board gave at once the most it can of it and could be bought in
// parts (the continuous relaxation of a covering knapsack; Dantzig 1957,
// "Discrete-variable extremum problems", Operations Research 5). The largest of
// these is the bound.
type search struct {
	p     *problem
	ctx   context.Context
	price []float64
	order []int // boards in the order of deciding
	place []int // of each board in order, len(order) where it is none of them
	nodes int   // most that are tried

	sums  [][]float64
	need  []float64   // of each sum
	most  [][]float64 // by sum and board
	cheap [][]int     // by sum: places in order, the cheapest for it first
	alter [][]int     // by place: places of boards that do whatever this one does for no more
	worse [][]int     // by place: the places that have it among their alter

	taken []bool // by place
	given []float64
	tried int
	cuts  int // ways to cut that may still be tried
	best  float64
	set   []int // boards of the best, nil for none
	plan  []way // how they are cut
	low   float64
}

// newSearch prepares a search among the boards that are not left out.
func (p *problem) newSearch(ctx context.Context, price []float64, without int, o Options) *search {
	o = o.filled()
	s := &search{p: p, ctx: ctx, price: price, nodes: o.Nodes, cuts: o.Cuts, best: math.Inf(1), low: math.Inf(1)}
	for _, weights := range p.sums() {
		if n := dot(weights, p.need); n > tiny {
			s.sums, s.need = append(s.sums, weights), append(s.need, n)
		}
	}
	use := make([]float64, len(p.boards))
	for k, weights := range s.sums {
		list := make([]float64, len(p.boards))
		for b := range p.boards {
			for i := range p.ways[b] {
				list[b] = math.Max(list[b], dot(weights, p.ways[b][i].gives))
			}
			use[b] += math.Min(1, list[b]/s.need[k])
		}
		s.most = append(s.most, list)
	}
	for b := range p.boards {
		if use[b] > 0 && b != without {
			s.order = append(s.order, b)
		}
	}
	slices.SortStableFunc(s.order, func(a, b int) int { return cmp.Compare(price[a]*use[b], price[b]*use[a]) })
	n := len(s.order)
	s.taken, s.given = make([]bool, n), make([]float64, len(s.sums))
	for k := range s.sums {
		var list []int
		for i, b := range s.order {
			if s.most[k][b] > 0 {
				list = append(list, i)
			}
		}
		slices.SortStableFunc(list, func(a, b int) int {
			a, b = s.order[a], s.order[b]
			return cmp.Compare(price[a]*s.most[k][b], price[b]*s.most[k][a])
		})
		s.cheap = append(s.cheap, list)
	}
	s.alter, s.worse = make([][]int, n), make([][]int, n)
	for i, a := range s.order {
		for k, b := range s.order {
			if i != k && price[a] <= price[b] && p.instead(a, b) &&
				(i < k || price[a] < price[b] || !p.instead(b, a)) {
				s.alter[k] = append(s.alter[k], i)
				s.worse[i] = append(s.worse[i], k)
			}
		}
	}
	return s
}

// proved reports whether what was found cannot be bettered, or that there is
// nothing to be found.
func (s *search) proved() bool {
	return math.IsInf(s.low, 1) || s.set != nil && s.low >= s.best-eps(s.best)
}

// run searches. low is then what no set of boards costs less than.
func (s *search) run() {
	s.decide(0, 0)
	s.low = math.Min(s.low, s.best)
}

// bound returns what must still be paid at least when the first i boards are
// decided, +Inf where the others are not enough.
func (s *search) bound(i int) float64 {
	most := 0.0
	for k := range s.sums {
		left := s.need[k] - s.given[k]
		if left <= tiny {
			continue
		}
		cost, list := 0.0, s.most[k]
		for _, at := range s.cheap[k] {
			if at < i {
				continue
			}
			b := s.order[at]
			if v := list[b]; v >= left-tiny {
				cost += s.price[b] * math.Min(1, left/v)
				left = 0
				break
			} else {
				cost += s.price[b]
				left -= v
			}
		}
		if left > tiny {
			return math.Inf(1)
		}
		most = math.Max(most, cost)
	}
	return most
}

// eps is how much cheaper something must be to count.
func eps(v float64) float64 { return 1e-9 * math.Max(1, math.Abs(v)) }

// decide takes or leaves board i and those after it.
func (s *search) decide(i int, cost float64) {
	least := cost + s.bound(i)
	if math.IsInf(least, 1) || least >= s.best-eps(s.best) {
		return
	}
	if s.tried >= s.nodes || s.tried%256 == 0 && s.ctx.Err() != nil {
		s.tried = max(s.tried, s.nodes)
		s.low = math.Min(s.low, least)
		return
	}
	s.tried++
	if i == len(s.order) {
		return // the sums are met, the cuts are not: see take
	}
	b := s.order[i]
	// What another board left behind does for no more need not be paid here.
	if !slices.ContainsFunc(s.alter[i], func(k int) bool { return k < i && !s.taken[k] }) {
		s.taken[i] = true
		for k := range s.sums {
			s.given[k] += s.most[k][b]
		}
		if !s.make(i, cost+s.price[b]) {
			s.decide(i+1, cost+s.price[b])
		}
		s.taken[i] = false
		for k := range s.sums {
			s.given[k] -= s.most[k][b]
		}
	}
	if !slices.ContainsFunc(s.worse[i], func(k int) bool { return k < i && s.taken[k] }) {
		s.decide(i+1, cost)
	}
}

// make reports whether the boards taken make the job, and remembers them where
// they are the cheapest yet.
func (s *search) make(last int, cost float64) bool {
	if cost >= s.best-eps(s.best) {
		return false
	}
	for k := range s.sums {
		if s.given[k] < s.need[k]-tiny {
			return false
		}
	}
	var set []int
	for i := 0; i <= last; i++ {
		if s.taken[i] {
			set = append(set, s.order[i])
		}
	}
	plan, known := s.p.cut(s.ctx, set, &s.cuts)
	if plan == nil {
		if !known {
			s.low = math.Min(s.low, cost)
		}
		return false
	}
	s.best, s.set, s.plan = cost, set, plan
	return true
}
