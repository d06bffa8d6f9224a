package seek

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/together"
)

// Request asks for arrangements of a panel.
type Request struct {
	// Panel as laid, front to back. Pinned strips keep place and state, glued
	// ones too, and shifts stay with their strips. An empty place is filled
	// from the pool where that has strips enough, else it stays.
	Panel face.Panel
	// Pool holds further strips that may take a place: those that are cut from
	// a board, not glued, and reach over the panel's length and thickness.
	Pool []face.Strip
	// SwapWithPool lets strips of the panel go for others of the pool. Without
	// it the pool only fills empty places.
	SwapWithPool   bool
	NoTurn, NoRoll bool // strips are not turned end for end, not rolled over

	// In is the face that the panel is seen as part of, such as a pair of doors,
	// and At which of its panels it is; nil where it is seen alone. What the eye
	// sees of all is then judged on that face. It is not changed.
	In *together.Face
	At int

	Look     look.Name
	Rules    look.Rules
	Seed     uint64
	Answers  int // at most so many, DefaultAnswers where not positive
	Readings int // arrangements read at most, DefaultReadings where not positive
}

// What a request without a number gets; engineering choices. Time is the
// context's.
const (
	DefaultAnswers  = 5
	DefaultReadings = 20_000
)

// Answer is one arrangement.
type Answer struct {
	Strips  []face.Strip // in the panel, front to back
	Left    []face.Strip // of the panel and the pool, not used, as they were
	Score   look.Score
	Reading Summary
	Looks   []LookPoints // points for every look; of final answers only
	Differs float64      // share of the light wood that lies elsewhere than in the first answer, 0 to 1
}

// LookPoints are the points against an arrangement for a look.
type LookPoints struct {
	Look   look.Name
	Points float64
}

// Summary is what one asks first of a reading of the show face.
type Summary struct {
	Light, Unwanted float64 // shares, 0 to 1
	Coverage        float64 // contrast coverage, 0 to 1; of final answers only
	Lone            int     // lone streaks of all that is seen
}

// Result is what a search found.
type Result struct {
	Answers []Answer // the best first; while it runs, only the best
	Proved  bool     // the least local cost of all orders is known, not only a bound
	Optimal bool     // no arrangement has fewer points than the first answer
	Bound   float64  // no arrangement has fewer points than this
	Tried   int      // arrangements read
	As      Answer   // the panel as it lies now
}

// Search looks for arrangements with the fewest points against them, clearly
// different from each other. improved, where not nil, is called from the same
// goroutine for each better one, and now and then between. When ctx ends, what was found so far is
// returned without an error. Errors tell of a panel that cannot be arranged. A
// look that only judges returns the panel as it lies.
func Search(ctx context.Context, req Request, improved func(Result)) (Result, error) {
	if req.Readings <= 0 {
		req.Readings = DefaultReadings
	}
	if req.Answers <= 0 {
		req.Answers = DefaultAnswers
	}
	e, err := prepare(&req.Panel, req.Pool, freedom{req.NoTurn, req.NoRoll, req.SwapWithPool}, req.Seed)
	if err != nil {
		return Result{}, err
	}
	frame := req.Panel
	judge := look.NewJudge(&frame, req.Look, req.Rules)
	e.ctx, e.judge, e.budget = ctx, judge, req.Readings
	s := searching{req: &req, engine: e, judge: judge}
	if req.In != nil {
		if req.At < 0 || req.At >= req.In.Len() {
			return Result{}, fmt.Errorf("panel %q is none of those it is seen with", req.Panel.ID)
		}
		s.part = newPart(judge, &req, len(e.members))
		e.judge = s.part
	}
	s.as()
	if req.Look == look.AsLaid {
		s.result.Answers = []Answer{s.result.As}
		s.result.Optimal, s.result.Proved, s.result.Bound = true, true, s.result.As.Score.Points
		return s.result, nil
	}
	if improved != nil {
		e.improved = func() { improved(s.progress()) }
	}
	e.fill()
	usual, err := e.run()
	if err != nil {
		return s.result, err
	}
	return s.finish(usual), nil
}

// searching makes results of what the engine finds.
type searching struct {
	req    *Request
	engine *engine
	judge  *look.Judge
	part   *part // nil: the panel is seen alone
	result Result
}

// as reads the panel as it lies, the coverage too.
func (s *searching) as() {
	e := s.engine
	e.panel.Strips = append(e.panel.Strips[:0], s.req.Panel.Strips...)
	s.result.As = s.answer(true)
	s.result.As.Left = s.req.Pool
	r := e.reader.Read(&e.panel)
	e.short = tooShort(r)
}

// answer reads and judges what lies in the engine's panel.
func (s *searching) answer(final bool) Answer {
	e := s.engine
	e.reader.SkipCoverage(!final)
	r := e.reader.Read(&e.panel)
	a := Answer{
		Strips: append([]face.Strip(nil), e.panel.Strips...),
		Score:  s.score(r),
		Reading: Summary{
			Light: r.Show.Light.Value, Unwanted: r.Show.Unwanted.Value, Coverage: r.Show.Coverage,
		},
	}
	seen := r
	if s.part != nil {
		seen = s.part.seen(&e.panel)
	}
	for i := range seen.Warnings {
		if seen.Warnings[i].Kind == face.LoneStreak {
			a.Reading.Lone++
		}
	}
	if final {
		for _, name := range look.All {
			a.Looks = append(a.Looks, LookPoints{name, s.pointsFor(name, r)})
		}
	}
	e.reader.SkipCoverage(true)
	return a
}

// score judges the engine's panel, r being its reading.
func (s *searching) score(r *face.Reading) look.Score {
	if s.part != nil {
		return s.part.score(&s.engine.panel, r)
	}
	return s.judge.Score(&s.engine.panel, r)
}

// pointsFor are the points against it for any look.
func (s *searching) pointsFor(name look.Name, r *face.Reading) float64 {
	j := s.judge
	if name != s.req.Look {
		j = look.NewJudge(&s.req.Panel, name, s.req.Rules)
	}
	if s.part != nil {
		return s.part.pointsBy(j, name, &s.engine.panel, r)
	}
	return j.Points(&s.engine.panel, r)
}

// of makes an answer of a laying.
func (s *searching) of(l laying, final bool) Answer {
	e := s.engine
	l = e.asNear(l)
	e.lay(l)
	a := s.answer(final)
	all := append(slices.Clone(s.req.Panel.Strips), s.req.Pool...)
	in := make([]bool, len(all))
	for k := range l {
		in[e.from[l.strip(k)]] = true
	}
	for i := range all {
		if !in[i] && all[i].Board != nil {
			a.Left = append(a.Left, all[i])
		}
	}
	return a
}

// progress returns the best so far.
func (s *searching) progress() Result {
	e := s.engine
	out := s.result
	out.Answers = []Answer{s.of(e.best.laying, false)}
	out.Proved, out.Tried = e.proved, e.tried
	out.Bound = min(e.bound, e.best.points)
	return out
}

// finish chooses the answers.
func (s *searching) finish(usual float64) Result {
	e := s.engine
	out := s.result
	picked, differs := e.choose(s.req.Answers, usual)
	for i, f := range picked {
		a := s.of(f.laying, true)
		a.Differs = differs[i]
		out.Answers = append(out.Answers, a)
	}
	slices.SortStableFunc(out.Answers, func(a, b Answer) int { return cmp.Compare(a.Score.Points, b.Score.Points) })
	out.Proved, out.Optimal, out.Tried = e.proved, e.optimal && len(picked) > 0, e.tried
	if len(picked) > 0 {
		out.Bound = e.bound
	} else if e.start != nil {
		out.Answers = []Answer{out.As} // called off before anything was read
	}
	return out
}
