package ui

import (
	"fmt"
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

// benchKeys lists the keys of the page.
const benchKeys = "↑ and ↓: from strip to strip. → or +: its stage one on, ← or −: one back. Space: tick, so that several go together, A: tick all or none. Enter: the first width to type; Enter goes on, an empty field takes the width expected. F: forget what was measured. P: all panels, or the one on screen. Esc: back."

// benchPage is for the work at the bench: how far each strip is, what was
// measured after planing against what was expected, and which papers are out of
// date.
type benchPage struct {
	w      *Window
	from   page
	every  bool // all panels, not the one on screen alone
	all    fyne.CanvasObject
	scroll *container.Scroll
	list   *fyne.Container
	head   *widget.Label
	room   *fyne.Container
	panels *pageButton
	leave  *pageButton
	papers *benchPapers
	rows   []*benchRow
	at     int
	ticked map[benchID]bool
	of     string // what the rows were made for
}

// benchID names a strip of a panel.
type benchID struct{ panel, strip string }

// addBenchActions lists what the bench offers.
func (w *Window) addBenchActions() {
	w.acts.add(&Action{ID: "bench", Label: say.T("At the bench"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyD)},
		Hint: say.T("How far each strip is, what was measured after planing, and which pages to print again."), Do: func() { w.benchShow() }})
}

func (w *Window) benchShow() *benchPage {
	p := &benchPage{w: w, from: w.page, ticked: map[benchID]bool{}}
	p.papers = newBenchPapers(p)
	p.build()
	w.turnTo(p)
	settled(p.scroll)
	return p
}

func (p *benchPage) build() {
	w := p.w
	p.head = wrapped("", widget.MediumImportance)
	p.head.SizeName, p.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	p.panels = newPageButton(w, "", p.turnPanels)
	p.leave = newPageButton(w, say.T("Back (Esc)"), w.leavePage)
	p.leave.Importance = widget.LowImportance
	p.list = container.New(stackLayout{})
	p.room, p.scroll = down(container.NewPadded(container.New(stackLayout{}, p.papers.build(), p.list, snug(bold(say.T("Keys"))), snug(wrapped(say.T(benchKeys), widget.LowImportance)))), nil)
	top := container.NewPadded(container.NewVBox(container.New(stackLayout{}, snug(p.head), flow([]fyne.CanvasObject{p.panels, p.leave})), widget.NewSeparator()))
	p.all = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, p.room)
	p.of = ""
	p.fill()
}

// strips are those the page shows.
func (p *benchPage) strips() []session.BenchStrip {
	var out []session.BenchStrip
	for _, n := range p.w.ses.Project().Panels {
		if p.every || n.ID == p.w.ses.Selected().Panel {
			out = append(out, p.w.ses.Bench(n.ID)...)
		}
	}
	return out
}

// fill brings the rows up to date; they are made anew only where others are
// shown, so that what is being typed stays.
func (p *benchPage) fill() {
	list := p.strips()
	key := fmt.Sprint(p.every, p.w.look.TextPercent(), p.w.ses.Units())
	for _, b := range list {
		key += fmt.Sprint("\x00", b.Panel, "\x01", b.Strip, b.Number, b.Turned, b.Board)
	}
	title, other := say.T("At the bench"), say.T("All panels (P)")
	if p.every {
		title, other = say.T("At the bench: all panels"), say.T("The panel on screen alone (P)")
	} else if n := p.w.panel(); n != nil {
		title = say.F("At the bench: %s", sentence(n.ID))
	}
	p.head.SetText(title)
	p.panels.SetText(other)
	if key != p.of {
		held := p.hasKeys()
		p.of, p.rows, p.list.Objects = key, nil, nil
		for i := range list {
			r := newBenchRow(p, i, list[i])
			p.rows = append(p.rows, r)
			p.list.Add(r.box)
			p.list.Add(widget.NewSeparator())
		}
		if len(list) == 0 {
			p.list.Add(wrapped(p.empty(), widget.MediumImportance))
			next := newNextSteps(p.w)
			next.show(p.w.missing())
			p.list.Add(next.box)
		}
		p.at = max(min(p.at, len(p.rows)-1), 0)
		if held {
			p.w.post(func() {
				if p.w.page == page(p) && p.w.asks == nil {
					p.w.takeKeys()
				}
			})
		}
	}
	for i := range p.rows {
		p.rows[i].tell(list[i])
	}
	p.list.Refresh()
	if p.scroll.Content != nil {
		settled(p.scroll)
	}
}

// empty says why there is no row.
func (p *benchPage) empty() string {
	acts := p.w.acts.byID
	switch n := p.w.panel(); {
	case len(p.w.ses.Project().Panels) == 0:
		return say.F("There is no panel yet: go back with Esc and make one with %s.", acts["new-panel"].keyNames())
	case !p.every && n != nil && len(p.w.ses.Project().Panels) > 1:
		return say.T("No strip of this panel lies on a board yet. P shows all panels; Esc goes back to lay strips on boards.")
	}
	return say.T("No strip lies on a board yet, so there is nothing to saw: go back with Esc and lay some.")
}

func (p *benchPage) turnPanels() {
	p.every = !p.every
	p.at = 0
	p.fill()
	p.w.takeKeys()
}

// hasKeys reports whether a part of the rows has the keys.
func (p *benchPage) hasKeys() bool {
	f, ok := p.w.win.Canvas().Focused().(fyne.CanvasObject)
	if !ok || p.w.page != page(p) || p.w.asks != nil {
		return false
	}
	for _, o := range inside(p.list) {
		if o == f {
			return true
		}
	}
	return false
}

// take takes a row in hand.
func (p *benchPage) take(i int) {
	if len(p.rows) == 0 {
		return
	}
	p.at = max(min(i, len(p.rows)-1), 0)
	p.w.win.Canvas().Focus(p.rows[p.at].grip)
}

// chosen are the strips that are ticked, else the one in hand.
func (p *benchPage) chosen() []session.BenchStrip {
	var out []session.BenchStrip
	for _, r := range p.rows {
		if p.ticked[r.id()] {
			out = append(out, r.b)
		}
	}
	if len(out) == 0 && p.at < len(p.rows) {
		out = append(out, p.rows[p.at].b)
	}
	return out
}

// step moves what is chosen one stage on or back.
func (p *benchPage) step(by int) {
	list := p.chosen()
	if len(list) == 0 {
		return
	}
	e := session.StepEdit(p.w.ses.Committed(), list, by)
	if e == nil {
		p.w.say(map[bool]string{true: say.T("That is the last stage: glued."), false: say.T("That is the first stage: planned.")}[by > 0])
		return
	}
	p.commit(e, stageSaid(list))
}

// stage brings a strip, and the others that are ticked with it, to a stage.
func (p *benchPage) stage(r *benchRow, s model.Stage) {
	p.at = r.at
	list := []session.BenchStrip{r.b}
	if p.ticked[r.id()] {
		list = p.chosen()
	}
	if e := session.StageEdit(p.w.ses.Committed(), list, s); e != nil {
		p.commit(e, stageSaid(list))
	}
}

// stageSaid tells whose stage is set.
func stageSaid(list []session.BenchStrip) string {
	if len(list) == 1 {
		return say.F("The stage of strip %s is set", list[0].Number)
	}
	return say.F("The stage of %s is set", say.Count(len(list), say.T("strip"), say.T("strips")))
}

// commit makes a change, and says what was done.
func (p *benchPage) commit(e model.Edit, done string) {
	if p.w.commit(e) {
		p.w.say(say.F("%s. %s takes it back.", done, p.w.acts.byID["undo"].keyNames()))
	}
}

// tickAll ticks all strips, or none where all are.
func (p *benchPage) tickAll() {
	on := false
	for _, r := range p.rows {
		on = on || !p.ticked[r.id()]
	}
	for _, r := range p.rows {
		p.ticked[r.id()] = on
		r.grip.Refresh()
	}
}

// content implements page.
func (p *benchPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *benchPage) home() fyne.Focusable {
	if p.at < len(p.rows) {
		return p.rows[p.at].grip
	}
	return p.leave
}

// key implements page.
func (p *benchPage) key(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyUp:
		p.take(p.at - 1)
	case fyne.KeyDown:
		p.take(p.at + 1)
	case fyne.KeyHome:
		p.take(0)
	case fyne.KeyEnd:
		p.take(len(p.rows) - 1)
	case fyne.KeyRight:
		p.step(1)
	case fyne.KeyLeft:
		p.step(-1)
	case fyne.KeyReturn, fyne.KeyEnter:
		if p.at < len(p.rows) {
			p.w.win.Canvas().Focus(p.rows[p.at].in[0][0])
		}
	default:
		return false
	}
	return true
}

// sign implements page.
func (p *benchPage) sign(r rune) bool {
	switch strings.ToUpper(string(r)) {
	case "+":
		p.step(1)
	case "-", "−":
		p.step(-1)
	case "A":
		p.tickAll()
	case "P":
		p.turnPanels()
	case "F":
		if p.at < len(p.rows) {
			p.rows[p.at].forget()
		}
	case " ":
		if p.at < len(p.rows) {
			p.rows[p.at].turnTick()
		}
	case "?":
		return p.w.act("keys")
	default:
		return false
	}
	return true
}

// reveal implements page.
func (p *benchPage) reveal(o fyne.CanvasObject) {
	for _, r := range p.rows {
		for _, x := range inside(r.box) {
			if x == o {
				p.at = r.at
				into(p.scroll, r.box)
				into(p.scroll, o)
				return
			}
		}
	}
	for _, x := range inside(p.papers.box) {
		if x == o {
			into(p.scroll, o)
		}
	}
}

// show implements page.
func (p *benchPage) show() {
	p.fill()
	p.papers.follow()
}

// restyled implements page.
func (p *benchPage) restyled() {
	p.build()
	p.w.turnTo(p)
	settled(p.scroll)
}

// back implements page.
func (p *benchPage) back() (page, bool) {
	p.papers.halt()
	return p.from, false
}

// row implements page.
func (p *benchPage) row() []string { return nil }

// hint implements page.
func (p *benchPage) hint() string {
	return say.T("↑ and ↓ go from strip to strip, → sets its stage one on, ← one back, Space ticks several, Enter types widths.")
}
