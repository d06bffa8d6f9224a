package session

import (
	"context"
	"slices"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/arrange/seek"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// Search is a search ready to run. It holds what it needs and is not changed
// by what is done in the session meanwhile.
type Search struct {
	wish    Wish
	project *model.Project
	words   words
	req     seek.Request
	set     *setSearch // nil: one panel
	only    bool       // judged, not searched
	grain   map[*face.Board]looks.Grain
	todo    []grainTask
	book    *grainBook
	shelf   *shelf
}

// Search prepares a search, to be run on a goroutine of its own.
func (s *Session) Search(wish Wish) (*Search, error) {
	if wish.Whole {
		return s.searchSet(wish, nil)
	}
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	m, p := v.project.Panel(wish.Panel), v.panels[wish.Panel]
	if m == nil || p == nil {
		return nil, say.Errorf("there is no panel %q to arrange", wish.Panel)
	}
	if len(p.Strips) == 0 {
		return nil, say.Errorf("panel %s has no strips yet: propose some, or lay boards on it", m.ID)
	}
	placed := func(st face.Strip) bool { return st.Board != nil }
	if !slices.ContainsFunc(p.Strips, placed) && (!wish.Spares || !slices.ContainsFunc(v.usable(), placed)) {
		return nil, say.Errorf("no strip of panel %s lies on a board yet: lay them on boards first", m.ID)
	}
	if wish.Look == "" {
		wish.Look = m.Look
	}
	q := &Search{wish: wish, project: v.project, words: s.words(wish.Panel)}
	q.words.look = looks.Name(wish.Look)
	q.words.panel = p
	rules := looks.DefaultRules
	rules.Rings = ringsOf(m.Rings)
	q.req = seek.Request{
		Panel: *p, Look: looks.Name(wish.Look), Rules: rules, Seed: wish.Seed,
		Answers: wish.Answers, NoRoll: wish.NoRoll, NoTurn: wish.NoTurn,
	}
	if set, ok := seenWith(v.project, wish.Panel); ok {
		q.req.In, q.req.At = besides(v, set), slices.Index(set.Panels, wish.Panel)
	}
	if wish.Spares {
		q.req.Pool, q.req.SwapWithPool = v.usable(), true
	}
	q.grain, q.todo = s.grainTasks(v, boardsOf(p.Strips, q.req.Pool))
	q.book, q.shelf = s.grain, s.pics.shelf
	// Numbers that are asked for later belong to the project searched.
	q.words.number = numbersOf(v.project, wish.Panel)
	return q, nil
}

// numbersOf returns what is chalked on the strips of a panel, and of those that
// it is seen together with.
func numbersOf(p *model.Project, panel string) func(string) string {
	return func(id string) string {
		if m := p.Panel(panel); m != nil && !slices.ContainsFunc(m.Strips, func(st model.Strip) bool { return st.ID == id }) {
			if set, ok := seenWith(p, panel); ok {
				for _, other := range set.Panels {
					if own, is := strings.CutPrefix(id, other+"/"); is {
						return say.F("%s of %s", model.StripNumber(p, other, own), other)
					}
				}
			}
		}
		return model.StripNumber(p, panel, id)
	}
}

// Appraise prepares to judge a panel as p lies, without searching: run it and
// take Found.Now.
func (s *Session) Appraise(wish Wish, p *face.Panel) (*Search, error) {
	q, err := s.Search(wish)
	if err != nil {
		return nil, err
	}
	q.req.Panel, q.only = *p, true
	return q, nil
}

// Run searches until it is done or ctx ends, which keeps the best found.
// improved, where not nil, is told of every better answer on the goroutine
// that runs.
func (q *Search) Run(ctx context.Context, improved func(Found)) (Found, error) {
	q.book.read(ctx, q.shelf, q.grain, q.todo)
	q.req.Rules.Grain = q.grain
	if q.only {
		over, stop := context.WithCancel(ctx)
		stop()
		ctx = over
	}
	if q.set != nil {
		return q.runSet(ctx, improved)
	}
	var told func(seek.Result)
	if improved != nil {
		told = func(r seek.Result) { improved(q.found(&r)) }
	}
	r, err := seek.Search(ctx, q.req, told)
	if err != nil {
		return Found{}, err
	}
	return q.found(&r), nil
}

func (q *Search) found(r *seek.Result) Found {
	f := Found{Look: q.wish.Look, Proved: r.Proved, Best: r.Optimal, Least: r.Bound, Tried: r.Tried}
	f.Now = q.arrangement(&r.As)
	f.Now.Edit = nil
	for i := range r.Answers {
		f.Answers = append(f.Answers, q.arrangement(&r.Answers[i]))
	}
	return f
}

// arrangement puts an answer into words and an edit.
func (q *Search) arrangement(a *seek.Answer) Arrangement {
	p := q.req.Panel
	p.Strips = a.Strips
	out := Arrangement{
		Panel: &p, Points: a.Score.Points, Change: q.change(a.Strips),
		After: After{Light: a.Reading.Light, Unwanted: a.Reading.Unwanted, Coverage: a.Reading.Coverage, LoneStreaks: a.Reading.Lone},
	}
	w := q.words
	w.panel = &p
	for i := range a.Score.Terms {
		t := a.Score.Terms[i]
		ids := make([]string, len(t.Strips)) // what was found may be told twice
		for k, id := range t.Strips {
			ids[k] = strings.TrimPrefix(id, q.wish.Panel+"/")
		}
		t.Strips = ids
		out.Reasons = append(out.Reasons, Reason{Text: w.term(&t), Points: t.Points, Strips: t.Strips, Joint: t.Joint})
	}
	for _, l := range a.Looks {
		out.Looks = append(out.Looks, LookScore{Look: model.Look(l.Look), Points: l.Points})
	}
	out.Edit = q.edit(a)
	return out
}

// edit lays the panel as an answer does. What leaves the panel goes to the
// spares, what comes in leaves them.
func (q *Search) edit(a *seek.Answer) model.Edit {
	known := map[string]model.Strip{}
	for _, st := range q.project.Spares {
		known[st.ID] = st
	}
	for _, st := range q.project.Panel(q.wish.Panel).Strips {
		known[st.ID] = st
	}
	e := model.SetStrips{Panel: q.wish.Panel, Strips: laid(known, a.Strips), Verb: say.F("Arrange %s", q.wish.Panel)}
	in := map[string]bool{}
	for i := range a.Strips {
		in[a.Strips[i].ID] = true
	}
	had := func(st model.Strip) bool { return st.ID == "" || !in[st.ID] }
	var spares []model.Strip
	changed := false
	for _, st := range q.project.Spares {
		if had(st) {
			spares = append(spares, st)
		} else {
			changed = true
		}
	}
	for _, st := range q.project.Panel(q.wish.Panel).Strips {
		if had(st) && st.Board != "" {
			spares = append(spares, st)
			changed = true
		}
	}
	if changed {
		e.Spares = append([]model.Strip{}, spares...)
	}
	return e
}

// change says what is done to lay the panel so, without words where nothing is.
func (q *Search) change(now []face.Strip) string {
	was := map[string]*face.Strip{}
	place := map[string]int{}
	for i := range q.req.Panel.Strips {
		st := &q.req.Panel.Strips[i]
		was[st.ID], place[st.ID] = st, i
	}
	var moved, rolled, turned, in []string
	for i := range now {
		st := &now[i]
		o := was[st.ID]
		if o == nil {
			in = append(in, st.ID)
			continue
		}
		if place[st.ID] != i {
			moved = append(moved, st.ID)
		}
		if st.UpFace() != o.UpFace() {
			rolled = append(rolled, st.ID)
		}
		if st.Turned != o.Turned {
			turned = append(turned, st.ID)
		}
	}
	var out []string
	tell := func(list []string, what string) {
		switch n := len(list); {
		case n == 0:
		case n <= 3:
			out = append(out, what+" "+q.words.numbersOf(list))
		default:
			out = append(out, say.F("%s %d strips", what, n))
		}
	}
	tell(in, say.T("take in"))
	tell(moved, say.T("move"))
	tell(rolled, say.T("roll over"))
	tell(turned, say.T("turn end for end"))
	return strings.Join(out, "; ")
}

func ringsOf(r model.Rings) looks.Rings {
	switch r {
	case model.RingsAlternate:
		return looks.Alternate
	case model.RingsBarkUp:
		return looks.BarkUp
	case model.RingsHeartUp:
		return looks.HeartUp
	}
	return looks.AnyRings
}
