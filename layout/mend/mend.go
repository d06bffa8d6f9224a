package mend

import (
	"context"
	"slices"

	"heartside/layout/arrange/look"
	"heartside/layout/cutting"
	"heartside/layout/face"
)

// Request is a job with spoiled boards.
type Request struct {
	Panels     []*face.Panel
	Looks      []look.Name // of the panels; AsLaid where there are none
	Spares     []face.Strip
	Taken      []face.Strip // what else lies on the boards
	Boards     []*face.Board
	Spoiled    func(*face.Board) bool
	Allowances cutting.Allowances
	Rules      look.Rules
}

// Change is a strip replaced.
type Change struct {
	Panel, Place int // indices of the panel and of the strip in it
	Was, Now     face.Strip
	Spare        bool // Now is a spare; otherwise it is newly cut, under the id it had
}

// Missing is a strip for which there is nothing.
type Missing struct {
	Panel, Place int
	Strip        face.Strip
	NeedL, NeedW float64 // size of the blank, mm
	Longest      float64 // longest free piece wide enough, over all boards; 0 none
}

// Result is what is to be done.
type Result struct {
	Changes []Change
	Missing []Missing
	Panels  [][]face.Strip // of every panel, front to back
	Spares  []face.Strip   // left
	// Least reports whether no choice among the candidates looked at leaves
	// fewer strips missing or has fewer points against it.
	Least bool
}

// Engineering choices: how many candidates are kept for a strip, how many
// choices are tried, and what cutting anew counts beside a spare that is there.
const (
	mostCandidates = 8
	mostTried      = 4000
	cutAnew        = 1.0 // points
	nothing        = 1e3 // points of a strip that stays missing
)

// candidate is a strip that may take the place of a lost one.
type candidate struct {
	strip  face.Strip
	spare  int // index, -1: cut anew
	points float64
}

// lost is a strip on a spoiled board.
type lost struct {
	panel, place int
	options      []candidate
}

// Replace finds the least change. Only strips still to be sawn are lost with
// their board; pinned or not makes no difference to that. When ctx ends, the best
// found so far is returned.
func Replace(ctx context.Context, q *Request) Result {
	m := &mender{q: q, ctx: ctx, reader: face.NewReader()}
	m.reader.SkipCoverage(true)
	m.gather()
	m.best, m.bestAt = make([]int, len(m.lost)), nothing*float64(len(m.lost)+1)
	for i := range m.best {
		m.best[i] = -1
	}
	m.least = true
	m.try(0, make([]int, len(m.lost)), 0)
	return m.result()
}

// mender is one search.
type mender struct {
	q      *Request
	ctx    context.Context
	reader *face.Reader
	lost   []lost
	best   []int // of each lost strip the option taken, -1 none
	bestAt float64
	tried  int
	least  bool
}

func (m *mender) gone(s *face.Strip) bool {
	return s.Board != nil && s.Stage == face.Planned && m.q.Spoiled(s.Board)
}

// onBoards is what stays on the boards whatever is chosen.
func (m *mender) onBoards() []face.Strip {
	out := slices.Clone(m.q.Taken)
	for _, p := range m.q.Panels {
		for i := range p.Strips {
			if s := &p.Strips[i]; s.Board != nil && !m.gone(s) {
				out = append(out, *s)
			}
		}
	}
	for i := range m.q.Spares {
		if s := &m.q.Spares[i]; s.Board != nil && !m.gone(s) {
			out = append(out, *s)
		}
	}
	return out
}

// gather lists the lost strips with what may replace each, those with the
// fewest options first.
func (m *mender) gather() {
	stays := m.onBoards()
	for pi, p := range m.q.Panels {
		for i := range p.Strips {
			if m.gone(&p.Strips[i]) {
				l := lost{panel: pi, place: i}
				l.options = m.options(p, pi, i, stays)
				m.lost = append(m.lost, l)
			}
		}
	}
	slices.SortStableFunc(m.lost, func(a, b lost) int { return len(a.options) - len(b.options) })
}

// options lists what may replace a strip, fewest points first.
func (m *mender) options(p *face.Panel, pi, place int, stays []face.Strip) []candidate {
	was := p.Strips[place]
	// What the strip may be narrower by, so that the panel is still covered.
	slack := max(p.StripsWidth()-p.Width-2*p.PanelEdge, 0)
	judge := look.NewJudge(p, m.lookOf(pi), m.q.Rules)
	now := *p
	now.Strips = slices.Clone(p.Strips)
	var out []candidate
	add := func(s face.Strip, spare int, extra float64) {
		best := candidate{spare: spare, points: nothing * nothing}
		for up := 1; up <= 2; up++ {
			for _, turned := range [2]bool{false, true} {
				s.Up, s.Turned, s.Shift, s.Planed = up, turned, 0, nil
				if s.Stage >= face.Glued {
					return
				}
				now.Strips[place] = s
				if v := judge.Points(&now, m.reader.Read(&now)) + extra; v < best.points-1e-9 {
					best.strip, best.points = s, v
				}
			}
		}
		out = append(out, best)
	}
	for i := range m.q.Spares {
		s := m.q.Spares[i]
		if s.Board == nil || m.gone(&s) || s.L < p.Length-1e-6 || s.W < was.W-slack-1e-6 || thin(s.Board, p) {
			continue
		}
		add(s, i, 0)
	}
	for _, b := range m.q.Boards {
		if m.q.Spoiled(b) || thin(b, p) || m.ctx.Err() != nil {
			continue
		}
		s := was
		s.Board, s.Angle, s.Stage, s.Pinned = b, 0, face.Planned, false
		for _, spot := range cutting.Spots(b, s, stays, m.q.Allowances) {
			spot.ID = was.ID
			add(spot, -1, cutAnew)
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		switch {
		case a.points < b.points:
			return -1
		case a.points > b.points:
			return 1
		}
		return 0
	})
	return spread(out)
}

// spread keeps the best candidates, but not all of one board: where two lost
// strips want the same place there is another to go to.
func spread(all []candidate) []candidate {
	var out []candidate
	per := map[*face.Board]int{}
	for _, c := range all {
		if len(out) < mostCandidates && per[c.strip.Board] < mostCandidates/2 {
			per[c.strip.Board]++
			out = append(out, c)
		}
	}
	return out
}

func thin(b *face.Board, p *face.Panel) bool {
	return b.Thickness > 0 && b.Thickness < p.Thickness-1e-6
}

func (m *mender) lookOf(i int) look.Name {
	if i < len(m.q.Looks) {
		return m.q.Looks[i]
	}
	return look.AsLaid
}

// try takes an option for each lost strip from the k-th on.
func (m *mender) try(k int, taken []int, points float64) {
	if points >= m.bestAt-1e-9 {
		return
	}
	if k == len(m.lost) {
		copy(m.best, taken)
		m.bestAt = points
		return
	}
	if m.tried++; m.tried > mostTried || m.ctx.Err() != nil {
		m.least = false
		return
	}
	for i := range m.lost[k].options {
		if m.clear(k, taken, i) {
			taken[k] = i
			m.try(k+1, taken, points+m.lost[k].options[i].points)
		}
	}
	taken[k] = -1
	m.try(k+1, taken, points+nothing)
}

// clear reports whether an option keeps clear of those taken before it.
func (m *mender) clear(k int, taken []int, i int) bool {
	c := &m.lost[k].options[i]
	for j := range k {
		if taken[j] < 0 {
			continue
		}
		d := &m.lost[j].options[taken[j]]
		if c.spare >= 0 && c.spare == d.spare {
			return false
		}
		if c.spare < 0 && d.spare < 0 && c.strip.Board == d.strip.Board {
			a, b := cutting.Blank(&c.strip, m.q.Allowances), cutting.Blank(&d.strip, m.q.Allowances)
			if cutting.Clearance(a, b) < m.q.Allowances.Kerf-1e-6 {
				return false
			}
		}
	}
	return true
}

func (m *mender) result() Result {
	out := Result{Least: m.least}
	for _, p := range m.q.Panels {
		out.Panels = append(out.Panels, slices.Clone(p.Strips))
	}
	used := map[int]bool{}
	for k := range m.lost {
		l := &m.lost[k]
		was := m.q.Panels[l.panel].Strips[l.place]
		if m.best[k] < 0 {
			out.Missing = append(out.Missing, m.missing(l, was))
			continue
		}
		c := &l.options[m.best[k]]
		if c.spare >= 0 {
			used[c.spare] = true
		}
		out.Panels[l.panel][l.place] = c.strip
		out.Changes = append(out.Changes, Change{l.panel, l.place, was, c.strip, c.spare >= 0})
	}
	byPlace := func(ap, ai, bp, bi int) int {
		if ap != bp {
			return ap - bp
		}
		return ai - bi
	}
	slices.SortFunc(out.Changes, func(a, b Change) int { return byPlace(a.Panel, a.Place, b.Panel, b.Place) })
	slices.SortFunc(out.Missing, func(a, b Missing) int { return byPlace(a.Panel, a.Place, b.Panel, b.Place) })
	for i := range m.q.Spares {
		if !used[i] {
			out.Spares = append(out.Spares, m.q.Spares[i])
		}
	}
	return out
}

// missing tells what was needed and what there is.
func (m *mender) missing(l *lost, was face.Strip) Missing {
	out := Missing{Panel: l.panel, Place: l.place, Strip: was}
	out.NeedL, out.NeedW = cutting.BlankSize(was.L, was.W, m.q.Allowances)
	stays := m.onBoards()
	for _, b := range m.q.Boards {
		if m.q.Spoiled(b) || thin(b, m.q.Panels[l.panel]) {
			continue
		}
		for _, r := range cutting.Free(b, stays, m.q.Allowances) {
			if r.H() >= out.NeedW-1e-6 {
				out.Longest = max(out.Longest, r.W())
			}
		}
	}
	return out
}
