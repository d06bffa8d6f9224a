package seek

import (
	"math"
	"slices"
)

// Sizes of the local search, all engineering choices. On drawn panels of 10 and
// 24 strips, half or twice as many elites, moves tried, moves by lot and fresh
// beginnings made no difference that shows.
const (
	elites       = 8  // good layings it goes on from
	scanLeast    = 60 // moves tried from one laying, at least
	scanPerPlace = 8  // and for each place
	randomPerTen = 4  // of ten of these drawn by lot, where not all are tried
	idleRounds   = 60 // rounds without a new reading after which it stops
	kicksLeast   = 2  // random moves between two climbs, at least
	kicksRange   = 3  // and less than so many more
	freshEvery   = 8  // one round in so many begins from a random laying
)

// climb makes the first move that betters l until none does, the readings are
// spent, or limit readings were made.
func (e *engine) climb(l laying, limit int) found {
	x, ok := e.points(l)
	at := found{slices.Clone(l), x}
	if !ok {
		at.points = math.Inf(1)
		return at
	}
	until := e.tried + limit
	var list []move
	out := make(laying, 0, len(l))
	for better := true; better; {
		better = false
		list = e.thin(e.ranked(list, at.laying, at.points), len(l))
		for i := range list {
			out = list[i].apply(out, at.laying)
			x, ok := e.points(out)
			if !ok || e.tried >= until {
				if ok && x < at.points-little {
					at = found{slices.Clone(out), x}
				}
				return at
			}
			if x < at.points-little {
				at = found{slices.Clone(out), x}
				better = true
				break
			}
		}
	}
	return at
}

// thin keeps of many moves those with the least local cost and some of the
// rest, drawn by lot.
func (e *engine) thin(list []move, places int) []move {
	most := max(scanLeast, scanPerPlace*places)
	if len(list) <= most {
		return list
	}
	for k := most * (10 - randomPerTen) / 10; k < most; k++ {
		j := k + e.rnd.IntN(len(list)-k)
		list[k], list[j] = list[j], list[k]
	}
	return list[:most]
}

// kick makes some moves by lot.
func (e *engine) kick(l laying) laying {
	out := slices.Clone(l)
	next := make(laying, 0, len(l))
	var list []move
	for range kicksLeast + e.rnd.IntN(kicksRange) {
		if list = e.moves(list[:0], out); len(list) == 0 {
			return out
		}
		next = list[e.rnd.IntN(len(list))].apply(next, out)
		if !math.IsInf(e.local(next), 1) {
			out, next = next, out
		}
	}
	return out
}

// roam climbs again and again, from kicked good layings and from random ones,
// until so many readings were made or it finds nothing new.
func (e *engine) roam(readings int, good []found) []found {
	until := min(e.tried+readings, e.budget)
	for round, idle := 1, 0; e.tried < until && idle < idleRounds && e.ctx.Err() == nil; round++ {
		was := e.tried
		var l laying
		if len(good) == 0 || round%freshEvery == 0 {
			l = e.random()
		} else {
			// The better ones more often.
			k := min(e.rnd.IntN(len(good)), e.rnd.IntN(len(good)))
			l = e.kick(good[k].laying)
		}
		if l != nil {
			good = keepGood(good, e.climb(l, until-e.tried))
		}
		if idle++; e.tried > was {
			idle = 0
		}
	}
	return good
}

// keepGood puts f among the good ones.
func keepGood(good []found, f found) []found {
	if math.IsInf(f.points, 1) {
		return good
	}
	k, _ := slices.BinarySearchFunc(good, f.points, func(g found, x float64) int {
		if g.points <= x {
			return -1
		}
		return 1
	})
	for i := range good {
		if slices.Equal(good[i].laying, f.laying) {
			return good
		}
	}
	good = slices.Insert(good, k, f)
	return good[:min(len(good), elites)]
}
