package stock

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/geom"
)

// bound returns totals that no plan grown out of the state can fall below.
func (st *state) bound() totals {
	p := st.p
	t := st.totals()
	wood := 0.0
	var extra totals
	for k := range st.parts {
		q, j := &st.parts[k], &p.jobs[k]
		if q.closed || q.left <= 0 {
			continue
		}
		a := j.blankArea(q.left, p.supply.Allowances)
		wood += a
		extra.strips += j.strips(q.left)
		cost, boards, lacking := st.cheapest(j.boards, q.left, func(b int) float64 { return st.capacity(j, b) }, a/q.left)
		extra.cost, extra.boards = math.Max(extra.cost, cost), math.Max(extra.boards, boards)
		if lacking > 0 {
			t.short += j.missing(lacking)
		}
	}
	if wood > 0 {
		all := make([]int, len(p.lots))
		for b := range all {
			all[b] = b
		}
		cost, boards, _ := st.cheapest(all, wood, func(b int) float64 {
			s := &st.shelves[b]
			if s.site >= 0 {
				return s.usable
			}
			most := 0.0
			for i := range p.lots[b].sites {
				most = math.Max(most, p.lots[b].sites[i].usable)
			}
			return most
		}, 1)
		extra.cost, extra.boards = math.Max(extra.cost, cost), math.Max(extra.boards, boards)
	}
	if t.short == 0 { // of what cannot all be made, less wood may be used
		extra.used = wood
		t = t.plus(extra)
	}
	return t
}

// cheapest returns the least money for an amount out of boards, each giving as
// much as its capacity, and the least number of whole boards cut into, as if
// boards could be had in parts. Each unit uses up so much wood. lacking is what
// they do not give.
func (st *state) cheapest(boards []int, amount float64, capacity func(int) float64, woodPer float64) (cost, whole, lacking float64) {
	type offer struct{ rate, give float64 }
	var offers []offer
	var fresh []float64
	left := amount
	for _, b := range boards {
		give := capacity(b)
		if give <= 0 {
			continue
		}
		l, s := &st.p.lots[b], &st.shelves[b]
		rate := l.Price.PerArea * woodPer
		if s.site < 0 && !l.opened {
			rate += l.Price.Whole / give
			fresh = append(fresh, give)
		} else {
			left -= give
		}
		offers = append(offers, offer{rate, give})
	}
	slices.SortFunc(fresh, func(a, b float64) int { return cmp.Compare(b, a) })
	for _, give := range fresh {
		if left <= tiny {
			break
		}
		left -= give
		whole++
	}
	lacking = math.Max(0, left-tiny)
	slices.SortFunc(offers, func(a, b offer) int { return cmp.Compare(a.rate, b.rate) })
	left = amount
	for _, o := range offers {
		if left <= 0 {
			break
		}
		cost += o.rate * math.Min(left, o.give)
		left -= o.give
	}
	return cost, whole, lacking
}

// capacity returns what a lot can give of a job at most: mm of width, or solid
// parts.
func (st *state) capacity(j *job, b int) float64 {
	l, s := &st.p.lots[b], &st.shelves[b]
	if s.site >= 0 {
		return st.p.holds(j, s.rooms)
	}
	most := 0.0
	for i := range l.sites {
		most = math.Max(most, st.p.holds(j, l.sites[i].rooms))
	}
	return most
}

// holds returns what rooms hold of a job at most. One room alone holds so many
// lengths of lanes over its whole width; of several that may overlap the area
// counts.
func (p *problem) holds(j *job, rooms []geom.Rect) float64 {
	var fit []geom.Rect
	for _, r := range rooms {
		if r.W() >= j.short-tiny && r.H() >= j.least-tiny {
			fit = append(fit, r)
		}
	}
	if len(fit) == 0 {
		return 0
	}
	// Each strip with half of what lies between it and the next, all round.
	across := j.least
	if j.solid {
		across = j.width
	}
	columns, sum := 0.0, 0.0
	for i, r := range fit {
		n := math.Floor((r.W()+p.along)/(j.short+p.along) + tiny)
		if j.solid {
			columns += n * math.Floor((r.H()+p.over)/(across+p.over)+tiny)
		} else {
			columns += n * r.H()
		}
		fit[i] = grow(r, p.along/2, p.over/2)
	}
	sum = union(fit)
	if j.solid {
		sum /= (j.short + p.along) * (across + p.over)
	} else {
		sum /= j.short + p.along
	}
	return math.Min(sum, columns)
}
