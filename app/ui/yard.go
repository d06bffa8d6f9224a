package ui

import (
	"context"
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// yardKeys lists the keys of the page.
const yardKeys = "Enter: the next field, at the last one record the board and begin the next. Tab: on to the answers and the list. Space or Enter on a button does it. Esc: back; what was typed stays."

// yardState is what is half typed at the yard. It stays while the window is open,
// whatever page is up; boards that are recorded are the project's.
type yardState struct {
	draft   [yardFields]string // of the fields
	faces   [2]model.Face      // measured in photographs for the board being typed
	taped   [2][2]string       // the widths that these gave, as they were written
	sized   [2]string          // the length and width that gave them their scale
	reading int                // which reading of photographs counts
	per     string             // what a price is for
	was     string             // the board on the list that is being changed, "" none
	begun   bool
	terms   termsEntry
}

// yardPage records the boards on offer at a yard, and says beside them which to
// buy.
type yardPage struct {
	w      *Window
	from   page
	st     *yardState
	entry  *yardEntry
	list   *yardList
	side   *yardSide
	of     *model.Project // what was looked through last
	run    *yardRun
	all    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
}

// yardRun is one look through the boards, under way or over.
type yardRun struct {
	job     *session.YardJob
	halt    context.CancelFunc
	busy    bool
	choice  *session.YardChoice
	worths  map[string]session.YardWorth
	trouble string
}

// addYardActions lists the page and the terms of an order.
func (w *Window) addYardActions() {
	st := &yardState{}
	w.acts.add(
		&Action{ID: "yard", Label: say.T("At the yard"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyY)}, Hint: say.T("Boards on offer: measure them, see which to buy at least cost and what is missing."),
			Do: func() { w.yardShow(st) }},
		&Action{ID: "terms", Label: say.T("Order terms…"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyO)}, Hint: say.T("Which boards keep terms such as 90/70, before or after ripping."),
			Do: func() { w.termsAsk(st) }},
	)
}

// yardShow turns to the page.
func (w *Window) yardShow(st *yardState) {
	if _, up := w.page.(*yardPage); up {
		return
	}
	if !st.begun {
		st.begun = true
		st.per = string(session.PerOf(w.ses.Units()))
	}
	p := &yardPage{w: w, from: w.page, st: st}
	p.build()
	w.turnTo(p)
	p.look()
}

func (p *yardPage) build() {
	head := wrapped(say.T("At the yard"), widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	p.entry = newYardEntry(p)
	p.list = newYardList(p)
	p.side = newYardSide(p)
	p.body = container.New(&foldLayout{side: p.sideWidth, least: p.leastWidth}, container.New(stackLayout{}, snug(head), p.entry.box), p.side.box, p.list.box, p.side.needs)
	p.all, p.scroll = down(container.NewPadded(p.body), nil)
}

// scale is how much more room larger text gets, as the readings do.
func (p *yardPage) scale() float32 { return p.w.columnWidth() / 330 }

// sideWidth is what the answers want beside the boards.
func (p *yardPage) sideWidth() float32 { return 400 * p.scale() }

// leastWidth is what the boards want beside the answers; else they come one under
// the other.
func (p *yardPage) leastWidth() float32 { return 460 * p.scale() }

// relaid lays the page out again after texts changed.
func (p *yardPage) relaid() {
	p.body.Refresh()
	settled(p.scroll)
}

// look finds anew which boards to buy.
func (p *yardPage) look() {
	p.stopLooking()
	p.of = p.w.ses.Committed()
	ctx, halt := context.WithCancel(p.w.work)
	yard := p.yard()
	r := &yardRun{job: p.w.ses.AtYard(&yard), halt: halt, busy: true}
	p.run = r
	p.shown()
	go func() {
		defer halt()
		c, err := yardTried(func() (session.YardChoice, error) { return r.job.Choose(ctx) })
		last := err != nil || !c.Made
		p.w.post(func() { p.told(r, last, err, func() { r.choice = &c }) })
		if last {
			return
		}
		worths, err := yardTried(func() (map[string]session.YardWorth, error) { return r.job.Worths(ctx) })
		p.w.post(func() { p.told(r, true, err, func() { r.worths = worths }) })
	}()
}

// yardTried does a part of the search; what goes wrong in it is told and does not
// end the window.
func yardTried[T any](do func() (T, error)) (got T, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("these boards could not be looked through (%v)", r)
		}
	}()
	return do()
}

// told takes what a look through the boards found.
func (p *yardPage) told(r *yardRun, over bool, err error, put func()) {
	switch {
	case p.w.work.Err() != nil || p.run != r:
		return
	case p.w.page != page(p): // left for another page
		r.halt()
		return
	}
	r.busy = !over
	switch {
	case errors.Is(err, context.Canceled):
		r.trouble = say.T("Stopped. “Look again” begins anew.")
	case err != nil:
		r.trouble = ended(sentence(say.Err(err)))
	default:
		put()
	}
	p.shown()
	p.w.trace.line("yard over=%v found=%v", over, r.choice != nil)
}

func (p *yardPage) stopLooking() {
	if p.run != nil {
		p.run.halt()
	}
}

// shown brings list and answers up to date.
func (p *yardPage) shown() {
	p.entry.follow()
	p.list.fill()
	p.side.fill()
	p.relaid()
}

// yard is what the project holds of the yard. Where nothing was recorded yet the
// wood is that of the next board.
func (p *yardPage) yard() session.Yard {
	y := p.w.ses.Yard()
	if y.Species == "" {
		b := p.w.nextBoard()
		y.Species, y.Wanted = b.Species, b.Wanted
	}
	return y
}

// set says what holds of all boards at the yard.
func (p *yardPage) set(y session.Yard) {
	p.w.commit(model.SetYard{Species: y.Species, Wanted: y.Wanted, NoRack: y.NoRack})
}

// take takes the kept boards into the rack, as one change.
func (p *yardPage) take() {
	edit, err := p.w.ses.TakeKept()
	if err != nil {
		p.w.say(ended(sentence(say.Err(err))))
		return
	}
	if !p.w.commit(edit) {
		return
	}
	p.entry.freeLetter()
	p.w.say(say.F("%s in the rack. %s takes it back; they are on offer again then.", say.Count(len(edit.IDs), say.T("board is"), say.T("boards are")), p.w.acts.byID["undo"].keyNames()))
}

// keepChosen says keep at all boards that are to be bought.
func (p *yardPage) keepChosen() {
	if p.run == nil || p.run.choice == nil || len(p.run.choice.Chosen) == 0 {
		p.w.say(say.T("Nothing is to be bought."))
		return
	}
	p.w.commit(model.SayOffers{IDs: p.run.choice.Chosen, Say: model.OfferKeep})
}

// content implements page.
func (p *yardPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *yardPage) home() fyne.Focusable { return p.entry.first() }

// key implements page.
func (p *yardPage) key(ev *fyne.KeyEvent) bool {
	y, high := p.scroll.Offset.Y, p.scroll.Size().Height
	switch ev.Name {
	case fyne.KeyPageDown:
		y += 0.85 * high
	case fyne.KeyPageUp:
		y -= 0.85 * high
	case fyne.KeyDown:
		y += 60
	case fyne.KeyUp:
		y -= 60
	default:
		return false
	}
	p.scroll.ScrollToOffset(fyne.NewPos(0, fyne.Max(0, fyne.Min(y, p.scroll.Content.Size().Height-high))))
	return true
}

// sign implements page.
func (p *yardPage) sign(r rune) bool { return r == '?' && p.w.act("keys") }

// reveal implements page.
func (p *yardPage) reveal(o fyne.CanvasObject) {
	if slices.Contains(inside(p.body), o) {
		into(p.scroll, o)
	}
}

// show implements page: another project asks for another choice.
func (p *yardPage) show() {
	if p.w.page == page(p) && !p.w.ses.Previewing() && p.run != nil && p.of != p.w.ses.Committed() {
		p.look()
	}
}

// restyled implements page.
func (p *yardPage) restyled() {
	p.build()
	p.w.turnTo(p)
	p.shown()
}

// back implements page.
func (p *yardPage) back() (page, bool) {
	p.stopLooking()
	return p.from, false
}

// row implements page.
func (p *yardPage) row() []string { return nil }

// hint implements page.
func (p *yardPage) hint() string {
	return say.T("Enter: the next field; at the last one the board is recorded. Tab: on to the answers and the list. Esc goes back, what was typed stays.")
}
