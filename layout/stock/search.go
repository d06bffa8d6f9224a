package stock

import (
	"cmp"
	"context"
	"slices"
)

// plan is a finished state.
type plan struct {
	laid []*bundle
	sum  totals
	key  key
}

// searcher looks through the ways to go on from a state.
type searcher struct {
	ctx   context.Context
	p     *problem
	order []int // jobs, the scarcest first
	nodes int   // states entered
	limit int
	cut   bool // something was left out
	any   bool // ends with the first plan that lacks nothing
	seen  map[uint64]struct{}
	best  *plan
	tick  func(*searcher)
}

func newSearcher(ctx context.Context, p *problem, limit int, best *plan) *searcher {
	return &searcher{ctx: ctx, p: p, order: p.scarceFirst(), limit: limit, seen: map[uint64]struct{}{}, best: best}
}

// scarceFirst orders jobs by how much more the boards give than they need, so
// that a part with few boards to come from is served before others take them.
func (p *problem) scarceFirst() []int {
	st := p.start()
	order := make([]int, len(p.jobs))
	plenty := make([]float64, len(p.jobs))
	for k := range order {
		order[k] = k
		j := &p.jobs[k]
		for _, b := range j.boards {
			plenty[k] += st.capacity(j, b)
		}
		plenty[k] /= j.need
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(plenty[a], plenty[b]), cmp.Compare(p.jobs[b].long, p.jobs[a].long), cmp.Compare(p.jobs[b].least, p.jobs[a].least))
	})
	return order
}

// stopped reports whether the search is to end: it goes on until it has a plan.
func (s *searcher) stopped() bool {
	if s.best == nil {
		return false
	}
	if s.ctx.Err() != nil || s.nodes >= s.limit || s.any && s.best.sum.short == 0 {
		s.cut = true
		return true
	}
	return false
}

// dive goes through all that can follow a state.
func (s *searcher) dive(st *state) {
	if _, ok := s.seen[st.tag]; ok || s.stopped() {
		return
	}
	s.seen[st.tag] = struct{}{}
	s.nodes++
	if s.tick != nil {
		s.tick(s)
	}
	if s.best != nil && !st.bound().key(s.p.obj).less(s.best.key) {
		return
	}
	k := -1
	for _, i := range s.order {
		if q := &st.parts[i]; !q.closed && q.left > 0 {
			k = i
			break
		}
	}
	if k < 0 {
		t := st.totals()
		if key := t.key(s.p.obj); s.best == nil || key.less(s.best.key) {
			s.best = &plan{st.copyLaid(), t, key}
		}
		return
	}
	list, all := st.moves(k)
	s.cut = s.cut || !all
	for _, b := range list {
		if s.stopped() {
			return
		}
		m := st.lay(b)
		s.dive(st)
		st.undo(b, m)
	}
	// Give it up as it is.
	shut := uint64(0x9e3779b97f4a7c15) * uint64(k+1)
	st.parts[k].closed = true
	st.tag += shut
	s.dive(st)
	st.parts[k].closed = false
	st.tag -= shut
}
