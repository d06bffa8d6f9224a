package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// matchTouch asks how the boards of a book or slip match lay on one another
// before they were sawn apart, and at which edge the strip is opened. The
// pictures follow at once; nothing is laid before the maker says so.
type matchTouch struct {
	p     *matchPage
	box   *fyne.Container
	how   *pick
	edge  *pick
	ways  []session.Touch // the first is the zero one: as the zones agree best
	edges []session.Edge
	laid  string // what is offered
}

func newMatchTouch(p *matchPage) *matchTouch {
	t := &matchTouch{p: p, edges: []session.Edge{session.EitherEdge, session.FrontEdge, session.BackEdge}}
	t.box = container.New(stackLayout{})
	t.box.Hide()
	return t
}

// show brings what is offered up to date.
func (t *matchTouch) show() {
	p := t.p
	key := p.strip
	for _, w := range p.touches {
		key += "\x00" + w.Text
	}
	on := p.strip != "" && len(p.touches) > 0
	if key != t.laid {
		t.laid = key
		t.fill(on)
	}
	if !on {
		return
	}
	for i, w := range t.ways {
		if w == p.how && t.how.SelectedIndex() != i {
			t.how.take(i)
		}
	}
	if t.edge.SelectedIndex() != int(p.edge) {
		t.edge.take(int(p.edge))
	}
}

// fill makes the two choices anew.
func (t *matchTouch) fill(on bool) {
	p := t.p
	t.box.RemoveAll()
	t.how, t.edge = nil, nil
	setShown(t.box, on)
	if !on {
		return
	}
	t.ways = []session.Touch{{}}
	names := []string{say.T("As their zones agree best")}
	for _, w := range p.touches {
		t.ways, names = append(t.ways, w.Touch), append(names, sentence(w.Text))
	}
	at := map[session.Touch]string{}
	for i, w := range t.ways {
		at[w] = names[i]
	}
	t.how = choice(p.w, t.ways, func(w session.Touch) string { return at[w] }, p.how)
	t.how.changed = func() {
		if how := chosen(t.how, t.ways); how != p.how {
			p.how = how
			p.search()
		}
		p.keysBack()
	}
	role := model.RoleOther
	if n := p.w.ses.Committed().Panel(p.panel); n != nil {
		role = n.Role
	}
	sides := role.Sides()
	t.edge = choice(p.w, t.edges, func(e session.Edge) string {
		switch e {
		case session.FrontEdge:
			return say.F("Its %s", sides[0].Name)
		case session.BackEdge:
			return say.F("Its %s", sides[1].Name)
		}
		return say.T("Either edge")
	}, p.edge)
	t.edge.changed = func() {
		if e := chosen(t.edge, t.edges); e != p.edge {
			p.edge = e
			p.search()
		}
		p.keysBack()
	}
	number := p.w.ses.Number(p.panel, p.strip)
	head := wrapped(say.F("Book and slip matches of %s", number), widget.MediumImportance)
	head.TextStyle.Bold = true
	t.box.Add(snug(head))
	t.box.Add(snug(wrapped(say.T("How the boards lay before they were sawn apart (L)"), widget.MediumImportance)))
	t.box.Add(t.how)
	t.box.Add(snug(wrapped(say.T("Opened or slipped at (E)"), widget.MediumImportance)))
	t.box.Add(t.edge)
}

// reach gives the keys to one of the choices.
func (t *matchTouch) reach(k *pick) {
	if k == nil {
		t.p.w.say(say.F("There are no boards sawn beside the strip in hand: %s", t.p.noLeaves()))
		return
	}
	t.p.w.win.Canvas().Focus(k)
}

// leafSearch prepares the search for book and slip matches of the strip in
// hand, or says why there is none.
func (p *matchPage) leafSearch() (*session.LeafSearch, string) {
	p.touches = nil
	if p.strip == "" {
		return nil, ""
	}
	q, err := p.w.ses.Leaves(p.panel, p.strip)
	if err != nil {
		return nil, ended(sentence(say.Err(err)))
	}
	p.touches = q.Touches()
	q.Edge = p.edge
	known := false
	for _, w := range p.touches {
		known = known || w.Touch == p.how
	}
	if !known {
		p.how = session.Touch{} // said of other boards
	}
	if how := p.how; known {
		q.How = &how
	}
	return q, ""
}

// noLeaves says why there are no book and slip matches.
func (p *matchPage) noLeaves() string {
	switch {
	case p.strip == "":
		return say.T("take a strip in hand first (S).")
	case p.leaves.Why != "":
		return p.leaves.Why
	}
	return say.T("they are still being looked for.")
}

// empty says what can be done where there is no pair to show. Why there is
// none stands where the pictures would.
func (p *matchPage) empty() string {
	switch {
	case p.trouble != "":
		return p.trouble
	case p.running:
		return say.T("The edges are being compared.")
	}
	var do []string
	if p.edges.Need > 0 {
		do = append(do, say.T("Press N to see the nearest miss, or T to let widths differ by more."))
	}
	if p.only {
		do = append(do, say.T("Take the tick off \"Only its edges\" to compare all strips."))
	}
	if p.strip == "" {
		do = append(do, say.T("Take a strip in hand (S) to see its book and slip matches, from the boards sawn beside its own."))
	}
	do = append(do, say.T("Sapwood that is not drawn is not found: look at the zones of both faces of the boards."),
		say.T("Lay more strips on boards, in the panel or among the spares: all of them are compared."))
	return say.F("What can be done:\n• %s", strings.Join(do, "\n• "))
}
