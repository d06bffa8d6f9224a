package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// yardList is the list of boards on offer, the newest first.
type yardList struct {
	p       *yardPage
	box     *fyne.Container
	buttons map[yardButton]*pageButton
}

// yardButton names a button of a board.
type yardButton struct{ board, what string }

func newYardList(p *yardPage) *yardList {
	l := &yardList{p: p, box: container.New(stackLayout{})}
	l.fill()
	return l
}

// fill writes the list anew; the button that had the keys has them again.
func (l *yardList) fill() {
	w, y := l.p.w, l.p.yard()
	held, holds := yardButton{}, false
	for id, b := range l.buttons {
		if w.win.Canvas().Focused() == fyne.Focusable(b) {
			held, holds = id, true
		}
	}
	l.buttons = map[yardButton]*pageButton{}
	l.box.Objects = []fyne.CanvasObject{snug(bold(say.T("On offer")))}
	if len(y.Offers) == 0 {
		l.box.Add(line(say.T("No board is recorded yet."), widget.LowImportance))
	}
	for i := len(y.Offers) - 1; i >= 0; i-- {
		l.box.Add(l.row(&y.Offers[i]))
	}
	l.box.Refresh()
	if b := l.buttons[held]; holds && b != nil {
		w.win.Canvas().Focus(b)
	}
}

// row is one board.
func (l *yardList) row(o *session.Offer) fyne.CanvasObject {
	w := l.p.w
	name := wrapped(o.ID+"   "+w.ses.OfferWords(o)+"   "+w.ses.OfferCost(o), widget.MediumImportance)
	name.TextStyle.Bold = true
	rows := []fyne.CanvasObject{snug(name), line(sentence(w.ses.OfferSap(o))+".", widget.LowImportance)}
	if text, strong := l.standing(o); text != "" {
		rows = append(rows, line(text, strong))
	}
	tell := func(text string, d model.Decision) fyne.CanvasObject {
		return l.button(o.ID, text, o.Say == d, func() {
			now := d
			if o.Say == d { // pressed again
				now = model.OfferOpen
			}
			w.commit(model.SayOffers{IDs: []string{o.ID}, Say: now})
		})
	}
	texts := least(34, container.New(stackLayout{}, rows...))
	buttons := container.NewHBox(tell(say.T("Keep"), model.OfferKeep), tell(say.T("Leave"), model.OfferLeave),
		l.button(o.ID, say.T("Change"), false, func() { l.p.entry.change(*o) }),
		l.button(o.ID, say.T("Remove"), false, func() { l.remove(o.ID) }))
	return flow([]fyne.CanvasObject{texts, buttons}, texts)
}

// standing says how a board stands to the job.
func (l *yardList) standing(o *session.Offer) (string, widget.Importance) {
	if o.Say == model.OfferLeave {
		return say.T("Left: it does not count."), widget.LowImportance
	}
	text, strong := "", widget.MediumImportance
	if r := l.p.run; r != nil && r.choice != nil {
		for _, id := range r.choice.Chosen {
			if id == o.ID {
				text, strong = say.T("To be bought: "), widget.SuccessImportance
			}
		}
		if o.Say == model.OfferKeep {
			text = say.T("Kept: ")
		}
		if y, ok := r.worths[o.ID]; ok {
			return sentence(text + y.Text + "."), strong
		}
	}
	switch {
	case o.Say == model.OfferKeep:
		return say.T("Kept."), strong
	case text != "":
		return say.T("To be bought."), strong
	}
	return "", strong
}

func (l *yardList) button(board, text string, on bool, do func()) fyne.CanvasObject {
	b := newPageButton(l.p.w, text, do)
	if b.Importance = widget.LowImportance; on {
		b.Importance = widget.HighImportance
	}
	l.buttons[yardButton{board, text}] = b
	return b
}

// remove takes a board off the list.
func (l *yardList) remove(id string) {
	if l.p.st.was == id {
		l.p.w.say(say.T("The board is being changed: record it first, or give up the change."))
		return
	}
	if l.p.w.commit(model.DropOffer{ID: id}) {
		l.p.entry.freeLetter()
		l.p.w.say(say.F("Board %s is off the list. %s brings it back.", id, l.p.w.acts.byID["undo"].keyNames()))
	}
}
