package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// recordPage shows what was made of which board, and holds the steps of colour and
// finish.
type recordPage struct {
	w      *Window
	from   page
	of     *model.Project
	add    *pageButton
	all    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
	steps  map[stepButton]*pageButton
}

// stepButton names a button of a step.
type stepButton struct {
	step int
	what string
}

// addRecordActions lists the page.
func (w *Window) addRecordActions() {
	w.acts.add(&Action{ID: "record", Label: say.T("Record"), Group: groupPanel, Keys: []Chord{ctrlShift(fyne.KeyG)},
		Hint: say.T("Which board and face went where, and the steps of colour and finish: for a matching piece or a repair."), Do: w.recordShow})
}

// recordShow turns to the page.
func (w *Window) recordShow() {
	if _, up := w.page.(*recordPage); up {
		return
	}
	p := &recordPage{w: w, from: w.page}
	p.build()
	w.turnTo(p)
	p.fill()
}

func (p *recordPage) build() {
	w := p.w
	head := wrapped(say.T("Record"), widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	p.add = p.button(say.T("Add a step…"), func() { p.ask(-1) })
	p.add.Importance = widget.HighImportance
	sheet := p.button(say.T("Print it (layout sheet)"), func() { w.act("sheet") })
	leave := p.button(say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	p.body = container.New(stackLayout{})
	var room *fyne.Container
	room, p.scroll = down(container.NewPadded(p.body), nil)
	top := container.NewPadded(container.NewVBox(container.New(stackLayout{}, snug(head), flow([]fyne.CanvasObject{p.add, sheet, leave})), widget.NewSeparator()))
	p.all = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, room)
}

func (p *recordPage) button(text string, do func()) *pageButton {
	b := newPageButton(p.w, text, do)
	b.keys = p.key
	return b
}

// fill writes the page anew; the button that had the keys has them again.
func (p *recordPage) fill() {
	w := p.w
	p.of = w.ses.Committed()
	held, holds := stepButton{}, false
	for id, b := range p.steps {
		if w.win.Canvas().Focused() == fyne.Focusable(b) {
			held, holds = id, true
		}
	}
	p.steps = map[stepButton]*pageButton{}
	p.body.Objects = []fyne.CanvasObject{snug(bold(say.T("Colour and finish")))}
	list := w.ses.Project().Record
	for i := range list {
		p.body.Add(p.step(i, &list[i]))
	}
	if len(list) == 0 {
		p.body.Add(line(say.T("No step is recorded yet. Write down what you put on, with its thinning, when you do it: years later nobody knows it otherwise."), widget.LowImportance))
	}
	p.body.Add(line(say.T("Try every step on a test piece of the same board first, heartwood and sapwood, the full sequence. Follow the label; oily rags spread flat to dry."), widget.LowImportance))
	for _, n := range w.ses.Project().Panels {
		p.panel(n.ID)
	}
	if len(w.ses.Project().Panels) == 0 {
		p.body.Add(line(say.T("There is no panel yet."), widget.MediumImportance))
		steps := newNextSteps(w)
		steps.show(w.missing())
		p.body.Add(steps.box)
	} else {
		p.body.Add(line(session.PlaceNote(), widget.LowImportance))
	}
	p.body.Refresh()
	settled(p.scroll)
	if holds {
		if b := p.steps[held]; b != nil && !b.Disabled() {
			w.win.Canvas().Focus(b)
		} else {
			w.win.Canvas().Focus(p.add)
		}
	}
}

// panel adds a panel: what shows of sapwood, and its strips.
func (p *recordPage) panel(id string) {
	name := wrapped(say.F("Panel %s", title(id)), widget.MediumImportance)
	name.SizeName, name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	p.body.Add(snug(name))
	if r := p.w.ses.Reading(id); r != nil {
		p.body.Add(line(session.SapToColour(r, p.w.ses.Units())+".", widget.MediumImportance))
	}
	panel := p.w.ses.Panel(id)
	if panel == nil || len(panel.Strips) == 0 {
		p.body.Add(line(say.T("It has no strips yet."), widget.LowImportance))
		return
	}
	for _, r := range session.RecordOf(p.w.ses.Project(), panel) {
		parts := slices.DeleteFunc([]string{r.Number, say.F("board %s", r.Board), r.Side, r.End, r.Place, r.Wood}, func(s string) bool { return s == "" })
		if r.Side == "" {
			parts = []string{r.Number, r.Board}
		}
		p.body.Add(line(strings.Join(parts, " · "), widget.MediumImportance))
	}
}

// step is a row of the record.
func (p *recordPage) step(i int, s *model.FinishStep) fyne.CanvasObject {
	text := itoa(i+1) + "   " + session.StepWords(s)
	if s.Date != "" {
		text += ", " + s.Date
	}
	head := wrapped(text, widget.MediumImportance)
	head.TextStyle.Bold = true
	rows := []fyne.CanvasObject{snug(head)}
	if s.Note != "" {
		rows = append(rows, line(s.Note, widget.MediumImportance))
	}
	texts := least(34, container.New(stackLayout{}, rows...))
	list := p.w.ses.Project().Record
	b := func(what string, do func()) *pageButton {
		x := p.button(what, do)
		x.Importance = widget.LowImportance
		p.steps[stepButton{i, what}] = x
		return x
	}
	up, down := b(say.T("Earlier"), func() { p.move(i, -1) }), b(say.T("Later"), func() { p.move(i, 1) })
	up.greyed(i == 0)
	down.greyed(i == len(list)-1)
	buttons := container.NewHBox(b(say.T("Change…"), func() { p.ask(i) }), up, down, b(say.T("Remove"), func() { p.remove(i) }))
	return flow([]fyne.CanvasObject{texts, buttons}, texts)
}

// set makes a changed record the project's.
func (p *recordPage) set(list []model.FinishStep, verb string) bool {
	return p.w.commit(model.SetRecord{Steps: list, Verb: verb})
}

func (p *recordPage) move(i, by int) {
	if list := session.MovedStep(p.w.ses.Project().Record, i, by); list != nil {
		p.set(list, say.T("Move a step of the record"))
	}
}

func (p *recordPage) remove(i int) {
	list := slices.Delete(slices.Clone(p.w.ses.Project().Record), i, i+1)
	if p.set(list, say.T("Remove a step of the record")) {
		p.w.say(say.F("The step is off the record. %s brings it back.", p.w.acts.byID["undo"].keyNames()))
	}
}

// content implements page.
func (p *recordPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *recordPage) home() fyne.Focusable { return p.add }

// key implements page.
func (p *recordPage) key(ev *fyne.KeyEvent) bool { return scrolled(p.scroll, ev.Name) }

// sign implements page.
func (p *recordPage) sign(r rune) bool { return r == '?' && p.w.act("keys") }

// reveal implements page.
func (p *recordPage) reveal(o fyne.CanvasObject) {
	if slices.Contains(inside(p.body), o) {
		into(p.scroll, o)
	}
}

// show implements page.
func (p *recordPage) show() {
	if p.w.page == page(p) && !p.w.ses.Previewing() && p.of != p.w.ses.Committed() {
		p.fill()
	}
}

// restyled implements page.
func (p *recordPage) restyled() {
	p.build()
	p.w.turnTo(p)
	p.fill()
}

// back implements page.
func (p *recordPage) back() (page, bool) { return p.from, false }

// row implements page.
func (p *recordPage) row() []string { return nil }

// hint implements page.
func (p *recordPage) hint() string {
	return say.T("Tab: from button to button. ↑, ↓, PgUp and PgDn scroll. Esc goes back.")
}
