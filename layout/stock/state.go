package stock

import (
	"math"
	"slices"

	"heartside/layout/geom"
)

// bundle is some strips side by side in a room.
type bundle struct {
	job, lot, site int
	rects          []geom.Rect // in the site's frame, as glued
	ups            []int       // the face that shows, of each
	width          float64     // of panel strips together, or the number of solid parts
	unwanted       [2]float64  // on show and back, mm2
	look           float64     // mm2
	blanks         float64     // mm2
	tag            uint64

	rooms  []geom.Rect // what it leaves
	usable float64
	delta  totals // what it adds, but for short and over
}

// shelf is a lot in the course of a plan.
type shelf struct {
	site   int // in use; -1 while it is whole
	rooms  []geom.Rect
	usable float64
	blanks float64 // sawn out, mm2
}

// part is a job in the course of a plan.
type part struct {
	left             float64
	narrow, wide     float64 // narrowest and widest strip so far; 0 none
	unwanted, placed [2]float64
	closed           bool // given up
}

// state is a plan in the making.
type state struct {
	p       *problem
	shelves []shelf
	parts   []part
	laid    []*bundle
	sum     totals // but for short and over
	tag     uint64
}

func (p *problem) start() *state {
	st := &state{p: p, shelves: make([]shelf, len(p.lots)), parts: make([]part, len(p.jobs))}
	for i := range st.shelves {
		st.shelves[i] = shelf{site: -1, usable: p.lots[i].base}
	}
	for i := range st.parts {
		j := &p.jobs[i]
		st.parts[i] = part{left: j.need, narrow: j.narrow, wide: j.wide}
	}
	return st
}

// used returns what is used up of a lot.
func (l *lot) used(s *shelf) float64 {
	if s.site < 0 {
		return 0
	}
	return math.Max(s.blanks, l.base-s.usable)
}

// cost returns the money for what is used of a lot.
func (l *lot) cost(s *shelf) float64 {
	if s.site < 0 {
		return 0
	}
	c := l.Price.PerArea * l.used(s)
	if !l.opened {
		c += l.Price.Whole
	}
	return c
}

// after returns the shelf that a bundle leaves.
func (b *bundle) after(s *shelf) shelf {
	return shelf{b.site, b.rooms, b.usable, s.blanks + b.blanks}
}

// mark is what one step changed.
type mark struct {
	shelf shelf
	part  part
	sum   totals
	tag   uint64
}

// lay adds a bundle whose rooms and delta are known for this state.
func (st *state) lay(b *bundle) mark {
	s, q := &st.shelves[b.lot], &st.parts[b.job]
	m := mark{*s, *q, st.sum, st.tag}
	*s = b.after(s)
	st.sum = st.sum.plus(b.delta)
	st.tag += b.tag
	q.left -= b.width
	if q.left < tiny {
		q.left = 0
	}
	for i, r := range b.rects {
		if q.narrow == 0 || r.H() < q.narrow {
			q.narrow = r.H()
		}
		q.wide = math.Max(q.wide, r.H())
		q.placed[0] += area(b.rects[i])
	}
	q.unwanted[0] += b.unwanted[0]
	q.unwanted[1] += b.unwanted[1]
	st.laid = append(st.laid, b)
	return m
}

func (st *state) undo(b *bundle, m mark) {
	st.shelves[b.lot], st.parts[b.job], st.sum, st.tag = m.shelf, m.part, m.sum, m.tag
	st.laid = st.laid[:len(st.laid)-1]
}

// relay works out anew, for this state, what a bundle of another one leaves and
// adds, and lays it. The bundle must find its place clear.
func (st *state) relay(o *bundle) {
	b := *o
	st.settle(&b)
	st.lay(&b)
}

// settle works out what a bundle leaves of its lot and adds to the plan.
func (st *state) settle(b *bundle) {
	p, l, s := st.p, &st.p.lots[b.lot], &st.shelves[b.lot]
	box := b.rects[0]
	for _, r := range b.rects[1:] {
		box = box.Union(r)
	}
	rooms := s.rooms
	if s.site < 0 {
		rooms = l.sites[b.site].rooms
	}
	b.rooms = thin(carve(rooms, grow(box, p.along, p.over), p.long, p.wide))
	b.usable = p.usable(b.rooms)
	next := b.after(s)
	b.delta = totals{
		used: l.used(&next) - l.used(s), cost: l.cost(&next) - l.cost(s),
		look: b.look, strips: float64(len(b.rects)),
	}
	if s.site < 0 && !l.opened {
		b.delta.boards = 1
	}
}

// totals returns what the state comes to, what is given up counted as short and
// what is still open as rest tells.
func (st *state) totals() totals {
	t := st.sum
	for i := range st.parts {
		q, j := &st.parts[i], &st.p.jobs[i]
		if q.closed {
			t.short += j.missing(q.left)
		}
		t.over += j.over(q)
	}
	return t
}

// over returns by how much a part passes its limits of unwanted wood, taken
// when all of it is made.
func (j *job) over(q *part) float64 {
	all := j.need * j.short
	if j.solid {
		all *= j.width
	}
	over := 0.0
	for f := range q.unwanted {
		if j.limit[f] < 1 {
			over += math.Max(0, q.unwanted[f]-j.limit[f]*math.Max(all, q.placed[0]))
		}
	}
	return over
}

// tagOf returns a number for rectangles of a job on a lot, the sum of those of
// each, so that sums tell states apart whatever the order they were laid in.
func tagOf(job, lot, site int, rects []geom.Rect) uint64 {
	sum := uint64(0)
	for _, r := range rects {
		h := uint64(job)<<40 ^ uint64(lot)<<8 ^ uint64(site)
		for _, v := range [...]float64{r.Min.X, r.Min.Y, r.Max.X, r.Max.Y} {
			// The finishing steps of SplitMix64 (Steele, Lea and Flood 2014).
			h += cents(v) + 0x9e3779b97f4a7c15
			h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
			h = (h ^ h>>27) * 0x94d049bb133111eb
			h ^= h >> 31
		}
		sum += h
	}
	return sum
}

func cents(v float64) uint64 { return uint64(int64(math.Round(v * 100))) }

// copyLaid returns the bundles laid so far.
func (st *state) copyLaid() []*bundle { return slices.Clone(st.laid) }
