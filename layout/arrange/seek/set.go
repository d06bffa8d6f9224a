package seek

import (
	"cmp"
	"context"
	"math"
	"slices"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/together"
)

// SetRequest asks for arrangements of all panels of a face at once.
type SetRequest struct {
	// Face holds the panels as laid; it is not changed. Pinned strips keep place
	// and state, glued ones too, empty places stay. Strips are known by their
	// ids, which differ between panels.
	Face *together.Face
	// Exchange lets strips go to another panel where the sizes allow: to one of
	// the same length and thickness, and so that the strips of none are less wide
	// in all than it needs, or than they are now.
	Exchange       bool
	NoTurn, NoRoll bool // strips are not turned end for end, not rolled over

	Look     look.Name
	Rules    look.Rules
	Seed     uint64
	Answers  int // at most so many, DefaultAnswers where not positive
	Readings int // arrangements read at most, DefaultReadings where not positive; as many for each panel before
}

// SetAnswer is one arrangement of all panels.
type SetAnswer struct {
	Strips  [][]face.Strip // by panel, front to back
	Own     []look.Score   // of each panel by itself
	Seen    look.Score     // of all as one face
	Points  float64        // against it: the sum
	Reading Summary        // of all as one face
	Looks   []LookPoints   // points for every look; of final answers only
	Differs float64        // share of the light wood that lies elsewhere than in the first answer, 0 to 1
}

// SetResult is what a search found; see Result.
type SetResult struct {
	Answers []SetAnswer
	Proved  bool
	Optimal bool
	Bound   float64
	Tried   int
	As      SetAnswer
}

// SearchSet looks for arrangements of several panels with the fewest points
// against them: against each by itself, and against all as one face. It begins
// with the panels arranged one after another, each with the others as they lie
// then, and goes on from there with all at once, so that it is never worse than
// that, nor than what lies there. Otherwise it is as Search.
func SearchSet(ctx context.Context, req SetRequest, improved func(SetResult)) (SetResult, error) {
	if req.Readings <= 0 {
		req.Readings = DefaultReadings
	}
	if req.Answers <= 0 {
		req.Answers = DefaultAnswers
	}
	e, err := prepareGroup(&req)
	if err != nil {
		return SetResult{}, err
	}
	e.ctx = ctx
	e.layWays()
	s := &setSearching{req: &req, e: e, g: e.group, told: improved}
	s.result.As = s.answer(e.start, true)
	s.result.Bound = math.Inf(-1)
	if req.Look == look.AsLaid {
		s.result.Answers = []SetAnswer{s.result.As}
		s.result.Optimal, s.result.Proved, s.result.Bound = true, true, s.result.As.Points
		return s.result, nil
	}
	after, err := s.oneAfterAnother(ctx)
	if err != nil {
		return s.result, err
	}
	e.fill()
	e.budget = req.Readings
	e.insist(e.start)
	e.insist(after)
	if improved != nil {
		e.improved = func() { improved(s.progress()) }
	}
	usual, err := e.run()
	if err != nil {
		return s.result, err
	}
	return s.finish(usual), nil
}

// setSearching makes results of what the engine finds.
type setSearching struct {
	req    *SetRequest
	e      *engine
	g      *group
	told   func(SetResult)
	before int // read while the panels were arranged one after another
	result SetResult
}

// oneAfterAnother arranges each panel with the others as they lie then.
func (s *setSearching) oneAfterAnother(ctx context.Context) (laying, error) {
	f := s.g.face.Fork()
	l := slices.Clone(s.e.start)
	best := s.result.As.Points
	for k := range s.g.panels {
		p := &s.g.panels[k]
		held := s.e.pinned[p.from : p.from+len(p.panel.Strips)]
		if ctx.Err() != nil || !slices.Contains(held, false) {
			continue
		}
		told := func(r Result) {
			try := s.with(l, k, r.Answers[0].Strips)
			if a := s.answer(try, false); s.told != nil && a.Points <= best+little {
				best = min(best, a.Points)
				out := s.result
				out.Answers, out.Tried = []SetAnswer{a}, s.before+r.Tried
				s.told(out)
			}
		}
		if s.told == nil {
			told = nil
		}
		r, err := Search(ctx, Request{
			Panel: p.panel, In: f, At: k, NoTurn: s.req.NoTurn, NoRoll: s.req.NoRoll,
			Look: s.req.Look, Rules: s.req.Rules, Seed: s.req.Seed, Answers: 1, Readings: s.req.Readings,
		}, told)
		if err != nil {
			return l, err
		}
		s.before += r.Tried
		if r.Answers[0].Score.Points < r.As.Score.Points {
			l = s.with(l, k, r.Answers[0].Strips)
			f.Lay(k, r.Answers[0].Strips)
			best = min(best, s.answer(l, false).Points)
		}
	}
	return l, nil
}

// with is l with panel k laid otherwise.
func (s *setSearching) with(l laying, k int, strips []face.Strip) laying {
	out := slices.Clone(l)
	p := &s.g.panels[k]
	for i := range strips {
		for _, w := range l[p.from : p.from+len(strips)] {
			if m := (laying{w}).strip(0); s.e.members[m].ID == strips[i].ID {
				out[p.from+i] = wayOf(m, stateOf(&strips[i]))
			}
		}
	}
	return out
}

// answer reads and judges a laying.
func (s *setSearching) answer(l laying, final bool) SetAnswer {
	g := s.g
	var a SetAnswer
	for k, list := range g.lay(l) {
		p := &g.panels[k]
		q := p.panel
		q.Strips = slices.Clone(list)
		a.Strips = append(a.Strips, q.Strips)
		sc := p.judge.OwnScore(&q, p.reader.Read(&q))
		a.Own = append(a.Own, sc)
		a.Points += sc.Points
	}
	g.face.LayAll(a.Strips)
	g.reader.SkipCoverage(!final)
	r := g.reader.Read(g.face)
	g.reader.SkipCoverage(true)
	a.Seen = g.whole.TogetherScore(g.face.Panel, r)
	a.Points += a.Seen.Points
	a.Reading = Summary{Light: r.Show.Light.Value, Unwanted: r.Show.Unwanted.Value, Coverage: r.Show.Coverage}
	for i := range r.Warnings {
		if r.Warnings[i].Kind == face.LoneStreak {
			a.Reading.Lone++
		}
	}
	if !final {
		return a
	}
	for _, name := range look.All {
		if name == s.req.Look {
			a.Looks = append(a.Looks, LookPoints{name, a.Points})
			continue
		}
		j := g.judges(name)
		sum := j.whole.Together(g.face.Panel, r)
		for k := range g.panels {
			p := &g.panels[k]
			q := p.panel
			q.Strips = a.Strips[k]
			sum += j.own[k].Own(&q, p.reader.Read(&q))
		}
		a.Looks = append(a.Looks, LookPoints{name, sum})
	}
	return a
}

// progress returns the best so far.
func (s *setSearching) progress() SetResult {
	e := s.e
	out := s.result
	out.Answers = []SetAnswer{s.answer(e.best.laying, false)}
	out.Proved, out.Tried = e.proved, s.before+e.tried
	out.Bound = min(e.bound, e.best.points)
	return out
}

// finish chooses the answers.
func (s *setSearching) finish(usual float64) SetResult {
	e := s.e
	out := s.result
	picked, differs := e.choose(s.req.Answers, usual)
	for i, f := range picked {
		a := s.answer(f.laying, true)
		a.Differs = differs[i]
		out.Answers = append(out.Answers, a)
	}
	slices.SortStableFunc(out.Answers, func(a, b SetAnswer) int { return cmp.Compare(a.Points, b.Points) })
	out.Proved, out.Optimal, out.Tried = e.proved, e.optimal && len(picked) > 0, s.before+e.tried
	out.Bound = e.bound
	return out
}
