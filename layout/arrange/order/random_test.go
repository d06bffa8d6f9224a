package order

import (
	"math"
	"math/rand/v2"
	"slices"
)

// randomProblem draws a small problem. Whole costs make many ties.
func randomProblem(rnd *rand.Rand, m, n int, whole bool) *Problem {
	p := &Problem{Strips: m, Places: n}
	draw := func(forbid float64) float64 {
		switch {
		case rnd.Float64() < forbid:
			return math.Inf(1)
		case whole:
			return float64(rnd.IntN(3))
		}
		return 10 * rnd.Float64()
	}
	for range m {
		p.Allowed = append(p.Allowed, uint8(1+rnd.IntN(15)))
	}
	forbid := 0.1 * float64(rnd.IntN(2))
	below := 0.0
	if rnd.IntN(4) == 0 {
		below = 5 // costs of strips may be negative
	}
	for range n * m * States {
		p.Single = append(p.Single, draw(forbid)-below)
	}
	for range m * States * m * States {
		p.Pair = append(p.Pair, draw(forbid))
	}
	if rnd.IntN(4) == 0 {
		p.Allowed = nil
	}
	if rnd.IntN(3) == 0 {
		strips, places := rnd.Perm(m), rnd.Perm(n)
		for k := range 1 + rnd.IntN(min(n, 3)) {
			p.Fixed = append(p.Fixed, Fixed{places[k], strips[k], uint8(rnd.IntN(States))})
		}
	}
	if rnd.IntN(3) == 0 {
		bad := rnd.Perm(1 << m)[:(1<<m)/2]
		p.Enough = func(used uint64) bool { return !slices.Contains(bad, int(used)) }
	}
	return p
}

// bruteForce lists every order of p in rising cost, equal ones by strip, then
// state, from the front. It shares nothing with the package but the layout of
// the slices.
func bruteForce(p *Problem) []Answer {
	var out []Answer
	strips, states := make([]int, p.Places), make([]uint8, p.Places)
	fixed := func(place, strip int) (state int, ok bool) {
		for _, f := range p.Fixed {
			if f.Place == place || f.Strip == strip {
				if f.Place == place && f.Strip == strip {
					return int(f.State), true
				}
				return 0, false
			}
		}
		return -1, true
	}
	var fill func(place int, used uint64, cost float64)
	fill = func(place int, used uint64, cost float64) {
		if math.IsInf(cost, 1) {
			return
		}
		if place == p.Places {
			if p.Enough == nil || p.Enough(used) {
				out = append(out, Answer{cost, slices.Clone(strips), slices.Clone(states)})
			}
			return
		}
		for i := range p.Strips {
			keep, ok := fixed(place, i)
			if used>>i&1 == 1 || !ok {
				continue
			}
			for s := range States {
				if keep >= 0 && keep != s || keep < 0 && p.Allowed != nil && p.Allowed[i]>>s&1 == 0 {
					continue
				}
				c := cost
				if place > 0 {
					c += p.Pair[((strips[place-1]*States+int(states[place-1]))*p.Strips+i)*States+s]
				}
				c += p.Single[(place*p.Strips+i)*States+s]
				strips[place], states[place] = i, uint8(s)
				fill(place+1, used|1<<i, c)
			}
		}
	}
	fill(0, 0, 0)
	slices.SortStableFunc(out, func(a, b Answer) int {
		switch {
		case math.Abs(a.Cost-b.Cost) < 1e-9:
			return 0
		case a.Cost < b.Cost:
			return -1
		}
		return 1
	})
	return out
}
