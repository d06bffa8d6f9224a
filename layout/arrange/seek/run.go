package seek

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"heartside/layout/arrange/order"
)

// What the search does with its readings; engineering choices.
const (
	probes        = 16  // random layings that tell what is usual
	firstOrders   = 24  // orders of least local cost, read before all else
	climbShare    = 0.4 // of the readings, for the first local search
	walkShare     = 0.5 // of what is left then, for going on by local cost
	walkTry       = 0.2 // of that, after which going on must look worth while:
	walkHope      = 0.3 // so much of the way from the least cost to the best is done
	afterwards    = 200 // readings an answer, for others once the best is proved
	mostAdditions = 4e9 // about five seconds for the exact table
	fastAdditions = 3e8 // a third of a second, which one may wait for it
	starts        = 12  // layings built by local cost where there is no table soon
)

// run searches. It returns what random layings usually get.
func (e *engine) run() (usual float64, err error) {
	usual = e.look()
	bytes, additions := order.Bytes(e.prob)
	exact := bytes > 0 && additions <= mostAdditions
	if !exact || additions > fastAdditions {
		e.begin()
	}
	if exact {
		err := e.walk()
		if e.ctx.Err() != nil {
			return usual, nil
		}
		if errors.Is(err, order.ErrTooLarge) {
			exact = false
		} else if err != nil {
			return usual, err
		}
	}
	if !exact && !e.proved && e.group != nil {
		if least, ok := e.group.least(e.ctx); ok {
			e.bound, e.proved = max(e.bound, least), true
		}
	}
	if !exact && !e.proved {
		bound, err := order.Bound(e.ctx, e.prob)
		if err != nil && e.ctx.Err() == nil {
			return usual, err
		}
		e.bound = max(e.bound, bound)
	}
	rest := e.budget - e.tried
	if e.optimal {
		rest = min(rest, afterwards*5)
	}
	e.roam(rest, e.good())
	e.settle()
	return usual, nil
}

// look reads the panel as it lies and some random layings.
func (e *engine) look() float64 {
	if e.start != nil {
		e.points(e.start)
	}
	sum, n := 0.0, 0
	var drawn []laying
	for range probes {
		l := e.random()
		if l == nil {
			continue
		}
		x, ok := e.points(l)
		if ok && !math.IsInf(x, 1) {
			sum += x
			n++
			drawn = append(drawn, l)
		}
	}
	if len(drawn) > 0 && e.turnsRound(drawn[:min(4, len(drawn))]) {
		e.fold()
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// walk goes through the orders by rising local cost. As all other points only
// add, the best is found once the local cost reaches the best points.
func (e *engine) walk() error {
	orders, until, try := 0, e.budget, math.MaxInt
	least, stopped := 0.0, false
	l := make(laying, len(e.pinned))
	err := order.Walk(e.ctx, e.prob, func(a order.Answer) bool {
		e.proved = true
		if a.Cost > e.bound {
			e.bound = a.Cost
		}
		if a.Cost >= e.best.points-little {
			e.optimal = true
			return false
		}
		for k := range l {
			l[k] = wayOf(a.Strips[k], a.States[k])
		}
		stopped = true // unless this returns true
		if _, ok := e.points(l); !ok {
			return false
		}
		if orders++; orders == 1 {
			least = a.Cost
		}
		if e.tried > try {
			// The costs of orders lie denser and denser: what is slow now gets
			// slower.
			if try = math.MaxInt; e.bound-least < walkHope*(e.best.points-least) {
				return false
			}
		}
		if orders == firstOrders {
			e.roam(int(climbShare*float64(e.budget)), e.climbed())
			if e.few() > float64(e.budget) {
				share := walkShare * float64(e.budget-e.tried)
				until, try = e.tried+int(share), e.tried+int(share*walkTry)
			}
		}
		stopped = e.tried >= until
		return !stopped
	})
	if err == nil && !stopped && e.ctx.Err() == nil {
		e.optimal = true // went through all there are
	}
	return err
}

// few returns how many layings there are at most.
func (e *engine) few() float64 {
	n := 1.0
	left := map[int]int{} // members by class that have no place yet
	class := func(i int) int {
		if e.class == nil {
			return 0
		}
		return e.class[i]
	}
	for i := range e.members {
		left[class(i)]++
	}
	for k := range e.pinned {
		at := 0
		if e.homes != nil {
			at = e.homes[k]
		}
		if !e.pinned[k] {
			n *= float64(left[at]) * order.States
		}
		left[at]--
	}
	return n
}

// climbed climbs from the panel as it lies and from the best few read so far.
func (e *engine) climbed() []found {
	var good []found
	from := e.good()
	if e.start != nil {
		from = slices.Insert(from, 0, found{laying: e.start})
	}
	each := max(1, int(climbShare*float64(e.budget))/(len(from)+1))
	for _, f := range from {
		good = keepGood(good, e.climb(f.laying, each))
	}
	return good
}

// good returns the best few layings read so far.
func (e *engine) good() []found {
	list := slices.Clone(e.list)
	sortFound(list)
	return list[:min(len(list), elites)]
}

// sortFound sorts by points, equal ones by strips and states.
func sortFound(list []found) {
	slices.SortFunc(list, func(a, b found) int {
		return cmp.Or(cmp.Compare(a.points, b.points), slices.Compare(a.laying, b.laying))
	})
}

// settle makes what is known of the bound agree with the best.
func (e *engine) settle() {
	if e.optimal {
		e.bound = e.best.points
	}
	e.bound = min(e.bound, e.best.points)
}

// begin makes layings by local cost alone, and reads and climbs from those.
func (e *engine) begin() {
	var made []found
	for range starts {
		if e.ctx.Err() != nil {
			break
		}
		if l := e.random(); l != nil {
			l = e.descend(l)
			made = append(made, found{l, e.local(l)})
		}
	}
	if e.start != nil {
		l := e.descend(e.start)
		made = append(made, found{l, e.local(l)})
	}
	sortFound(made)
	for _, f := range made {
		e.points(f.laying)
	}
	e.roam(int(climbShare*float64(e.budget)), e.climbed())
}

// descend makes the move of least local cost until none lowers it.
func (e *engine) descend(l laying) laying {
	l = slices.Clone(l)
	out := make(laying, 0, len(l))
	var list []move
	for e.ctx.Err() == nil {
		list = e.moves(list[:0], l)
		best, at := e.local(l)-little, -1
		for i := range list {
			out = list[i].apply(out, l)
			if x := e.local(out); x < best {
				best, at = x, i
			}
		}
		if at < 0 {
			break
		}
		out = list[at].apply(out, l)
		l, out = out, l
	}
	return l
}
