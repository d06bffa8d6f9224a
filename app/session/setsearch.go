package session

import (
	"context"
	"slices"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/arrange/seek"
	"heartside/layout/face"
	"heartside/layout/together"
	"heartside/model"
	"heartside/model/say"
)

// setSearch is a search over all panels of a set. In it a strip is called
// "panel/strip" by the panel it lies in when the search begins.
type setSearch struct {
	set model.Set
	req seek.SetRequest
}

// SetOf returns the set whose panels can be arranged at once with a panel, false
// where there is none.
func (s *Session) SetOf(panel string) (model.Set, bool) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	set, ok := seenWith(v.project, panel)
	return set, ok && besides(v, set) != nil
}

// MayChange reports whether strips may go to other panels of the set of a panel
// at all, and whether they do where nothing is said, all being of one width.
func (s *Session) MayChange(panel string) (may, usual bool) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	set, ok := seenWith(v.project, panel)
	if !ok {
		return false, false
	}
	f := besides(v, set)
	if f == nil {
		return false, false
	}
	return seek.MayExchange(f)
}

// AppraiseSet prepares to judge the panels of a set as they lie in list, without
// searching: run it and take Found.Now.
func (s *Session) AppraiseSet(wish Wish, list []*face.Panel) (*Search, error) {
	wish.Whole = true
	q, err := s.searchSet(wish, list)
	if err != nil {
		return nil, err
	}
	q.only = true
	return q, nil
}

// searchSet prepares a search over all panels of a set, as they lie in list
// where that is given.
func (s *Session) searchSet(wish Wish, list []*face.Panel) (*Search, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	m := v.project.Panel(wish.Panel)
	if m == nil {
		return nil, say.Errorf("there is no panel %q to arrange", wish.Panel)
	}
	set, ok := seenWith(v.project, wish.Panel)
	if !ok {
		return nil, say.Errorf("panel %s is in no set: name the panels that are seen together first, or arrange it by itself", m.ID)
	}
	if wish.Look == "" {
		wish.Look = m.Look
	}
	if list == nil {
		for _, id := range set.Panels {
			list = append(list, v.panels[id])
		}
	}
	f, err := namedFace(list, set)
	if err != nil {
		return nil, say.Errorf("set %s cannot be arranged as one: %w", set.Name, err)
	}
	var strips []face.Strip
	for k := range f.Len() {
		p := f.Part(k)
		if !laidOut(p) {
			return nil, say.Errorf("no strip of panel %s lies on a board yet: lay all panels of set %s on boards first", p.ID, set.Name)
		}
		strips = append(strips, p.Strips...)
	}
	q := &Search{wish: wish, project: v.project, words: s.words(wish.Panel)}
	q.words.look, q.words.panel = looks.Name(wish.Look), v.panels[wish.Panel]
	rules := looks.DefaultRules
	rules.Rings = ringsOf(m.Rings)
	may, alike := seek.MayExchange(f)
	q.set = &setSearch{set: set, req: seek.SetRequest{
		Face: f, Exchange: may && (wish.Change == ChangeAny || wish.Change == ChangeAlike && alike),
		NoTurn: wish.NoTurn, NoRoll: wish.NoRoll, Look: looks.Name(wish.Look), Rules: rules, Seed: wish.Seed, Answers: wish.Answers,
	}}
	q.grain, q.todo = s.grainTasks(v, boardsOf(strips, nil))
	q.book, q.shelf = s.grain, s.pics.shelf
	q.words.number = func(id string) string { return say.F("%s of %s", q.set.number(q.project, id), panelOfName(id)) }
	return q, nil
}

// namedFace lays panels of a set to a face on which strips are called by panel
// and id.
func namedFace(list []*face.Panel, set model.Set) (*together.Face, error) {
	var named []*face.Panel
	for _, p := range list {
		if p == nil {
			return nil, say.Errorf("one of its panels is not there")
		}
		q := *p
		q.Strips = slices.Clone(p.Strips)
		for i := range q.Strips {
			if !strings.Contains(q.Strips[i].ID, "/") {
				q.Strips[i].ID = p.ID + "/" + q.Strips[i].ID
			}
		}
		named = append(named, &q)
	}
	l := layoutOf(set)
	l.KeepIDs = true
	return together.Of(named, l)
}

// panelOfName and stripOfName part the name of a strip of a set.
func panelOfName(name string) string { p, _, _ := strings.Cut(name, "/"); return p }
func stripOfName(name string) string { _, id, _ := strings.Cut(name, "/"); return id }

// number is what is chalked on a strip.
func (q *setSearch) number(p *model.Project, name string) string {
	return model.StripNumber(p, panelOfName(name), stripOfName(name))
}

// runSet runs the search.
func (q *Search) runSet(ctx context.Context, improved func(Found)) (Found, error) {
	q.set.req.Rules.Grain = q.grain
	var told func(seek.SetResult)
	if improved != nil {
		told = func(r seek.SetResult) { improved(q.foundSet(&r)) }
	}
	r, err := seek.SearchSet(ctx, q.set.req, told)
	if err != nil {
		return Found{}, err
	}
	return q.foundSet(&r), nil
}

func (q *Search) foundSet(r *seek.SetResult) Found {
	f := Found{Look: q.wish.Look, Proved: r.Proved, Best: r.Optimal, Least: r.Bound, Tried: r.Tried}
	f.Now = q.setArrangement(&r.As)
	f.Now.Edit = nil
	for i := range r.Answers {
		f.Answers = append(f.Answers, q.setArrangement(&r.Answers[i]))
	}
	return f
}

// setArrangement puts an answer into words and an edit.
func (q *Search) setArrangement(a *seek.SetAnswer) Arrangement {
	out := Arrangement{
		Points: a.Points, Change: q.setChange(a.Strips),
		After: After{Light: a.Reading.Light, Unwanted: a.Reading.Unwanted, Coverage: a.Reading.Coverage, LoneStreaks: a.Reading.Lone},
	}
	for k, id := range q.set.set.Panels {
		p := *q.set.req.Face.Part(k)
		p.Strips = a.Strips[k]
		out.Panels = append(out.Panels, &p)
		if id == q.wish.Panel {
			out.Panel = &p
		}
		for i := range a.Own[k].Terms {
			out.Reasons = append(out.Reasons, q.setReason(&a.Own[k].Terms[i], id))
		}
	}
	for i := range a.Seen.Terms {
		out.Reasons = append(out.Reasons, q.setReason(&a.Seen.Terms[i], ""))
	}
	slices.SortStableFunc(out.Reasons, func(a, b Reason) int {
		switch {
		case a.Points > b.Points:
			return -1
		case a.Points < b.Points:
			return 1
		}
		return 0
	})
	for _, l := range a.Looks {
		out.Looks = append(out.Looks, LookScore{Look: model.Look(l.Look), Points: l.Points})
	}
	out.Edit = q.setEdit(a.Strips)
	return out
}

// setReason says what speaks against a set: in one of its panels, or in all of
// them as one face.
func (q *Search) setReason(t *looks.Term, panel string) Reason {
	w := q.words
	r := Reason{Points: t.Points, Strips: slices.Clone(t.Strips), Joint: t.Joint, Panel: panel}
	if panel == "" {
		r.Text = w.term(t)
		return r
	}
	w.number = func(name string) string {
		text := q.set.number(q.project, name)
		if from := panelOfName(name); from != panel { // it came over
			text += say.F(" of %s", from)
		}
		return text
	}
	r.Text = say.Upper(panel) + ": " + w.term(t)
	return r
}
