package seek

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"heartside/layout/arrange/order"
	"heartside/layout/face"
)

// mostMembers is how many strips one search can hold.
const mostMembers = 64

// mm is a length that does not count: less than any rule can show.
const mm = 1e-6

// freedom is what a search may do with the strips.
type freedom struct {
	noTurn, noRoll, swapPool bool
}

// prepare gathers the strips that may lie in p, those of the panel first.
func prepare(p *face.Panel, pool []face.Strip, free freedom, seed uint64) (*engine, error) {
	n := len(p.Strips)
	switch {
	case !(p.Length > 0) || !(p.Width > 0):
		return nil, fmt.Errorf("panel %q: no length or no width; give its finished size first", p.ID)
	case n == 0:
		return nil, fmt.Errorf("panel %q: no strips to arrange; lay some first", p.ID)
	case n > mostMembers:
		return nil, fmt.Errorf("panel %q: %d strips; the search takes at most %d", p.ID, n, mostMembers)
	}
	e := &engine{
		pinned: make([]bool, n), prob: &order.Problem{}, seen: map[string]float64{},
		rnd: rand.New(rand.NewPCG(seed, 0x5eed)), reader: face.NewReader(), panel: *p,
		best: found{points: math.Inf(1)},
	}
	e.panel.Strips = nil
	e.reader.SkipCoverage(true)
	spare := fitting(p, pool)
	empty := 0 // places to fill
	for i := range p.Strips {
		if p.Strips[i].Board == nil && empty < len(spare) {
			empty++
		}
	}
	if empty == 0 && !free.swapPool {
		spare = nil
	}
	must, present := uint64(0), 0.0
	filled := 0
	for i := range p.Strips {
		s := p.Strips[i]
		present += s.W
		if s.Board == nil && filled < empty {
			filled++
			continue
		}
		if !free.swapPool {
			must |= 1 << len(e.members)
		}
		if s.Board == nil || s.Pinned || s.Stage >= face.Glued {
			e.pinned[i] = true
			must |= 1 << len(e.members)
			e.prob.Fixed = append(e.prob.Fixed, order.Fixed{Place: i, Strip: len(e.members), State: stateOf(&s)})
			e.join(s, i, 1<<stateOf(&s))
		} else {
			e.join(s, i, free.states(&s))
		}
		e.start = append(e.start, wayOf(len(e.members)-1, stateOf(&s)))
	}
	for _, k := range spare[:min(len(spare), mostMembers-len(e.members))] {
		s := pool[k]
		s.Pinned = false
		e.join(s, n+k, free.states(&s))
	}
	e.enough(p.Width+2*p.PanelEdge, present, must)
	if empty > 0 || e.prob.Enough != nil && !e.prob.Enough(e.start.used()) {
		e.start = nil
	}
	e.reader.Remember(16 * len(e.members))
	return e, nil
}

func (e *engine) join(s face.Strip, from int, states uint8) {
	e.members = append(e.members, s)
	e.from = append(e.from, from)
	e.allowed = append(e.allowed, states)
}

// states returns the states that s may lie in.
func (f freedom) states(s *face.Strip) uint8 {
	out := uint8(0)
	now := stateOf(s)
	for state := uint8(0); state < order.States; state++ {
		if f.noTurn && (state^now)&turnedBit != 0 || f.noRoll && (state^now)&otherBit != 0 {
			continue
		}
		out |= 1 << state
	}
	return out
}

// fitting lists the strips of the pool that may take a place in p: cut from a
// board, not glued, and reaching over the whole length and thickness. The
// widest come first, as many as one search takes.
func fitting(p *face.Panel, pool []face.Strip) []int {
	var out []int
	for i := range pool {
		s := &pool[i]
		reach := s.L/2 - math.Abs(s.Shift)
		if s.Board == nil || s.Stage >= face.Glued || !(s.W > 0) || !(reach >= p.Length/2-mm) {
			continue
		}
		if t := s.Board.Thickness; t > 0 && t < p.Thickness-mm {
			continue
		}
		out = append(out, i)
	}
	if room := mostMembers - len(p.Strips); len(out) > room {
		slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(pool[b].W, pool[a].W) })
		out = out[:room]
	}
	return out
}

// enough sets which sets of strips will do: those that hold all that must stay
// and make up the width wanted. Where no set is as wide as that, none may be
// narrower than the panel is now.
func (e *engine) enough(wanted, present float64, must uint64) {
	n := len(e.pinned)
	if len(e.members) == n {
		return
	}
	e.must = must
	e.width = 0
	e.prob.Enough = func(used uint64) bool {
		return used&must == must && e.widthOf(used) >= e.width-mm
	}
	set := e.must
	e.widen(&set, n, math.Inf(1))
	e.width = wanted
	if widest := e.widthOf(set); widest < wanted-mm {
		e.width = min(present, widest)
	}
}

func (e *engine) widthOf(set uint64) float64 {
	w := 0.0
	for i := range e.members {
		if set>>i&1 == 1 {
			w += e.members[i].W
		}
	}
	return w
}

// widen fills set up to n strips with the widest left, then changes the
// narrowest that may go for the widest left until it is as wide as wanted.
func (e *engine) widen(set *uint64, n int, wanted float64) {
	for {
		in, out, count := -1, -1, 0
		for i := range e.members {
			if *set>>i&1 == 1 {
				count++
				if e.must>>i&1 == 0 && (out < 0 || e.members[i].W < e.members[out].W) {
					out = i
				}
			} else if in < 0 || e.members[i].W > e.members[in].W {
				in = i
			}
		}
		switch {
		case in < 0:
			return
		case count < n:
			*set |= 1 << in
		case e.widthOf(*set) >= wanted-mm || out < 0 || e.members[in].W <= e.members[out].W:
			return
		default:
			*set = *set&^(1<<out) | 1<<in
		}
	}
}

// random lays strips by lot, keeping what is pinned; nil where the states drawn
// will not do.
func (e *engine) random() laying {
	n := len(e.pinned)
	for range 20 {
		set, count := e.must, 0
		for i := range e.members {
			count += int(set >> i & 1)
		}
		for _, i := range e.rnd.Perm(len(e.members)) {
			if count < n && set>>i&1 == 0 {
				set |= 1 << i
				count++
			}
		}
		e.widen(&set, n, e.width)
		l := make(laying, n)
		for _, f := range e.prob.Fixed {
			l[f.Place] = wayOf(f.Strip, f.State)
			set &^= 1 << f.Strip
		}
		var strips []int
		for i := range e.members {
			if set>>i&1 == 1 {
				strips = append(strips, i)
			}
		}
		e.rnd.Shuffle(len(strips), func(a, b int) { strips[a], strips[b] = strips[b], strips[a] })
		for place := range n {
			if e.pinned[place] {
				continue
			}
			k := slices.IndexFunc(strips, func(i int) bool { return e.belongs(i, place) })
			if k < 0 {
				return nil
			}
			l[place] = wayOf(strips[k], e.drawState(strips[k]))
			strips = slices.Delete(strips, k, k+1)
		}
		if !math.IsInf(e.local(l), 1) {
			return l
		}
	}
	return nil
}

// drawState draws one of the states that a strip may lie in.
func (e *engine) drawState(strip int) uint8 {
	var states []uint8
	for s := uint8(0); s < order.States; s++ {
		if e.may(strip, s) {
			states = append(states, s)
		}
	}
	return states[e.rnd.IntN(len(states))]
}
