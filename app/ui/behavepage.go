package ui

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// behavePage shows how the wood of the panel on screen will behave: what
// matters most at a glance, then a card a matter, each with how its figures are
// worked out.
type behavePage struct {
	w      *Window
	from   page
	all    fyne.CanvasObject
	scroll *container.Scroll
	top    *fyne.Container // holds the glance
	cards  *fyne.Container
	lay    *cardsLayout
	byID   map[string]fyne.CanvasObject
	first  *behaveButton
	last   fyne.Focusable // had the keys last, nil none
	head   *widget.Label
	panels *behavePick // nil where there is one panel
	pics   *woodPics
	ages   *agesPicture // nil where nothing is placed

	open  map[string]bool // sections whose notes are unfolded
	end   session.EndLook // what the end view shows
	age   int             // which of the three ages the panel is shown at
	of    *model.Project  // what the cards were made for
	shown string
}

// behaveShow turns to the page.
func (w *Window) behaveShow() {
	p := &behavePage{w: w, from: w.page, open: map[string]bool{}}
	ctx, stop := context.WithCancel(w.work)
	context.AfterFunc(ctx, stop)
	p.pics = newWoodPics(w, ctx, func() bool { return w.page != page(p) }, func() {
		if p.ages != nil {
			p.ages.draw()
		}
	})
	p.build()
	w.turnTo(p)
	settled(p.scroll)
}

// least is how wide a card is at least.
func (p *behavePage) least() float32 { return 380 * float32(p.w.look.TextPercent()) / 100 }

func (p *behavePage) build() {
	w := p.w
	p.lay = &cardsLayout{least: p.least}
	p.cards = &fyne.Container{Layout: p.lay}
	p.top = container.New(stackLayout{})
	air := canvas.NewRectangle(nil)
	air.SetMinSize(fyne.NewSize(0, cardAir-2*stackGap))
	var room *fyne.Container
	room, p.scroll = down(container.NewPadded(container.New(stackLayout{}, p.top, air, p.cards)), nil)
	p.of, p.shown, p.last = nil, "", nil
	button := func(text, action string) *behaveButton {
		return newBehaveButton(p, text, func() { w.act(action) })
	}
	p.first = button(say.T("The air…"), "project")
	leave := newBehaveButton(p, say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	row := []fyne.CanvasObject{p.first, button(say.T("How it is built in…"), "fitting"), button(say.T("Joined panels…"), "joined"), leave}
	p.panels = nil
	if list := w.ses.Project().Panels; len(list) > 1 {
		var names []string
		now := -1
		for i, n := range list {
			names = append(names, title(n.ID))
			if n.ID == w.ses.Selected().Panel {
				now = i
			}
		}
		p.panels = newBehavePick(p, names, now, func(i int) {
			if list := w.ses.Project().Panels; i >= 0 && i < len(list) {
				w.showPanel(list[i].ID)
			}
		})
		row = slices.Insert(row, 0, fyne.CanvasObject(p.panels))
	}
	p.head = wrapped("", widget.MediumImportance)
	p.head.SizeName, p.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	top := container.NewPadded(container.NewVBox(container.New(stackLayout{}, snug(p.head), flow(row)), widget.NewSeparator()))
	// The head goes before the cards, for Tab too.
	p.all = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, room)
	p.fill()
}

// fill makes the cards anew where something they show has changed.
func (p *behavePage) fill() {
	id := p.w.ses.Selected().Panel
	b := p.w.ses.Behaviour(id)
	if b == nil {
		p.shown, p.ages = "", nil
		p.head.SetText(say.T("How the wood will behave"))
		p.top.Objects = nil
		next := newNextSteps(p.w)
		next.show(p.w.missing())
		p.cards.Objects = []fyne.CanvasObject{wrapped(say.F("There is no panel yet. %s makes one.", p.w.acts.byID["new-panel"].keyNames()), widget.MediumImportance), next.box}
		p.relaid()
		return
	}
	key := behaveKey(b)
	if key == p.shown && p.of == p.w.ses.Project() {
		if p.ages != nil { // photographs may have come
			p.ages.draw()
		}
		return
	}
	if b.Panel.ID != p.panel() {
		p.end.Layup = ""
	}
	p.shown, p.of = key, p.w.ses.Project()
	p.head.SetText(say.F("How the wood will behave: %s", title(b.Panel.ID)))
	held := p.hasKeys()
	p.ages, p.byID = nil, map[string]fyne.CanvasObject{}
	if o, ok := p.last.(fyne.CanvasObject); ok && p.inCards(o) {
		p.last = nil
	}
	p.top.Objects = []fyne.CanvasObject{p.glance(b)}
	p.cards.Objects = nil
	for _, s := range ordered(b) {
		c := p.card(b, s)
		p.byID[s.ID] = c
		p.cards.Add(c)
	}
	p.lay.held = false
	p.relaid()
	if held { // what had the keys is gone
		p.w.win.Canvas().Focus(p.first)
	}
}

// panel is the panel the cards were made for.
func (p *behavePage) panel() string {
	if p.ages != nil {
		return p.ages.panel.ID
	}
	return ""
}

// hasKeys reports whether a part of the cards has the keys.
func (p *behavePage) hasKeys() bool {
	f, ok := p.w.win.Canvas().Focused().(fyne.CanvasObject)
	return ok && p.w.page == page(p) && p.w.asks == nil && p.inCards(f)
}

// inCards reports whether an object is part of what is scrolled.
func (p *behavePage) inCards(o fyne.CanvasObject) bool {
	return slices.Contains(inside(p.cards), o) || slices.Contains(inside(p.top), o)
}

// refolded lays the cards out again after one of them has changed its height.
func (p *behavePage) refolded() {
	p.lay.held = true
	p.relaid()
}

// relaid lays the page out again.
func (p *behavePage) relaid() {
	p.top.Refresh()
	p.cards.Refresh()
	settled(p.scroll)
}

// showCard scrolls to the card of a section.
func (p *behavePage) showCard(id string) {
	c := p.byID[id]
	if c == nil {
		return
	}
	d := fyne.CurrentApp().Driver()
	scrollTo(p.scroll, d.AbsolutePositionForObject(c).Y-d.AbsolutePositionForObject(p.scroll.Content).Y-pad())
	for _, o := range inside(c) {
		if f, ok := o.(fyne.Focusable); ok && o.Visible() {
			y := p.scroll.Offset.Y
			p.w.win.Canvas().Focus(f)
			scrollTo(p.scroll, y)
			return
		}
	}
}

// content implements page.
func (p *behavePage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *behavePage) home() fyne.Focusable {
	if p.last != nil { // a dialog gives the keys back
		return p.last
	}
	return p.first
}

// key implements page.
func (p *behavePage) key(ev *fyne.KeyEvent) bool { return scrolled(p.scroll, ev.Name) }

// sign implements page: 1, 2 and 3 show the panel at one of three ages.
func (p *behavePage) sign(r rune) bool {
	switch r {
	case '?':
		return p.w.act("keys")
	case '1', '2', '3':
		if p.ages == nil {
			return false
		}
		p.showAge(int(r - '1'))
		p.reveal(p.ages.buttons[0])
		p.reveal(p.ages.room)
		return true
	}
	return false
}

// reveal implements page.
func (p *behavePage) reveal(o fyne.CanvasObject) {
	if p.inCards(o) {
		into(p.scroll, o)
	}
}

// show implements page.
func (p *behavePage) show() { p.fill() }

// restyled implements page.
func (p *behavePage) restyled() {
	p.build()
	p.w.turnTo(p)
	settled(p.scroll)
}

// back implements page.
func (p *behavePage) back() (page, bool) { return p.from, false }

// row implements page.
func (p *behavePage) row() []string { return nil }

// hint implements page.
func (p *behavePage) hint() string {
	return say.T("↑, ↓, PgUp and PgDn scroll, Tab goes on, 1 to 3 show the panel today, in one year, in ten.")
}

// lets reports whether an action on panels may be done while a page is up: what
// the page of behaviour rests on is changed from there.
func (w *Window) lets(id string) bool {
	_, ok := w.page.(*behavePage)
	return ok && (id == "fitting" || id == "joined" || id == "plane")
}
