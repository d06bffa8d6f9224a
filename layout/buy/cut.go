package buy

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// How many ways are tried for one set of boards before better weights are sought.
// An engineering choice.
const fewCuts = 2000

// cut looks for a way to cut each board of a set so that together they give all
// that is needed, trying so many ways at most, which it counts down. known is
// false where it gave up.
func (p *problem) cut(ctx context.Context, set []int, most *int) (plan []way, known bool) {
	// Those with the fewest ways first.
	order := slices.Clone(set)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(p.ways[a]), len(p.ways[b])) })
	lists := make([][]way, len(order))
	for i, b := range order {
		lists[i] = p.ways[b]
	}
	sums := p.sums()
	for d := range p.need {
		one := make([]float64, len(p.need))
		one[d] = 1
		sums = append(sums, one)
	}
	chosen, known := cutBy(ctx, p.need, lists, sums, fewCuts, most)
	if !known {
		weights, never := tightest(p.need, lists)
		if never {
			return nil, true
		}
		for i := range lists {
			lists[i] = slices.Clone(lists[i])
			slices.SortStableFunc(lists[i], func(a, b way) int { return cmp.Compare(dot(weights, b.gives), dot(weights, a.gives)) })
		}
		chosen, known = cutBy(ctx, p.need, lists, append(sums, weights), *most, most)
	}
	if chosen == nil {
		return nil, known
	}
	plan = make([]way, len(set))
	for i, b := range order {
		plan[slices.Index(set, b)] = lists[i][chosen[i]]
	}
	return plan, true
}

// cutBy tries the ways of each board in turn, and leaves off where the boards to
// come cannot give enough under any of the sums.
func cutBy(ctx context.Context, need []float64, lists [][]way, sums [][]float64, limit int, count *int) (chosen []int, known bool) {
	rest := make([][]float64, len(sums)) // the most that boards from i on give
	for s, weights := range sums {
		rest[s] = make([]float64, len(lists)+1)
		for i := len(lists) - 1; i >= 0; i-- {
			rest[s][i] = rest[s][i+1] + greatest(weights, lists[i])
		}
	}
	left := slices.Clone(need)
	chosen = make([]int, len(lists))
	tried := 0
	var next func(i int) bool
	next = func(i int) bool {
		for s, weights := range sums {
			if v := dot(weights, left); v > rest[s][i]+tiny*math.Max(1, math.Abs(v)) {
				return false
			}
		}
		if i == len(lists) {
			return true
		}
		for k := range lists[i] {
			if tried++; tried > limit || tried%1024 == 0 && ctx.Err() != nil {
				tried = limit + 1
				return false
			}
			gives := lists[i][k].gives
			for d, v := range gives {
				left[d] -= v
			}
			chosen[i] = k
			if next(i + 1) {
				return true
			}
			for d, v := range gives {
				left[d] += v
			}
		}
		return false
	}
	made := next(0)
	*count -= min(tried, *count)
	if !made {
		return nil, tried <= limit
	}
	return chosen, true
}

// greatest returns the most that a board gives under weights.
func greatest(weights []float64, list []way) float64 {
	most := math.Inf(-1)
	for k := range list {
		most = math.Max(most, dot(weights, list[k].gives))
	}
	return most
}

// tightest looks for weights, none under 0, under which the boards give least of
// what is needed, by steps along the subgradient (Held, Wolfe and Crowder 1974,
// "Validation of subgradient optimization", Mathematical Programming 6). Where
// they give less than is needed under any weights they never make it.
func tightest(need []float64, lists [][]way) (weights []float64, never bool) {
	const steps = 80
	w := make([]float64, len(need))
	unit := make([]float64, len(need)) // so that every dim weighs alike
	for d, v := range need {
		unit[d] = 1 / math.Max(1, math.Abs(v))
		if v > 0 {
			w[d] = unit[d]
		}
	}
	least := math.Inf(1)
	for k := range steps {
		gap, gives := make([]float64, len(need)), 0.0
		copy(gap, need)
		for _, list := range lists {
			best := 0
			for i := range list {
				if dot(w, list[i].gives) > dot(w, list[best].gives) {
					best = i
				}
			}
			if len(list) == 0 {
				continue
			}
			gives += dot(w, list[best].gives)
			for d, v := range list[best].gives {
				gap[d] -= v
			}
		}
		size := 0.0
		for d, v := range w {
			size += v / unit[d]
		}
		if size == 0 {
			break
		}
		over := (gives - dot(w, need)) / size
		if over < least {
			least, weights = over, slices.Clone(w)
		}
		if over < -1e-9 {
			return weights, true
		}
		for d := range w {
			w[d] = math.Max(0, w[d]/size+unit[d]*unit[d]*gap[d]*2/float64(k+2))
		}
	}
	return weights, false
}
