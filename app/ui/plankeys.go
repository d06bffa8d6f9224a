package ui

import (
	"unicode"

	"fyne.io/fyne/v2"

	"heartside/model/say"
)

// planKeys lists the keys of the page.
const planKeys = "Arrows: from plan to plan. Enter: lay everything so. P: the panels as they would look, or the boards. S: stop looking. A: ask anew. Esc: back."

// key implements page.
func (p *planPage) key(ev *fyne.KeyEvent) bool {
	g := p.gallery
	switch ev.Name {
	case fyne.KeyLeft:
		g.take(g.at - 1)
	case fyne.KeyRight:
		g.take(g.at + 1)
	case fyne.KeyUp:
		g.take(g.at - g.cols)
	case fyne.KeyDown:
		g.take(g.at + g.cols)
	case fyne.KeyHome:
		g.take(0)
	case fyne.KeyEnd:
		g.take(len(p.plans) - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.use()
	default:
		return false
	}
	return true
}

// sign implements page.
func (p *planPage) sign(r rune) bool {
	switch unicode.ToUpper(r) {
	case 'P':
		p.turnPictures()
	case 'S':
		if !p.running {
			p.w.say(say.T("The search is over."))
		}
		p.halting()
	case 'A':
		p.askAnew()
	case '?':
		p.w.act("keys")
	default:
		return false
	}
	return true
}

// turnPictures shows the panels as they would look, or the boards again.
func (p *planPage) turnPictures() {
	p.panels = !p.panels
	p.shown()
	if g := p.gallery; g.at < len(g.tiles) {
		into(g.scroll, g.tiles[g.at])
	}
	p.w.say(map[bool]string{true: say.T("The panels as they would look. P shows the boards."), false: say.T("The boards with what is cut from them. P shows the panels.")}[p.panels])
}

// askAnew leaves the plans and asks again what is planned.
func (p *planPage) askAnew() {
	p.halting()
	p.w.leavePage()
	p.w.planAsk()
}
