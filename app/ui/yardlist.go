package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
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
	w, y := l.p.w, &l.p.st.yard
	held, holds := yardButton{}, false
	for id, b := range l.buttons {
		if w.win.Canvas().Focused() == fyne.Focusable(b) {
			held, holds = id, true
		}
	}
	l.buttons = map[yardButton]*pageButton{}
	l.box.Objects = []fyne.CanvasObject{snug(bold("On offer"))}
	if len(y.Offers) == 0 {
		l.box.Add(line("No board is recorded yet.", widget.LowImportance))
	}
	for i := len(y.Offers) - 1; i >= 0; i-- {
		l.box.Add(l.row(i))
	}
	l.box.Refresh()
	if b := l.buttons[held]; holds && b != nil {
		w.win.Canvas().Focus(b)
	}
}

// row is one board.
func (l *yardList) row(i int) fyne.CanvasObject {
	w, st := l.p.w, l.p.st
	o := &st.yard.Offers[i]
	name := wrapped(o.ID+"   "+w.ses.OfferWords(o)+"   "+w.ses.OfferCost(o), widget.MediumImportance)
	name.TextStyle.Bold = true
	rows := []fyne.CanvasObject{snug(name), line(sentence(w.ses.OfferSap(o))+".", widget.LowImportance)}
	if w.ses.InRack(o) {
		rows = append(rows, line("It is in the rack.", widget.SuccessImportance))
		return container.New(stackLayout{}, rows...)
	}
	if text, strong := l.standing(o); text != "" {
		rows = append(rows, line(text, strong))
	}
	say := func(text string, d session.Decision) fyne.CanvasObject {
		return l.button(o.ID, text, o.Say == d, func() {
			if o := &st.yard.Offers[i]; o.Say == d {
				o.Say = session.YardOpen
			} else {
				o.Say = d
			}
			l.p.look()
		})
	}
	texts := least(34, container.New(stackLayout{}, rows...))
	buttons := container.NewHBox(say("Keep", session.YardKeep), say("Leave", session.YardLeave),
		l.button(o.ID, "Change", false, func() { l.p.entry.change(i) }),
		l.button(o.ID, "Remove…", false, func() { l.remove(i) }))
	return flow([]fyne.CanvasObject{texts, buttons}, texts)
}

// standing says how a board stands to the job.
func (l *yardList) standing(o *session.Offer) (string, widget.Importance) {
	if o.Say == session.YardLeave {
		return "Left: it does not count.", widget.LowImportance
	}
	text, strong := "", widget.MediumImportance
	if r := l.p.run; r != nil && r.choice != nil {
		for _, id := range r.choice.Chosen {
			if id == o.ID {
				text, strong = "To be bought: ", widget.SuccessImportance
			}
		}
		if o.Say == session.YardKeep {
			text = "Kept: "
		}
		if y, ok := r.worths[o.ID]; ok {
			return sentence(text + y.Text + "."), strong
		}
	}
	switch {
	case o.Say == session.YardKeep:
		return "Kept.", strong
	case text != "":
		return "To be bought.", strong
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

// remove takes a board off the list once that is sure.
func (l *yardList) remove(i int) {
	st := l.p.st
	o := st.yard.Offers[i]
	if st.at >= 0 {
		l.p.w.say("A board is being changed: record it first, or give up the change.")
		return
	}
	l.p.w.ask(question{title: "Remove board " + o.ID + " from the list?", yes: "Remove", plain: true,
		body: wrapped("What was measured of it is lost. “Leave” keeps it on the list without counting it.", widget.MediumImportance),
		do: func() error {
			st.yard.Offers = append(append([]session.Offer(nil), st.yard.Offers[:i]...), st.yard.Offers[i+1:]...)
			l.p.entry.freeLetter()
			l.p.look()
			return nil
		}})
}
