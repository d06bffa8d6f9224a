package ui

import (
	"context"
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// keepTrimPage holds side by side the plan that keeps the wood that is not
// wanted, the plan that trims it off, and clear stock: for the panel in hand and
// for the whole project.
type keepTrimPage struct {
	w      *Window
	from   page
	entry  *keepTrimEntry
	cards  []*keepTrimCard
	base   *model.Project
	ctx    context.Context // of the search
	halt   context.CancelFunc
	all    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
	status *widget.Label
	line   *fyne.Container // holds the status
	stop   *pageButton
	again  *pageButton
	offer  *keepTrimFields
	buying *quantityCard
}

// keepTrimCard is one of the two comparisons.
type keepTrimCard struct {
	panel   string // "" the whole project
	title   string
	job     *session.KeepTrim
	got     *session.KeptTrimmed
	trouble string
	done    float64
	laid    map[*model.Project]bool // what using the plan made of the project
}

// addKeepTrimActions lists the page. What is half typed is kept while the window
// is open.
func (w *Window) addKeepTrimActions() {
	entry := &keepTrimEntry{}
	w.acts.add(&Action{ID: "keep-trim", Label: say.T("Keep or trim"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyU)}, Hint: say.T("What it takes to keep the light wood, to trim it off, or to buy clear stock: wood, joints, cost and look."), Can: w.canPlan,
		Do: func() { w.keepTrimShow(entry) }})
}

// keepTrimShow turns to the page and begins to search.
func (w *Window) keepTrimShow(entry *keepTrimEntry) {
	p := &keepTrimPage{w: w, from: w.page, entry: entry}
	p.build()
	w.turnTo(p)
	p.search()
}

// search looks for the plans of all cards, one after another.
func (p *keepTrimPage) search() {
	if p.halt != nil {
		p.halt()
	}
	s := p.w.ses
	p.base, p.cards = s.Committed(), nil
	if n := p.w.panel(); n != nil {
		p.cards = append(p.cards, &keepTrimCard{panel: n.ID, title: say.F("Panel %s", title(n.ID))})
	}
	if now := s.Project(); len(now.Panels)+len(now.Parts) > 1 || len(p.cards) == 0 {
		p.cards = append(p.cards, &keepTrimCard{title: say.T("The whole project")})
	}
	for _, c := range p.cards {
		var err error
		if c.job, err = s.KeepTrim(c.panel); err != nil {
			c.trouble = ended(sentence(say.Err(err)))
		}
	}
	ctx, halt := context.WithCancel(p.w.work)
	p.ctx, p.halt = ctx, halt
	cards := p.cards
	p.fill()
	go func() {
		defer halt()
		for _, c := range cards {
			if c.job == nil {
				continue
			}
			last := 0.0
			got, err := keptTrimmed(ctx, c.job, func(done float64) {
				if done >= last+0.02 {
					last = done
					p.w.post(func() { p.told(ctx, c, done) })
				}
			})
			p.w.post(func() { p.found(c, got, err) })
		}
	}()
}

// keptTrimmed runs a search; what goes wrong in it is told and does not end the
// window.
func keptTrimmed(ctx context.Context, job *session.KeepTrim, told func(float64)) (got *session.KeptTrimmed, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("these boards could not be planned (%v)", r)
		}
	}()
	return job.Run(ctx, told)
}

// told takes how far a search is.
func (p *keepTrimPage) told(ctx context.Context, c *keepTrimCard, done float64) {
	if p.w.work.Err() != nil || ctx.Err() != nil || !slices.Contains(p.cards, c) {
		return
	}
	c.done = done
	p.state()
}

// found takes what a search found.
func (p *keepTrimPage) found(c *keepTrimCard, got *session.KeptTrimmed, err error) {
	if p.w.work.Err() != nil || p.w.page != page(p) || !slices.Contains(p.cards, c) {
		return
	}
	c.job = nil
	switch {
	case errors.Is(err, context.Canceled):
		c.trouble = say.T("Stopped before both plans were found. “Search again” begins anew.")
	case err != nil:
		c.trouble = ended(sentence(say.Err(err)))
	default:
		c.got, c.laid = got, map[*model.Project]bool{}
	}
	p.fill()
	p.w.trace.line("keep-trim panel=%q found=%v", c.panel, got != nil)
}

// running reports whether a search is not over.
func (p *keepTrimPage) running() bool {
	return slices.ContainsFunc(p.cards, func(c *keepTrimCard) bool { return c.job != nil })
}

// current reports whether a comparison is still of the project.
func (p *keepTrimPage) current(c *keepTrimCard) bool {
	now := p.w.ses.Committed()
	return now == p.base || c.laid[now] || now.SameWork(p.base)
}

// use lays the trimmed plan of a card, as one change.
func (p *keepTrimPage) use(c *keepTrimCard) {
	switch {
	case c.got == nil:
	case !p.current(c):
		p.w.say(say.T("The project has changed since. Search again first."))
	case c.laid[p.w.ses.Committed()]:
		p.w.say(say.T("It lies so now."))
	case c.got.Trim.Edit == nil:
		p.w.say(say.T("These boards give nothing of what is wanted."))
	case p.w.commit(c.got.Trim.Edit):
		c.laid[p.w.ses.Committed()] = true
		p.fill()
		p.w.say(say.F("The trimmed plan is laid. Esc shows it, %s takes it back.", p.w.acts.byID["undo"].keyNames()))
	}
}

func (p *keepTrimPage) build() {
	w := p.w
	head := wrapped(say.T("Keep or trim"), widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	p.status = wrapped("", widget.MediumImportance)
	p.line = snug(p.status)
	p.stop = p.button(say.T("Stop"), func() { p.halt() })
	p.again = p.button(say.T("Search again"), p.search)
	leave := p.button(say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	p.offer = newKeepTrimFields(p)
	p.buying = newQuantityCard(p.w, p.entry, p.key)
	p.body = container.New(stackLayout{})
	var room *fyne.Container
	room, p.scroll = down(container.NewPadded(p.body), nil)
	top := container.NewPadded(container.NewVBox(container.New(stackLayout{}, snug(head), p.line, flow([]fyne.CanvasObject{p.stop, p.again, leave}), p.offer.box), widget.NewSeparator()))
	p.all = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, room)
}

// button is a button of the page, from which its keys scroll too.
func (p *keepTrimPage) button(text string, do func()) *pageButton {
	b := newPageButton(p.w, text, do)
	b.keys = p.key
	return b
}

// state says how far the searches are.
func (p *keepTrimPage) state() {
	text := ""
	switch {
	case p.running():
		sum := 0.0
		for _, c := range p.cards {
			if c.job == nil {
				sum++
			} else {
				sum += c.done
			}
		}
		text = say.F("Looking for plans: %.0f %%", 100*sum/float64(len(p.cards)))
	case slices.ContainsFunc(p.cards, func(c *keepTrimCard) bool { return c.got != nil && !p.current(c) }):
		text = say.T("⚠ The project has changed since some of this was found. “Search again” begins anew.")
	}
	p.status.SetText(text)
	if was := p.line.Visible(); was != (text != "") {
		p.line.Hidden = was
		p.all.Refresh() // what is under it moves
	}
	if p.running() {
		p.stop.Enable()
	} else {
		p.stop.Disable()
	}
}

// content implements page.
func (p *keepTrimPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *keepTrimPage) home() fyne.Focusable { return p.again }

// key implements page.
func (p *keepTrimPage) key(ev *fyne.KeyEvent) bool { return scrolled(p.scroll, ev.Name) }

// sign implements page.
func (p *keepTrimPage) sign(r rune) bool { return r == '?' && p.w.act("keys") }

// reveal implements page.
func (p *keepTrimPage) reveal(o fyne.CanvasObject) {
	if slices.Contains(inside(p.body), o) {
		into(p.scroll, o)
	}
}

// show implements page.
func (p *keepTrimPage) show() {
	if p.w.page == page(p) && !p.w.ses.Previewing() {
		p.fill()
	}
}

// restyled implements page.
func (p *keepTrimPage) restyled() {
	p.build()
	p.fill()
	p.w.turnTo(p)
}

// back implements page.
func (p *keepTrimPage) back() (page, bool) {
	if p.halt != nil {
		p.halt()
	}
	return p.from, false
}

// row implements page.
func (p *keepTrimPage) row() []string { return nil }

// hint implements page.
func (p *keepTrimPage) hint() string {
	return say.T("Tab: from field to button. ↑, ↓, PgUp and PgDn scroll. Esc goes back.")
}
