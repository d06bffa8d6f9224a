package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/offcut"
	"heartside/model"
	"heartside/model/say"
)

// leftState is what is asked of the page of what is left. It stays while the
// window is open.
type leftState struct {
	uncut               bool
	length, width, also string
	ticked              map[string]bool // pieces for the next project, by name
}

// leftPage shows what is left of the boards once all is cut, reserves test pieces
// on it, and begins the next project with it.
type leftPage struct {
	w             *Window
	from          page
	st            *leftState
	of            *model.Project
	read          session.LeftRead
	length, width *field
	also          *field
	uncut         *tick
	lead, trouble *widget.Label
	test, next    *pageButton
	all           fyne.CanvasObject
	body          *fyne.Container
	scroll        *container.Scroll
}

// addLeftActions lists the page.
func (w *Window) addLeftActions() {
	st := &leftState{ticked: map[string]bool{}}
	w.acts.add(&Action{ID: "left", Label: say.T("What is left"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyW)},
		Hint: say.T("Offcuts by size with what they would give; test pieces for the finish; the next project from them."), Do: func() { w.leftShow(st) }})
}

// leftShow turns to the page.
func (w *Window) leftShow(st *leftState) {
	if _, up := w.page.(*leftPage); up {
		return
	}
	if st.length == "" {
		st.length, st.width = w.ses.Len(offcut.Usual.Length), w.ses.Len(offcut.Usual.Width)
	}
	p := &leftPage{w: w, from: w.page, st: st}
	p.build()
	w.turnTo(p)
	p.look()
}

func (p *leftPage) build() {
	w, st := p.w, p.st
	head := wrapped(say.T("What is left"), widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	p.length, p.width, p.also = w.newField(st.length, ""), w.newField(st.width, ""), w.newField(st.also, p.example())
	typed := func() {
		st.length, st.width, st.also = p.length.Text, p.width.Text, p.also.Text
		p.look()
	}
	for _, f := range []*field{p.length, p.width, p.also} {
		f.follow(typed)
	}
	p.uncut = newTick(w, say.T("Boards that nothing is cut from, too"), st.uncut, func() { st.uncut = p.uncut.Checked; p.look() })
	p.lead, p.trouble = wrapped("", widget.MediumImportance), wrapped("", widget.WarningImportance)
	p.lead.TextStyle.Bold = true
	p.test = p.button(say.T("Reserve test pieces…"), p.testAsk)
	p.next = p.button(say.T("New project from the ticked pieces"), p.begin)
	leave := p.button(say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	p.body = container.New(stackLayout{})
	var room *fyne.Container
	room, p.scroll = down(container.NewPadded(p.body), nil)
	ask := flow([]fyne.CanvasObject{named(say.T("Of use from")), p.length, named(say.T("by")), p.width, named(say.T("What would they give of")), least(22, p.also)})
	top := container.NewPadded(container.NewVBox(container.New(stackLayout{}, snug(head), ask, p.uncut, flow([]fyne.CanvasObject{p.test, p.next, leave}), snug(p.trouble), snug(p.lead)), widget.NewSeparator()))
	p.all = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, room)
}

func (p *leftPage) button(text string, do func()) *pageButton {
	b := newPageButton(p.w, text, do)
	b.keys = p.key
	return b
}

// example is a small part in the project's units.
func (p *leftPage) example() string {
	if p.w.ses.Units() == "inch" {
		return "12 x 1 1/4 x 5/8"
	}
	return "300 x 30 x 15"
}

// wish reads what is asked.
func (p *leftPage) wish() (w session.LeftWish, err error) {
	w.Uncut, w.Least = p.st.uncut, offcut.Usual
	l, err := p.length.size(say.T("of use from"))
	if err != nil {
		return w, err
	}
	b, err := p.width.size(say.T("of use by"))
	if err != nil {
		return w, err
	}
	w.Least = offcut.Least{Length: l, Width: b}
	w.Also, err = session.SmallPart(p.also.Text, p.w.ses.Units())
	return w, err
}

// look finds anew what is left.
func (p *leftPage) look() {
	p.of = p.w.ses.Committed()
	wish, err := p.wish()
	if err == nil {
		p.read, err = p.w.ses.Left(wish)
	}
	p.trouble.Hidden = err == nil
	if err != nil {
		p.trouble.SetText("⚠ " + ended(sentence(say.Err(err))))
	} else {
		p.lead.SetText(p.read.Lead)
	}
	p.fill()
}

// fill shows the boards.
func (p *leftPage) fill() {
	p.body.Objects = nil
	for i := range p.read.Boards {
		b := &p.read.Boards[i]
		p.body.Add(snug(bold(say.F("Board %s", b.Board))))
		p.body.Add(newLeftDrawing(p.w, b))
		for k := range b.Pieces {
			p.body.Add(p.piece(&b.Pieces[k]))
		}
		if len(b.Pieces) == 0 {
			p.body.Add(line(say.T("Nothing of that size is left."), widget.LowImportance))
		}
	}
	if len(p.read.Pieces()) == 0 {
		steps := newNextSteps(p.w)
		steps.show(p.w.missing())
		p.body.Add(steps.box)
	}
	if len(p.w.ses.Project().Boards) > 0 {
		p.body.Add(line(say.T("Rectangles square to the board, the largest first, with the saw cut between them and round what is cut. What is smaller is waste. Costs are shares by area."), widget.LowImportance))
	}
	p.next.greyed(len(p.chosen()) == 0)
	p.body.Refresh()
	p.all.Refresh()
	settled(p.scroll)
}

// piece is a row: a tick, size, place, wood and uses.
func (p *leftPage) piece(x *session.Leftover) fyne.CanvasObject {
	var t *tick
	t = newTick(p.w, x.Name+"   "+x.Size, p.st.ticked[x.Name], func() {
		p.st.ticked[x.Name] = t.Checked
		p.next.greyed(len(p.chosen()) == 0)
	})
	text := x.At + "; " + x.Wood
	if x.Cost != "" {
		text += "; " + x.Cost
	}
	rows := []fyne.CanvasObject{t, line(sentence(text)+".", widget.MediumImportance)}
	for _, u := range x.Uses {
		rows = append(rows, line(say.F("Would give %s.", u), widget.LowImportance))
	}
	return container.New(stackLayout{}, rows...)
}

// chosen are the pieces that are ticked.
func (p *leftPage) chosen() []session.Leftover {
	return slices.DeleteFunc(p.read.Pieces(), func(x session.Leftover) bool { return !p.st.ticked[x.Name] })
}

// begin begins the next project.
func (p *leftPage) begin() {
	w := p.w
	next, notes, err := w.ses.NextProject(p.chosen())
	if err != nil {
		w.say(ended(sentence(say.Err(err))))
		return
	}
	w.guard(say.T("begin the next project"), func() {
		clear(p.st.ticked)
		w.turnTo(nil)
		w.surf.forget()
		w.ses.Begin(next)
		w.opened()
		text := say.F("The next project has %s, each with its letter: chalk it on.", say.Count(len(next.Boards), say.T("board"), say.T("boards")))
		for _, n := range notes {
			text += " " + n
		}
		w.say(text)
	})
}

// content implements page.
func (p *leftPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *leftPage) home() fyne.Focusable { return p.test }

// key implements page.
func (p *leftPage) key(ev *fyne.KeyEvent) bool { return scrolled(p.scroll, ev.Name) }

// sign implements page.
func (p *leftPage) sign(r rune) bool { return r == '?' && p.w.act("keys") }

// reveal implements page.
func (p *leftPage) reveal(o fyne.CanvasObject) {
	if slices.Contains(inside(p.body), o) {
		into(p.scroll, o)
	}
}

// show implements page.
func (p *leftPage) show() {
	if p.w.page == page(p) && !p.w.ses.Previewing() && p.of != p.w.ses.Committed() {
		p.look()
	}
}

// restyled implements page.
func (p *leftPage) restyled() {
	p.build()
	p.w.turnTo(p)
	p.look()
}

// back implements page.
func (p *leftPage) back() (page, bool) { return p.from, false }

// row implements page.
func (p *leftPage) row() []string { return nil }

// hint implements page.
func (p *leftPage) hint() string {
	return say.T("Tab: from field to piece. Space ticks a piece for the next project. ↑, ↓, PgUp and PgDn scroll. Esc goes back.")
}
