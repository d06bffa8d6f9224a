package ui

import (
	"unicode"

	"fyne.io/fyne/v2"

	"heartside/model/say"
)

// matchKeys lists the keys of the page.
const matchKeys = "Arrows: from pair to pair. Enter: lay the panel so. O: another way to make room for what comes in. T: the tolerance, N: as much as the nearest miss needs. S: the strip in hand. L: how its board and the next lay, E: the edge to open at. H: hatch. Esc: back."

// key implements page.
func (p *matchPage) key(ev *fyne.KeyEvent) bool {
	g := p.gallery
	switch ev.Name {
	case fyne.KeyLeft:
		g.take(g.at - 1)
	case fyne.KeyRight:
		g.take(g.at + 1)
	case fyne.KeyUp:
		g.step(-1)
	case fyne.KeyDown:
		g.step(1)
	case fyne.KeyHome:
		g.take(0)
	case fyne.KeyEnd:
		g.take(len(p.entries) - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.use()
	default:
		return false
	}
	return true
}

// sign implements page.
func (p *matchPage) sign(r rune) bool {
	switch unicode.ToUpper(r) {
	case 'H':
		p.hatch = !p.hatch
		p.gallery.drawn()
		p.w.say(map[bool]string{true: say.T("Zones hatched. H takes the lines away."), false: say.T("Zones not hatched.")}[p.hatch])
	case 'T':
		p.w.win.Canvas().Focus(p.head.tolerance)
	case 'S':
		p.w.win.Canvas().Focus(p.head.strip)
	case 'N':
		p.nearest()
	case 'L':
		p.side.touch.reach(p.side.touch.how)
	case 'E':
		p.side.touch.reach(p.side.touch.edge)
	case 'O':
		if e := p.gallery.hand(); e != nil {
			p.choose((e.way + 1) % len(e.m.Lays))
		}
	case '?':
		p.w.act("keys")
	default:
		return false
	}
	return true
}

// choose takes one of the ways to lay the pair in hand.
func (p *matchPage) choose(way int) {
	e := p.gallery.hand()
	switch {
	case e == nil:
		return
	case len(e.m.Lays) < 2:
		p.w.say(say.T("There is one way only to lay this pair."))
		return
	}
	p.ways[e.id] = way
	e.way = way
	p.gallery.show()
	p.side.show()
	p.w.say(ended(sentence(e.lay().For)))
}

// nearest asks for as much tolerance as the nearest miss needs.
func (p *matchPage) nearest() {
	if p.running || !(p.edges.Need > 0) {
		p.w.say(say.T("There is no nearest miss to show."))
		return
	}
	if p.edges.Need > widestTolerance {
		p.w.say(say.F("The nearest miss is too far off to match: %s.", p.w.ses.Len(p.edges.Need)))
		return
	}
	p.first = true
	p.head.tolerance.SetText(p.w.ses.Len(p.edges.Need))
}

// use lays the panel as the pair in hand does.
func (p *matchPage) use() {
	e := p.gallery.hand()
	switch {
	case e == nil:
		return
	case p.running || p.of != p.w.ses.Committed():
		p.w.say(say.T("The edges are still being compared."))
		return
	case e.lay().Change == "":
		p.w.say(say.T("The two lie so already."))
		return
	}
	if !p.w.commit(e.lay().Edit) {
		return
	}
	p.w.trace.line("matched")
	p.w.say(say.F("The two lie side by side. %s takes it back.", p.w.acts.byID["undo"].keyNames()))
}
