package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// helpPage is the help: a screen for each stage of the job, then words, marks,
// cautions and where the numbers come from. What is typed is looked for in all.
type helpPage struct {
	w       *Window
	from    page
	screens []helpScreen
	at      int
	sought  string
	search  *field
	tabs    []*helpButton
	text    *fyne.Container
	body    *fyne.Container
	scroll  *container.Scroll
	all     fyne.CanvasObject
}

// addHelpActions lists the help.
func (w *Window) addHelpActions() {
	w.acts.add(&Action{ID: "help", Label: say.T("Help"), Group: groupView, Keys: []Chord{ctrl(fyne.KeyF1)},
		Hint: say.T("The job stage by stage, words, marks, cautions, and where the numbers come from."), Do: w.helpShow})
}

// helpShow turns to the page.
func (w *Window) helpShow() {
	if _, up := w.page.(*helpPage); up {
		return
	}
	screens, err := readHelp()
	if err != nil {
		w.fail(say.T("The help cannot be shown"), err)
		return
	}
	p := &helpPage{w: w, from: w.page, screens: screens}
	p.build()
	w.turnTo(p)
	settled(p.scroll)
}

func (p *helpPage) build() {
	w := p.w
	head := widget.NewLabelWithStyle(say.T("Help"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head.SizeName = theme.SizeNameSubHeadingText
	p.search = w.newField(p.sought, say.T("Look for a word"))
	p.search.OnChanged = func(text string) { p.sought = text; p.fill() }
	leave := newPageButton(w, say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	room := container.New(roomLayout{fyne.NewSize(180, p.search.MinSize().Height)}, p.search)
	top := container.NewPadded(container.NewVBox(flow([]fyne.CanvasObject{head, room, leave}, room), widget.NewSeparator()))
	var tabs []fyne.CanvasObject
	p.tabs = nil
	for i, s := range p.screens {
		b := newHelpButton(p, s.title, func() { p.turn(i) })
		p.tabs = append(p.tabs, b)
		tabs = append(tabs, b)
	}
	p.text = container.New(stackLayout{})
	p.body = container.New(stackLayout{}, flow(tabs), widget.NewSeparator(), p.text)
	var low *fyne.Container
	low, p.scroll = down(container.NewPadded(p.body), nil)
	p.all = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, low)
	p.fill()
}

// turn shows screen i, in place of what was looked for.
func (p *helpPage) turn(i int) {
	p.at = max(min(i, len(p.screens)-1), 0)
	if p.sought != "" {
		p.search.SetText("") // which fills
	} else {
		p.fill()
	}
	scrollTo(p.scroll, 0)
}

// fill writes the screen, or what was found.
func (p *helpPage) fill() {
	for i, b := range p.tabs {
		b.Importance = widget.LowImportance
		if i == p.at && p.sought == "" {
			b.Importance = widget.HighImportance
		}
		b.Refresh()
	}
	p.text.RemoveAll()
	if p.sought == "" {
		s := p.screens[p.at]
		p.text.Add(p.heading(s.title))
		for _, part := range s.parts {
			p.text.Add(p.piece(part))
		}
	} else {
		p.results()
	}
	p.body.Refresh()
	settled(p.scroll)
}

// results writes what was found, screen by screen.
func (p *helpPage) results() {
	any := false
	for i, s := range p.screens {
		var hits []helpPart
		for _, part := range s.parts {
			if found(p.plain(part), p.sought) {
				hits = append(hits, part)
			}
		}
		if len(hits) == 0 && !found(s.title, p.sought) {
			continue
		}
		any = true
		p.text.Add(container.NewHBox(newHelpButton(p, say.F("To “%s”", s.title), func() { p.turn(i) })))
		for _, part := range hits {
			p.text.Add(p.piece(part))
		}
	}
	if !any {
		p.text.Add(wrapped(say.F("“%s” stands nowhere in the help. Try one word, or part of it.", p.sought), widget.MediumImportance))
	}
}

// plain is a piece as it is read.
func (p *helpPage) plain(part helpPart) string {
	if part.kind == helpDo {
		if a := p.w.acts.byID[part.text]; a != nil {
			return a.name() + " " + a.keyNames() + " " + a.Hint
		}
	}
	return p.w.acts.keyed(part.text)
}

func (p *helpPage) heading(text string) fyne.CanvasObject {
	l := wrapped(text, widget.MediumImportance)
	l.SizeName, l.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	return snug(l)
}

// piece is a part of a screen as it stands there.
func (p *helpPage) piece(part helpPart) fyne.CanvasObject {
	text := p.w.acts.keyed(part.text)
	switch part.kind {
	case helpHead:
		l := wrapped(text, widget.MediumImportance)
		l.TextStyle.Bold = true
		return snug(l)
	case helpPoint:
		return container.New(gutterLayout{}, snug(widget.NewLabel("•")), line(text, widget.MediumImportance))
	case helpDo:
		a := p.w.acts.byID[part.text]
		if a == nil {
			return wrapped(part.text, widget.LowImportance)
		}
		name := a.Label
		if k := a.keyNames(); k != "" {
			name += "  (" + k + ")"
		}
		b := newHelpButton(p, name, func() { p.goTo(a) })
		return container.New(stackLayout{}, container.NewHBox(b), line(a.Hint, widget.LowImportance))
	}
	return line(text, widget.MediumImportance)
}

// goTo leaves the help and does an action.
func (p *helpPage) goTo(a *Action) {
	w := p.w
	w.turnTo(p.from)
	w.pastDraft(func() {
		w.turnTo(nil)
		if !w.do(a) {
			w.say(say.F("“%s” waits: %s.", a.Label, w.lacks()))
		}
	})
}

// lacks says what the project needs next before more can be done.
func (w *Window) lacks() string {
	p := w.ses.Project()
	switch {
	case len(p.Boards) == 0:
		return say.F("there is no board yet; %s makes one", w.acts.byID["new-board"].keyNames())
	case len(p.Panels) == 0:
		return say.F("there is no panel yet; %s makes one", w.acts.byID["new-panel"].keyNames())
	}
	return say.T("take a strip or a board in hand first")
}

// content implements page.
func (p *helpPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *helpPage) home() fyne.Focusable { return p.tabs[p.at] }

// key implements page.
func (p *helpPage) key(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyLeft, fyne.KeyRight:
		by := 1
		if ev.Name == fyne.KeyLeft {
			by = -1
		}
		if n := p.at + by; n >= 0 && n < len(p.tabs) {
			p.turn(n)
			p.w.win.Canvas().Focus(p.tabs[n])
		}
		return true
	}
	return scrolled(p.scroll, ev.Name)
}

// sign implements page: a letter begins the search.
func (p *helpPage) sign(r rune) bool {
	p.w.win.Canvas().Focus(p.search)
	p.search.TypedRune(r)
	return true
}

// reveal implements page.
func (p *helpPage) reveal(o fyne.CanvasObject) {
	if slices.Contains(inside(p.body), o) {
		into(p.scroll, o)
	}
}

// show implements page.
func (p *helpPage) show() {}

// restyled implements page.
func (p *helpPage) restyled() {
	p.build()
	p.w.turnTo(p)
	settled(p.scroll)
}

// back implements page.
func (p *helpPage) back() (page, bool) { return p.from, false }

// row implements page.
func (p *helpPage) row() []string { return nil }

// hint implements page.
func (p *helpPage) hint() string {
	return say.T("← and → turn the screens, ↑ and ↓ scroll. Type to look for a word. Esc goes back.")
}
