package seek

import "math"

// How answers are chosen, all engineering choices: how much of the light wood
// must lie elsewhere for two to be different, how much worse an answer may be,
// as a part of the way from the best to what a random laying usually gets, and
// how many of the readings are looked through.
const (
	different = 0.25
	worse     = 0.25
	looked    = 4000
)

// choose picks the best and then, again and again, the best that differs from
// all picked; first by the full measure, then by half of it. To rank by worth
// and by difference from what is picked already is the rule of J. Carbonell and
// J. Goldstein (SIGIR 1998), here with a limit on each instead of a sum.
func (e *engine) choose(most int, usual float64) (picked []found, apartFromFirst []float64) {
	list := e.list
	sortFound(list)
	if len(list) == 0 || most < 1 {
		return nil, nil
	}
	limit := list[0].points + worse*math.Max(0, usual-list[0].points) + little
	list = list[:min(len(list), looked)]
	grid := e.grids()
	grids := make([][]float64, len(list))
	taken := make([]bool, len(list))
	var chosen [][]float64
	take := func(i int) {
		if grids[i] == nil {
			grids[i] = grid(list[i].laying)
		}
		taken[i] = true
		if chosen == nil {
			apartFromFirst = append(apartFromFirst, 0)
		} else {
			apartFromFirst = append(apartFromFirst, e.apart(grids[i], chosen[0]))
		}
		picked = append(picked, list[i])
		chosen = append(chosen, grids[i])
	}
	take(0)
	for _, least := range [...]float64{different, different / 2} {
		for i := range list {
			if len(picked) >= most || list[i].points > limit {
				break
			}
			if taken[i] {
				continue
			}
			if grids[i] == nil {
				grids[i] = grid(list[i].laying)
			}
			near := math.Inf(1)
			for _, g := range chosen {
				near = math.Min(near, e.apart(grids[i], g))
			}
			if near >= least {
				take(i)
			}
		}
	}
	return picked, apartFromFirst
}

// apart is that of two grids, also turned round where that is the same.
func (e *engine) apart(a, b []float64) float64 {
	d := apart(a, b)
	if e.round {
		d = math.Min(d, apart(a, roundGrid(b)))
	}
	return d
}

// asNear returns l or, where that is the same, l turned round: the one that
// leaves more strips as they lie.
func (e *engine) asNear(l laying) laying {
	if !e.round || e.start == nil {
		return l
	}
	kept := func(l laying) int {
		n := 0
		for k := range l {
			if l[k] == e.start[k] {
				n += 2
			} else if l.strip(k) == e.start.strip(k) {
				n++
			}
		}
		return n
	}
	if r := l.round(); kept(r) > kept(l) {
		return r
	}
	return l
}
