package stock

import (
	"context"
	"math"
	"slices"
)

// Choice is one of several plans.
type Choice struct {
	Result
	Aims    []Objective // at which none of the plans is better; may be empty
	Without string      // the board it was made to leave alone; "" for none
}

// asGood is the share by which a plan may miss the best figure found and still be
// called the best at it: that of a plan not clearly different, which is not shown. An
// engineering choice.
const asGood = 0.01

// Several looks for up to most plans that are clearly different from each
// other (see Different), the best for the objective first. Then come the best
// for the other objectives, and plans for the first one that leave alone a board
// which its best plan cuts into. None lacks more wood than the best. told, where not
// nil, gets how far the work is, 0 to 1, and what there is so far, nil where that
// is as it was told before, from the same goroutine.
//
// The same request gives the same plans. When ctx ends, those found so far come
// back without an error.
func Several(ctx context.Context, supply Supply, demands []Demand, obj Objective, most int, o Options, told func(done float64, list []Choice)) ([]Choice, error) {
	supply.tables = &tableBook{got: map[tableKey]*Table{}}
	v := &several{ctx: ctx, supply: supply, demands: demands, obj: obj, most: max(most, 1), opt: o, told: told}
	return v.run()
}

// Objectives lists what a plan of a supply can be best at, first first. Without
// prices there is no least cost.
func Objectives(supply Supply, first Objective) []Objective {
	priced := slices.ContainsFunc(supply.Boards, func(k Stock) bool { return k.Price != Price{} })
	out := []Objective{first}
	for _, a := range [...]Objective{LeastWood, LeastCost, BestLook, FewestJoints, WholeBoards} {
		if a != first && (a != LeastCost || priced) {
			out = append(out, a)
		}
	}
	return out
}

// How much is looked at for a first look and for plans that leave a board alone,
// and of how many boards that is tried. Engineering choices.
const (
	quickNodes  = 300
	quickRounds = 4
	mostWithout = 5
)

// several is a search for several plans.
type several struct {
	ctx     context.Context
	supply  Supply
	demands []Demand
	obj     Objective
	most    int
	opt     Options
	told    func(float64, []Choice)

	aims    []Objective
	found   []Choice // the best for each aim, in their order, then those without a board
	step    int      // of steps
	steps   int
	chosen  []Choice
	changed bool
}

func (v *several) run() ([]Choice, error) {
	v.aims = Objectives(v.supply, v.obj)
	v.steps = len(v.aims)*3 + mostWithout // a thorough plan counts as two steps
	for _, a := range v.aims {
		if v.step > 0 && v.ctx.Err() != nil {
			break
		}
		r, err := v.plan(v.supply, a, min(quickNodes, v.opt.filled().Nodes), quickRounds, 1)
		if err != nil {
			return nil, err
		}
		v.found = append(v.found, Choice{Result: r})
		v.choose()
	}
	for i, a := range v.aims {
		if v.ctx.Err() != nil {
			break
		}
		if v.found[i].Proved {
			v.step += 2
			continue
		}
		r, err := v.plan(v.supply, a, v.opt.Nodes, v.opt.Rounds, 2)
		if err != nil {
			return nil, err
		}
		if key := r.key(a); key.less(v.found[i].key(a)) || r.Proved {
			v.found[i].Result = r
			v.choose()
		}
	}
	if err := v.without(); err != nil {
		return nil, err
	}
	v.step = v.steps
	v.changed = true
	v.tell(0)
	return v.chosen, nil
}

// without looks for plans that leave alone one of the boards that the best one
// cuts into, the one that gives least first: it is the easiest to leave.
func (v *several) without() error {
	if len(v.found) == 0 {
		return nil
	}
	uses := slices.Clone(v.found[0].Boards)
	slices.SortStableFunc(uses, func(a, b Use) int {
		switch {
		case a.Used < b.Used:
			return -1
		case a.Used > b.Used:
			return 1
		}
		return 0
	})
	for n, u := range uses {
		if n == mostWithout || len(v.chosen) >= v.most || v.ctx.Err() != nil {
			break
		}
		s := v.supply
		s.Boards = slices.DeleteFunc(slices.Clone(s.Boards), func(k Stock) bool { return k.Board.ID == u.Board })
		r, err := v.plan(s, v.obj, min(quickNodes, v.opt.filled().Nodes), quickRounds, 1)
		if err != nil {
			return err
		}
		if !r.Stopped {
			r.Proved = false // with all boards there may be a better one
			v.found = append(v.found, Choice{Result: r, Without: u.Board})
			v.choose()
		}
	}
	return nil
}

// plan makes one plan, so many steps of the whole.
func (v *several) plan(s Supply, a Objective, nodes, rounds, steps int) (Result, error) {
	o := v.opt
	o.Nodes, o.Rounds = nodes, rounds
	o.Progress = func(p Progress) {
		if p.Of > 0 {
			v.tell(float64(steps) * float64(p.Done) / float64(p.Of))
		}
	}
	r, err := Plan(v.ctx, s, v.demands, a, o)
	v.step += steps
	return r, err
}

func (v *several) tell(part float64) {
	if v.told == nil {
		return
	}
	list := []Choice(nil)
	if v.changed {
		list = slices.Clone(v.chosen)
		v.changed = false
	}
	v.told(math.Min(1, (float64(v.step)+part)/float64(v.steps)), list)
}

// choose takes those that are shown of what was found.
func (v *several) choose() {
	least := math.Inf(1)
	for i := range v.found {
		least = math.Min(least, v.found[i].Missing)
	}
	v.chosen = nil
	for i := range v.found {
		c := v.found[i]
		if i < len(v.aims) { // another search may have come upon a better one
			for k := range v.found {
				if a := v.aims[i]; v.found[k].key(a).less(c.key(a)) {
					c = v.found[k]
				}
			}
		}
		if c.Missing > least+1 || len(v.chosen) == v.most {
			continue
		}
		if !slices.ContainsFunc(v.chosen, func(o Choice) bool { return !Different(v.supply, &o.Result, &c.Result) }) {
			v.chosen = append(v.chosen, c)
		}
	}
	for _, a := range v.aims {
		best := math.Inf(1) // also of those not shown
		for i := range v.found {
			if v.found[i].Missing <= least+1 {
				best = math.Min(best, v.found[i].at(a))
			}
		}
		for i := range v.chosen {
			c := &v.chosen[i]
			beaten := slices.ContainsFunc(v.chosen, func(o Choice) bool { return o.key(a).less(c.key(a)) })
			if !beaten && c.at(a) <= best*(1+asGood)+1e-9 {
				c.Aims = append(c.Aims, a)
			}
		}
	}
	v.changed = true
	v.tell(0)
}

// totals are what a result comes to, limits of unwanted wood apart.
func (r *Result) totals() totals {
	return totals{short: r.Missing, used: r.Used, cost: r.Cost, look: r.Unwelcome, strips: float64(r.Strips), boards: float64(r.opened)}
}

func (r *Result) key(a Objective) key {
	t := r.totals()
	t.over = r.over
	return t.key(a)
}

// at is what an objective asks to be least.
func (r *Result) at(a Objective) float64 {
	switch a {
	case LeastCost:
		return r.Cost
	case BestLook:
		return r.Unwelcome
	case FewestJoints:
		return float64(r.Strips)
	case WholeBoards:
		return float64(r.opened)
	}
	return r.Used
}
