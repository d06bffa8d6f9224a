package seek

import (
	"cmp"
	"slices"

	"heartside/layout/arrange/order"
)

// move changes a laying.
type move struct {
	kind  moveKind
	a, b  int     // places
	way   uint8   // what is put in
	local float64 // what single strips and neighbours cost after it
}

type moveKind uint8

const (
	swap     moveKind = iota // the strips at a and b
	shift                    // the strip at a to b, those between close up
	reverse                  // those from a to b in the other order
	about                    // those from a to b turned round as one
	put                      // way at place a: laid otherwise, or from the pool
	swapLaid                 // a and b, both turned end for end
)

// apply writes l after m into out.
func (m *move) apply(out, l laying) laying {
	out = append(out[:0], l...)
	switch m.kind {
	case swap, swapLaid:
		out[m.a], out[m.b] = out[m.b], out[m.a]
		if m.kind == swapLaid {
			out[m.a] ^= turnedBit
			out[m.b] ^= turnedBit
		}
	case shift:
		w := out[m.a]
		if m.a < m.b {
			copy(out[m.a:m.b], out[m.a+1:m.b+1])
		} else {
			copy(out[m.b+1:m.a+1], out[m.b:m.a])
		}
		out[m.b] = w
	case reverse, about:
		slices.Reverse(out[m.a : m.b+1])
		if m.kind == about {
			for k := m.a; k <= m.b; k++ {
				out[k] ^= turnedBit
			}
		}
	case put:
		out[m.a] = m.way
	}
	return out
}

// moves appends the moves from l that may be made.
func (e *engine) moves(list []move, l laying) []move {
	n := len(l)
	pins := make([]int, n+1) // pinned places before each place
	for k, pinned := range e.pinned {
		pins[k+1] = pins[k]
		if pinned {
			pins[k+1]++
		}
	}
	turns := func(k int) bool { return e.may(l.strip(k), l.state(k)^turnedBit) }
	for a := range n {
		if e.pinned[a] {
			continue
		}
		allTurn := turns(a)
		for b := a + 1; b < n; b++ {
			allTurn = allTurn && turns(b)
			if !e.pinned[b] && (e.homes == nil || e.homes[a] == e.homes[b]) {
				list = append(list, move{kind: swap, a: a, b: b})
				if turns(a) && turns(b) {
					list = append(list, move{kind: swapLaid, a: a, b: b})
				}
			}
			if pins[b+1] > pins[a] {
				continue
			}
			if b > a+1 {
				list = append(list, move{kind: shift, a: a, b: b}, move{kind: shift, a: b, b: a})
			}
			if b > a+2 {
				list = append(list, move{kind: reverse, a: a, b: b})
			}
			if allTurn && b > a+1 {
				list = append(list, move{kind: about, a: a, b: b})
			}
		}
	}
	return e.puts(list, l)
}

// puts appends the moves that lay one strip otherwise or take one from the
// pool.
func (e *engine) puts(list []move, l laying) []move {
	used := l.used()
	for a := range l {
		if e.pinned[a] {
			continue
		}
		i := l.strip(a)
		for s := uint8(0); s < order.States; s++ {
			if s != l.state(a) && e.may(i, s) {
				list = append(list, move{kind: put, a: a, way: wayOf(i, s)})
			}
		}
		for j := range e.members {
			if used>>j&1 == 1 || e.prob.Enough != nil && !e.prob.Enough(used&^(1<<i)|1<<j) {
				continue
			}
			for s := uint8(0); s < order.States; s++ {
				if e.may(j, s) {
					list = append(list, move{kind: put, a: a, way: wayOf(j, s)})
				}
			}
		}
	}
	return list
}

// ranked lists the moves from l by what single strips and neighbours would
// cost, only those below a limit. As all other points only add, no move that is
// left out comes below the limit.
func (e *engine) ranked(list []move, l laying, limit float64) []move {
	list = e.moves(list[:0], l)
	keep := list[:0]
	out := make(laying, 0, len(l))
	for _, m := range list {
		out = m.apply(out, l)
		if m.local = e.local(out); m.local < limit-little {
			keep = append(keep, m)
		}
	}
	slices.SortStableFunc(keep, func(a, b move) int { return cmp.Compare(a.local, b.local) })
	return keep
}
