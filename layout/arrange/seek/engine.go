package seek

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"heartside/layout/arrange/order"
	"heartside/layout/face"
)

// scorer tells what an arrangement is worth: points against it, of which those
// of single strips and of neighbours add up and all others are at least 0.
type scorer interface {
	Single(s *face.Strip, place, places int) float64
	Pair(front, rear *face.Strip) float64
	Points(p *face.Panel, r *face.Reading) float64
}

// tellEvery is after how many readings it is told how far the search is.
const tellEvery = 250

// little is a difference of points that is none.
const little = 1e-9

// engine is one search.
type engine struct {
	ctx     context.Context
	judge   scorer
	members []face.Strip // strips that may lie in the panel
	from    []int        // where each member is from: panel strips, then the pool
	ways    []face.Strip // each member in each state
	allowed []uint8
	pinned  []bool  // by place
	must    uint64  // members that must lie in the panel
	width   float64 // the least width of all strips together
	prob    *order.Problem
	start   laying // as the panel lies, nil where it may not stay so
	round   bool   // turned round by half a turn is the same

	// Where several panels are arranged at once, members keep to the places of
	// their kind.
	class []int  // by member, nil where all may lie anywhere
	homes []int  // by place
	group *group // nil: one panel

	rnd    *rand.Rand
	reader *face.Reader
	panel  face.Panel
	short  int // strips too short for their place, as the panel lies now

	budget, tried int
	seen          map[string]float64 // points of what was read, +Inf where it will not do
	list          []found
	best          found
	bound         float64
	proved        bool // bound is the optimum of the joint terms, or more
	optimal       bool
	improved      func()
}

// found is a laying that was read.
type found struct {
	laying laying
	points float64
}

// layWays lists each member in each state.
func (e *engine) layWays() {
	e.ways = make([]face.Strip, 0, len(e.members)*order.States)
	for i := range e.members {
		for s := uint8(0); s < order.States; s++ {
			e.ways = append(e.ways, laid(e.members[i], s))
		}
	}
}

// fill computes what single strips and neighbours cost.
func (e *engine) fill() {
	m, n := len(e.members), len(e.pinned)
	e.layWays()
	p := e.prob
	p.Strips, p.Places, p.Allowed = m, n, e.allowed
	width := m * order.States
	p.Single = make([]float64, n*width)
	p.Pair = make([]float64, width*width)
	may := func(w int) bool { return e.may(w/order.States, uint8(w%order.States)) }
	for place := range n {
		for w := range width {
			switch {
			case !may(w):
			case e.belongs(w/order.States, place):
				p.Single[place*width+w] = e.judge.Single(&e.ways[w], place, n)
			default:
				p.Single[place*width+w] = math.Inf(1)
			}
		}
	}
	for a := range width {
		if e.ctx.Err() != nil {
			return
		}
		for b := range width {
			i, k := a/order.States, b/order.States
			if i != k && may(a) && may(b) && (e.class == nil || e.class[i] == e.class[k]) {
				p.Pair[a*width+b] = e.judge.Pair(&e.ways[a], &e.ways[b])
			}
		}
	}
}

// belongs reports whether a strip may lie at a place.
func (e *engine) belongs(strip, place int) bool {
	return e.class == nil || e.class[strip] == e.homes[place]
}

// may reports whether a strip may lie in a state.
func (e *engine) may(strip int, state uint8) bool {
	return e.allowed[strip]>>state&1 == 1
}

// local returns what single strips and neighbours cost in l.
func (e *engine) local(l laying) float64 {
	width := len(e.ways)
	sum := 0.0
	for k, w := range l {
		if k > 0 {
			sum += e.prob.Pair[int(l[k-1])*width+int(w)]
		}
		sum += e.prob.Single[k*width+int(w)]
	}
	return sum
}

// key tells layings apart, those that are the same turned round taken as one.
func (e *engine) key(l laying) laying {
	if !e.round {
		return l
	}
	if r := l.round(); slices.Compare(r, l) < 0 {
		return r
	}
	return l
}

// points returns the points against l, and false when readings are spent or
// the search is called off.
func (e *engine) points(l laying) (float64, bool) {
	key := e.key(l)
	if x, ok := e.seen[string(key)]; ok {
		return x, true
	}
	if e.tried >= e.budget || e.ctx.Err() != nil {
		return 0, false
	}
	x := e.read(l)
	e.seen[string(key)] = x
	if e.tried%tellEvery == 0 && e.improved != nil && len(e.best.laying) > 0 {
		e.improved() // how far it is
	}
	if !math.IsInf(x, 1) {
		f := found{slices.Clone(key), x}
		e.list = append(e.list, f)
		if x < e.best.points-little {
			e.best = f
			if e.improved != nil {
				e.improved()
			}
		}
	}
	return x, true
}

// insist reads l whatever the budget and the context say.
func (e *engine) insist(l laying) {
	ctx, budget := e.ctx, e.budget
	e.ctx, e.budget = context.Background(), math.MaxInt
	e.points(l)
	e.ctx, e.budget = ctx, budget
}

// read reads the panel laid as l.
func (e *engine) read(l laying) float64 {
	e.tried++
	if e.group != nil {
		return e.group.read(l)
	}
	e.lay(l)
	r := e.reader.Read(&e.panel)
	if tooShort(r) > e.short {
		return math.Inf(1)
	}
	return e.judge.Points(&e.panel, r)
}

// lay puts the strips into the panel.
func (e *engine) lay(l laying) {
	e.panel.Strips = e.panel.Strips[:0]
	for _, w := range l {
		e.panel.Strips = append(e.panel.Strips, e.ways[w])
	}
}

// tooShort counts the strips that do not reach over their place.
func tooShort(r *face.Reading) int {
	n := 0
	for i := range r.Warnings {
		if w := &r.Warnings[i]; w.Kind == face.PanelTooSmall && len(w.Strips) > 0 {
			n++
		}
	}
	return n
}

// turnsRound finds out whether the panel turned round by half a turn is the
// same to the judge: in what single strips and neighbours cost, and in all that
// the readings of a few layings tell.
func (e *engine) turnsRound(probes []laying) bool {
	n, width := len(e.pinned), len(e.ways)
	if e.group != nil || slices.Contains(e.pinned, true) || e.panel.Shape != nil || len(e.panel.Hidden) > 0 {
		return false
	}
	for i := range e.members {
		if a := e.allowed[i]; e.members[i].Shift != 0 || a&5<<1 != a&10 {
			return false
		}
	}
	same := func(a, b float64) bool { return a == b || math.Abs(a-b) <= little*(1+math.Abs(a)) }
	for place := range n {
		for w := range width {
			if !same(e.prob.Single[place*width+w], e.prob.Single[(n-1-place)*width+(w^turnedBit)]) {
				return false
			}
		}
	}
	for a := range width {
		for b := range width {
			if !same(e.prob.Pair[a*width+b], e.prob.Pair[(b^turnedBit)*width+(a^turnedBit)]) {
				return false
			}
		}
	}
	for _, l := range probes {
		x, ok := e.points(l)
		y, ok2 := e.points(l.round())
		if !ok || !ok2 || !same(x, y) {
			return false
		}
	}
	return true
}

// fold joins what was read before it was known that turning round changes
// nothing.
func (e *engine) fold() {
	e.round = true
	e.best.laying = e.key(e.best.laying)
	list := e.list[:0]
	clear(e.seen)
	for _, f := range e.list {
		f.laying = e.key(f.laying)
		if _, ok := e.seen[string(f.laying)]; !ok {
			e.seen[string(f.laying)] = f.points
			list = append(list, f)
		}
	}
	e.list = list
}
