package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
)

// behavePage shows how the wood of the panel on screen will behave: a card a
// matter, each with how its figures are worked out.
type behavePage struct {
	w      *Window
	from   page
	all    fyne.CanvasObject
	scroll *container.Scroll
	cards  *fyne.Container
	first  *pageButton
	shown  string // what the cards were made for
}

// behaveShow turns to the page.
func (w *Window) behaveShow() {
	p := &behavePage{w: w, from: w.page}
	p.build()
	w.turnTo(p)
}

func (p *behavePage) build() {
	w := p.w
	p.cards = &fyne.Container{Layout: &cardsLayout{least: func() float32 {
		return 400 * float32(w.look.TextPercent()) / 100
	}}}
	p.scroll = container.NewVScroll(container.NewPadded(p.cards))
	p.shown = ""
	button := func(text, action string) *pageButton { return newPageButton(w, text, func() { w.act(action) }) }
	p.first = button("The air…", "project")
	leave := newPageButton(w, "Back (Esc)", w.leavePage)
	leave.Importance = widget.LowImportance
	row := flow([]fyne.CanvasObject{p.first, button("How it is built in…", "fitting"), button("Joined panels…", "joined"), leave})
	head := wrapped("How the wood will behave", widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	top := container.NewVBox(container.New(stackLayout{}, snug(head), row), widget.NewSeparator())
	p.all = container.NewBorder(container.NewPadded(top), nil, nil, nil, p.scroll)
	p.fill()
}

// fill makes the cards anew where something they show has changed.
func (p *behavePage) fill() {
	b := p.w.ses.Behaviour(p.w.ses.Selected().Panel)
	if b == nil {
		p.cards.Objects = []fyne.CanvasObject{wrapped("There is no panel yet. "+p.w.acts.byID["new-panel"].keyNames()+" makes one.", widget.MediumImportance)}
		p.cards.Refresh()
		return
	}
	key := behaveKey(b)
	if key == p.shown {
		return
	}
	p.shown = key
	p.cards.Objects = nil
	for _, s := range append([]session.Section{b.Air}, b.Sections...) {
		p.cards.Add(p.card(b, s))
	}
	p.cards.Refresh()
	p.scroll.Refresh()
}

// card is one matter.
func (p *behavePage) card(b *session.Behaviour, s session.Section) fyne.CanvasObject {
	name := wrapped(s.Title, widget.MediumImportance)
	name.TextStyle.Bold = true
	lead := wrapped(s.Lead, widget.MediumImportance)
	if s.Strong {
		name.Importance = widget.DangerImportance
		name.SetText("⚠ " + s.Title)
	}
	body := container.New(stackLayout{}, snug(name), snug(lead))
	if s.Lead == "" {
		body.Objects = body.Objects[:1]
	}
	if len(s.Rows) > 0 {
		body.Add(newBehaveTable(s.Rows))
	}
	for _, n := range s.Notes {
		l := wrapped(n, widget.LowImportance)
		body.Add(snug(l))
	}
	if len(s.How) > 0 {
		how := newPageButton(p.w, "How is this worked out?", func() { p.w.workedOut(s) })
		how.Importance, how.Alignment, how.Icon = widget.LowImportance, widget.ButtonAlignLeading, theme.QuestionIcon()
		body.Add(container.NewHBox(how))
	}
	ground := canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	ground.CornerRadius = theme.InputRadiusSize()
	return container.NewStack(ground, container.New(columnLayout{}, body))
}

// content implements page.
func (p *behavePage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *behavePage) home() fyne.Focusable { return p.first }

// key implements page.
func (p *behavePage) key(ev *fyne.KeyEvent) bool {
	step := float32(60)
	switch ev.Name {
	case fyne.KeyPageDown:
		step = p.scroll.Size().Height * 0.8
	case fyne.KeyPageUp:
		step = -p.scroll.Size().Height * 0.8
	case fyne.KeyDown:
	case fyne.KeyUp:
		step = -step
	default:
		return false
	}
	p.scroll.Offset.Y = fyne.Max(0, fyne.Min(p.scroll.Offset.Y+step, p.scroll.Content.Size().Height-p.scroll.Size().Height))
	p.scroll.Refresh()
	return true
}

// sign implements page.
func (p *behavePage) sign(r rune) bool { return r == '?' && p.w.act("keys") }

// reveal implements page.
func (p *behavePage) reveal(o fyne.CanvasObject) {
	for _, in := range inside(p.cards) {
		if in == o {
			into(p.scroll, o)
			return
		}
	}
}

// show implements page.
func (p *behavePage) show() { p.fill() }

// restyled implements page.
func (p *behavePage) restyled() {
	p.build()
	p.w.turnTo(p)
}

// back implements page.
func (p *behavePage) back() (page, bool) { return p.from, false }

// row implements page.
func (p *behavePage) row() []string { return []string{"project", "fitting", "joined"} }

// hint implements page.
func (p *behavePage) hint() string {
	return "Figures are of average wood; every one says where it comes from. ↑ and ↓ scroll, Tab goes on."
}
