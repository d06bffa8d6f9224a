package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// planPage shows plans of where strips and parts come from, each as pictures of
// the boards with the cuts. They come in while the search runs.
type planPage struct {
	w       *Window
	from    page
	wish    session.PlanWish
	base    *model.Project            // what was planned for
	laid    map[*model.Project]string // what using a plan made of it, and the id of the plan
	ctx     context.Context           // of the pictures
	stop    context.CancelFunc
	halt    context.CancelFunc // ends the search
	running bool
	halted  bool // by the maker
	done    float64
	trouble string
	plans   []session.Planned
	only    []string
	panels  bool // the panels are shown in the place of the boards
	pics    *woodPics
	gallery *planGallery
	side    *planSide
	head    *planHead
	all     fyne.CanvasObject
}

// showPlans shows the page and begins to search.
func (w *Window) showPlans(q *session.Planning, wish session.PlanWish) *planPage {
	p := &planPage{w: w, from: w.page, wish: wish, base: w.ses.Committed(), laid: map[*model.Project]string{}}
	w.plans = p
	p.open()
	p.search(q)
	return p
}

// open makes what is shown and turns to it.
func (p *planPage) open() {
	p.ctx, p.stop = context.WithCancel(p.w.work)
	p.pics = newWoodPics(p.w, p.ctx, p.gone, func() { p.gallery.drawn() })
	p.gallery = newPlanGallery(p)
	p.build()
	p.w.turnTo(p)
	p.shown()
}

// again shows the plans that were found before.
func (p *planPage) again() {
	p.from = p.w.page
	p.open()
}

func (p *planPage) build() {
	p.head = newPlanHead(p)
	p.side = newPlanSide(p)
	lay := layout.NewBorderLayout(p.head.box, nil, nil, nil)
	work := container.New(lay, p.head.box, p.gallery.all) // in the order of the Tab key
	p.all = container.New(sideLayout{column: p.w.columnWidth}, container.NewPadded(work), p.side.box)
}

// search looks for plans beside the window. It ends when the page is left; what
// was found is kept.
func (p *planPage) search(q *session.Planning) {
	ctx, halt := context.WithCancel(p.w.work)
	p.halt, p.running, p.halted, p.done = halt, true, false, 0
	p.shown()
	go func() {
		defer halt()
		last := -1.0
		got, err := planned(ctx, q, func(now session.Plans) {
			if now.List == nil && now.Done < last+0.01 {
				return
			}
			last = now.Done
			p.w.post(func() { p.told(now) })
		})
		p.w.post(func() { p.ended(got, err) })
	}()
}

// planned runs a search; what goes wrong in it is told and does not end the
// window.
func planned(ctx context.Context, q *session.Planning, told func(session.Plans)) (got session.Plans, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("these boards could not be planned (%v)", r)
		}
	}()
	return q.Run(ctx, told)
}

// told takes what there is so far.
func (p *planPage) told(now session.Plans) {
	if p.w.work.Err() != nil || !p.running {
		return
	}
	if p.gone() { // left for another page
		p.halt()
		return
	}
	p.done = now.Done
	if now.List == nil {
		p.head.show()
		return
	}
	p.plans, p.only = now.List, now.Only
	p.shown()
	p.w.trace.line("plans found=%d", len(p.plans))
}

func (p *planPage) ended(got session.Plans, err error) {
	p.running, p.done = false, 1
	if p.w.work.Err() != nil {
		return
	}
	switch {
	case err != nil:
		p.trouble = ended(sentence(say.Err(err)))
	default:
		p.plans, p.only = got.List, got.Only
	}
	if p.gone() {
		return
	}
	p.shown()
	missing := 0
	if len(p.plans) > 0 {
		missing = p.plans[0].Missing
	}
	p.w.trace.line("planned plans=%d missing=%d", len(p.plans), missing)
}

// current reports whether the plans are still of the project: what they rest on
// is as it was, but for using one of them.
func (p *planPage) current() bool {
	now := p.w.ses.Committed()
	_, own := p.laid[now]
	return own || now == p.base
}

// use lays everything as the plan in hand does, as one change.
func (p *planPage) use() {
	e := p.gallery.hand()
	switch {
	case e == nil:
		return
	case e.Edit == nil:
		p.w.say(say.T("These boards give nothing of what is wanted."))
		return
	case !p.current():
		p.w.say(say.T("The project has changed since. A asks anew."))
		return
	case e.ID == p.nowUsed():
		p.w.say(say.T("It lies so now."))
		return
	}
	if !p.w.commit(e.Edit) {
		return
	}
	p.laid[p.w.ses.Committed()] = e.ID
	p.shown()
	p.w.trace.line("plan used")
	p.w.say(say.F("Laid so. Esc shows it, another plan can take its place, and %s takes it back.", p.w.acts.byID["undo"].keyNames()))
}

// nowUsed is the plan that lies so now, "" none.
func (p *planPage) nowUsed() string { return p.laid[p.w.ses.Committed()] }

// halting ends the search and keeps what was found.
func (p *planPage) halting() {
	if p.running {
		p.halted = true
		p.halt()
	}
}

// status says what was found, in plain words.
func (p *planPage) status() string {
	n := len(p.plans)
	switch {
	case p.trouble != "":
		return "⚠ " + p.trouble
	case !p.current():
		return say.T("⚠ The project has changed since these were found. A asks anew.")
	case p.running && n == 0:
		return say.T("Looking for plans…")
	case p.running:
		return say.F("%s so far; still looking for better and other ones.", say.Count(n, say.T("plan"), say.T("plans")))
	case n == 0:
		return say.T("No plan.")
	case n == 1:
		return say.T("One plan: no other is clearly different from it and as complete.")
	}
	text := say.F("%s plans that are clearly different.", itoa(n))
	if p.halted {
		text += say.T(" Stopped before the end: there may be better ones.")
	}
	return text
}

// content implements page.
func (p *planPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *planPage) home() fyne.Focusable { return p.gallery }

// row implements page.
func (p *planPage) row() []string { return nil }

// hint implements page.
func (p *planPage) hint() string {
	return say.T("Arrows: a plan. Enter lays everything so. P: panels or boards. S: stop looking. A: ask anew. Esc goes back.")
}

// show implements page.
func (p *planPage) show() {
	if p.w.page == page(p) && !p.w.ses.Previewing() {
		p.shown()
	}
}

// shown brings all parts up to date.
func (p *planPage) shown() {
	if p.w.page != page(p) {
		return
	}
	p.head.show()
	p.gallery.show()
	p.side.show()
}

// restyled implements page.
func (p *planPage) restyled() {
	p.gallery.forget()
	p.build()
	p.w.turnTo(p)
	p.shown()
}

// reveal implements page.
func (p *planPage) reveal(o fyne.CanvasObject) {
	for _, in := range inside(p.side.body) {
		if in == o {
			into(p.side.scroll, o)
			return
		}
	}
}

// back implements page.
func (p *planPage) back() (page, bool) {
	p.stop()
	p.halt()
	return p.from, false
}

// gone reports whether the page was left.
func (p *planPage) gone() bool { return p.ctx.Err() != nil || p.w.page != page(p) }

// button is a button of the page; the keys go back to the plans after it.
func (p *planPage) button(text string, do func()) *pageButton {
	return newPageButton(p.w, p.short(text), func() {
		do()
		if p.w.page == page(p) && p.w.asks == nil {
			p.w.takeKeys()
		}
	})
}

// short is a name without its key where text is large.
func (p *planPage) short(text string) string {
	if p.w.large() {
		text, _, _ = strings.Cut(text, " (")
	}
	return text
}
