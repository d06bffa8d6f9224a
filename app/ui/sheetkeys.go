package ui

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
)

// sheetKeys lists the keys of the page.
const sheetKeys = "PgUp, PgDn, Home, End: from page to page. + and −: zoom, 0: all of the page, 1: true size; arrows move a page that is larger than its room. Enter: save. P: print. L: straight to the printer. C: copy the short code. G: in grey. S: stop making, M: make again. Esc: back."

// key implements page.
func (p *sheetPage) key(ev *fyne.KeyEvent) bool {
	step := func(x, y float64, page int) {
		if p.view.larger() {
			p.view.move(geom.Pt(x, y).Mul(panStep))
			return
		}
		p.take(p.at + page)
	}
	switch ev.Name {
	case fyne.KeyPageUp:
		p.take(p.at - 1)
	case fyne.KeyPageDown:
		p.take(p.at + 1)
	case fyne.KeyHome:
		p.take(0)
	case fyne.KeyEnd:
		p.take(len(p.m.small) - 1)
	case fyne.KeyUp:
		step(0, 1, -1)
	case fyne.KeyDown:
		step(0, -1, 1)
	case fyne.KeyLeft:
		step(1, 0, -1)
	case fyne.KeyRight:
		step(-1, 0, 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.save()
	default:
		return false
	}
	return true
}

// sign implements page.
func (p *sheetPage) sign(r rune) bool {
	switch unicode.ToUpper(r) {
	case '+', '=':
		p.zoom(1.25)
	case '-', '−':
		p.zoom(1 / 1.25)
	case '0':
		p.fit()
	case '1':
		p.view.trueSize()
		p.zoomed()
	case 'P':
		p.print()
	case 'L':
		p.printAsk()
	case 'C':
		p.copyCode()
	case 'G':
		p.side.grey.SetChecked(!p.ask.grey)
	case 'S':
		p.stopMaking()
	case 'M':
		p.makeAgain()
	case '?':
		p.w.act("keys")
	default:
		return false
	}
	return true
}

// zoom enlarges the page about the middle of its room.
func (p *sheetPage) zoom(by float64) {
	p.view.zoom(p.view.view.room.Mul(0.5), by)
	p.zoomed()
}

func (p *sheetPage) fit() {
	p.view.fit()
	p.zoomed()
}

func (p *sheetPage) zoomed() {
	p.head.show()
	p.w.say("")
}

// button is a button of the page; the keys go back to the pages after it.
func (p *sheetPage) button(text string, do func()) *pageButton {
	if p.w.large() {
		text, _, _ = strings.Cut(text, " (")
	}
	return newPageButton(p.w, text, func() {
		do()
		if p.w.page == page(p) && p.w.asks == nil {
			p.w.takeKeys()
		}
	})
}

// sheetTick is a box to tick that knows the keys of the page.
type sheetTick struct {
	tick
	p *sheetPage
}

func newSheetTick(p *sheetPage, text string, on bool, changed func(bool)) *sheetTick {
	t := &sheetTick{p: p}
	t.w, t.Text, t.Checked, t.OnChanged = p.w, text, on, changed
	t.ExtendBaseWidget(t)
	return t
}

// FocusGained implements fyne.Focusable.
func (t *sheetTick) FocusGained() {
	t.Check.FocusGained()
	t.w.reached(t)
}

// TypedKey implements fyne.Focusable.
func (t *sheetTick) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeySpace || !t.w.pageKey(ev) && !t.p.key(ev) {
		t.Check.TypedKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (t *sheetTick) TypedRune(r rune) {
	if r == ' ' || !t.p.sign(r) {
		t.Check.TypedRune(r)
	}
}

// sheetPick is a drop-down that knows the keys of the page.
type sheetPick struct {
	widget.Select
	p *sheetPage
}

func newSheetPick(p *sheetPage, names []string, now int, changed func(int)) *sheetPick {
	s := &sheetPick{p: p}
	s.Options = names
	if now >= 0 {
		s.Selected = names[now]
	}
	s.OnChanged = func(string) { changed(s.SelectedIndex()) }
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained implements fyne.Focusable.
func (s *sheetPick) FocusGained() {
	s.Select.FocusGained()
	s.p.w.reached(s)
}

// TypedKey implements fyne.Focusable: up, down and blank choose.
func (s *sheetPick) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeySpace:
	default:
		if s.p.w.pageKey(ev) || s.p.key(ev) {
			return
		}
	}
	s.Select.TypedKey(ev)
}

// TypedRune implements fyne.Focusable.
func (s *sheetPick) TypedRune(r rune) {
	if !s.p.sign(r) {
		s.Select.TypedRune(r)
	}
}
