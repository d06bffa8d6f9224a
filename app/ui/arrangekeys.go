package ui

import (
	"errors"
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// arrangeKeys lists the keys of the page.
const arrangeKeys = "Arrows: from arrangement to arrangement; 0 how it lies now, 1 to 5 an answer. Enter: use it. K: keep it under a name. Del: forget a kept one. T: this panel, or the whole set it is of. Space: tick, C: compare two or three that are ticked. V: seen otherwise. H: hatch. S: search again. P: strips that stay where they are. W: why. Esc: stop the search, then back."

// key implements page.
func (p *arrangePage) key(ev *fyne.KeyEvent) bool {
	g := p.gallery
	cols := g.columns(g.box.Size().Width)
	switch ev.Name {
	case fyne.KeyLeft:
		g.take(g.at - 1)
	case fyne.KeyRight:
		g.take(g.at + 1)
	case fyne.KeyUp:
		g.take(g.at - cols)
	case fyne.KeyDown:
		if to := g.at + cols; to < len(g.shown) {
			g.take(to)
		} else if g.at/cols < (len(g.shown)-1)/cols {
			g.take(len(g.shown) - 1)
		}
	case fyne.KeyHome:
		g.take(0)
	case fyne.KeyEnd:
		g.take(len(g.shown) - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.use()
	case fyne.KeySpace:
		p.turnTick()
	case fyne.KeyDelete, fyne.KeyBackspace:
		p.drop()
	default:
		return false
	}
	return true
}

// sign implements page.
func (p *arrangePage) sign(r rune) bool {
	switch s := unicode.ToUpper(r); {
	case s >= '0' && s <= '9':
		p.number(int(s - '0'))
	case s == 'K':
		p.keep()
	case s == 'C':
		p.compare(!p.gallery.comparing)
	case s == 'V':
		p.see((p.seen + 1) % seeing(len(seeings())))
	case s == 'H':
		p.hatch = !p.hatch
		p.gallery.drawn()
		p.w.say(map[bool]string{true: say.T("Zones hatched. H takes the lines away."), false: say.T("Zones not hatched.")}[p.hatch])
	case s == 'S':
		p.search()
	case s == 'T':
		p.turnWhole()
	case s == 'P':
		p.side.focusPin(0)
	case s == 'W':
		if len(p.side.reasons) > 0 {
			p.w.win.Canvas().Focus(p.side.reasons[0])
		}
	case s == '?':
		p.w.act("keys")
	default:
		return false
	}
	return true
}

// number takes an answer in hand, 0 how the panel lies now.
func (p *arrangePage) number(n int) {
	for i, e := range p.gallery.shown {
		if e.kind == layNow && n == 0 || e.kind == layAnswer && e.n == n {
			p.gallery.take(i)
			return
		}
	}
	p.w.say(say.F("There is no answer %s here.", itoa(n)))
}

// see shows all pictures seen otherwise.
func (p *arrangePage) see(s seeing) {
	p.seen = s
	p.gallery.laid = ""
	p.shown()
	p.w.say(say.F("Seen: %s. V goes on.", say.Lower(s.String())))
}

// setRings changes how the growth rings of the panel are to lie.
func (p *arrangePage) setRings(r model.Rings) {
	n := p.w.ses.Committed().Panel(p.panel)
	if n == nil || n.Rings == r {
		return
	}
	c := *n
	c.Rings = r
	p.w.commit(model.SetPanel{Panel: &c})
}

// use lays the panel as the arrangement in hand does.
func (p *arrangePage) use() {
	e := p.gallery.hand()
	switch {
	case e == nil:
		return
	case e.fault != "":
		p.w.say(e.fault)
		return
	case e.same || e.edit == nil:
		p.w.say(say.F("%s so already.", p.what()))
		return
	}
	if !p.w.commit(e.edit) {
		return
	}
	p.w.trace.line("used")
	p.w.say(say.F("%s as in %s. %s takes it back.", p.what(), e.spoken(), p.w.acts.byID["undo"].keyNames()))
}

// spoken names an arrangement within a sentence.
func (e *layEntry) spoken() string {
	switch e.kind {
	case layAnswer:
		return say.F("answer %s", itoa(e.n))
	case layKept:
		return "“" + e.name + "”"
	}
	return say.T("it does now")
}

// keep asks for a name and keeps the arrangement in hand under it.
func (p *arrangePage) keep() {
	e := p.gallery.hand()
	switch {
	case e == nil || e.fault != "":
		return
	case e.kind == layKept:
		p.w.say(say.F("It is kept already, as “%s”.", e.name))
		return
	}
	names := []string{}
	for _, k := range p.w.ses.Committed().Kept {
		if slices.Contains(p.panels(), k.Panel) {
			names = append(names, k.Name)
		}
	}
	offered := say.T("Arrangement 1")
	for i := 2; slices.Contains(names, offered); i++ {
		offered = say.F("Arrangement %s", itoa(i))
	}
	f := p.w.newField(offered, say.T("quiet one"))
	text := say.T("It is kept in the project and shown here from now on.")
	lay := e.edit
	if e.same {
		lay = nil
	}
	p.w.ask(question{title: say.F("Keep %s", map[bool]string{true: say.T("how it lies now"), false: e.spoken()}[e.kind == layNow]), yes: say.T("Keep"), focus: f,
		body: pairs(named(say.T("Name")), f, named(""), wrapped(text, widget.LowImportance)),
		do: func() error {
			name := strings.Join(strings.Fields(f.Text), " ")
			switch {
			case name == "":
				return errors.New(say.F("name: it needs one, such as %s", offered))
			case slices.ContainsFunc(names, func(n string) bool { return strings.EqualFold(n, name) }):
				return errors.New(say.F("name: “%s” is kept already; give this one another name", name))
			}
			if err := p.w.ses.Commit(p.keeping(name, lay)); err != nil {
				return err
			}
			p.w.say(say.F("Kept as “%s”.", name))
			return nil
		}})
}

// drop forgets the kept arrangement in hand.
func (p *arrangePage) drop() {
	e := p.gallery.hand()
	if e == nil || e.kind != layKept {
		p.w.say(say.T("Only kept arrangements can be forgotten."))
		return
	}
	if p.forget(e.name) {
		p.w.say(say.F("Forgotten: “%s”. %s brings it back.", e.name, p.w.acts.byID["undo"].keyNames()))
	}
}

// mostCompared is how many arrangements are compared at a time.
const mostCompared = 3

func (p *arrangePage) isTicked(id string) bool { return slices.Contains(p.ticked, id) }

// turnTick ticks the arrangement in hand, or takes its tick away.
func (p *arrangePage) turnTick() {
	e := p.gallery.hand()
	if e == nil {
		return
	}
	there := func(id string) bool {
		return slices.ContainsFunc(p.entries, func(o *layEntry) bool { return o.id == id })
	}
	p.ticked = slices.DeleteFunc(p.ticked, func(id string) bool { return !there(id) })
	if i := slices.Index(p.ticked, e.id); i >= 0 {
		p.ticked = slices.Delete(p.ticked, i, i+1)
	} else if len(p.ticked) == mostCompared {
		p.w.say(say.T("Three are ticked. Untick one of them first."))
		return
	} else {
		p.ticked = append(p.ticked, e.id)
	}
	p.shown()
	p.w.say(say.F("%s ticked. C compares two or three.", say.Count(len(p.ticked), say.T("arrangement"), say.T("arrangements"))))
}

// compare shows only what is ticked, large, or all again.
func (p *arrangePage) compare(on bool) {
	if on {
		n := 0
		for _, e := range p.entries {
			if p.isTicked(e.id) {
				n++
			}
		}
		if n < 2 {
			p.w.say(say.T("Tick two or three with Space first; C then shows them large, one under the other."))
			return
		}
	}
	p.gallery.comparing = on
	p.gallery.laid = ""
	p.shown()
	p.gallery.reveal()
	p.w.say("")
}

// menu is the menu of the arrangement in hand.
func (p *arrangePage) menu() *fyne.Menu {
	e := p.gallery.hand()
	use := fyne.NewMenuItem(say.T("Use it   Enter"), p.use)
	keep := fyne.NewMenuItem(say.T("Keep it…   K"), p.keep)
	tick := fyne.NewMenuItem(say.T("Tick to compare   Space"), p.turnTick)
	drop := fyne.NewMenuItem(say.T("Forget it   Del"), p.drop)
	use.Disabled = e == nil || e.same
	keep.Disabled = e == nil || e.kind == layKept
	tick.Checked = e != nil && p.isTicked(e.id)
	drop.Disabled = e == nil || e.kind != layKept
	return fyne.NewMenu("", use, keep, tick, fyne.NewMenuItemSeparator(), drop)
}
