package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/sheet"
	"heartside/model/say"
)

// sheetSide is the column beside the pages: how far the sheet is, where it
// goes, its code, and what it is made of.
type sheetSide struct {
	p      *sheetPage
	box    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
	note   *widget.Label
	bar    *widget.ProgressBar
	stop   *pageButton
	again  *pageButton
	save   *pageButton
	print  *pageButton
	done   *widget.Label // what was written last, and where it lies
	code   *sheetCode
	grey   *sheetTick
	maker  *field
	panels *fyne.Container // ticks of the panels, under their heading
	listed string          // what they were made for
	laid   string
}

func newSheetSide(p *sheetPage) *sheetSide {
	s := &sheetSide{p: p}
	name := widget.NewLabel(say.T("Layout sheet"))
	name.SizeName, name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	s.note, s.done = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	s.done.Hide()
	s.bar = widget.NewProgressBar()
	s.bar.TextFormatter = func() string { return "" }
	s.stop, s.again = p.button(say.T("Stop (S)"), p.stopMaking), p.button(say.T("Make again (M)"), p.makeAgain)
	s.save, s.print = p.button(say.T("Save… (Enter)"), p.save), p.button(say.T("Print (P)"), p.print)
	leave := p.button(say.T("Back (Esc)"), p.w.leavePage)
	leave.Importance = widget.LowImportance
	room := widget.NewLabel("")
	head := flow([]fyne.CanvasObject{name, room, leave}, room)
	s.code = newSheetCode(p)
	kinds, widest := container.NewGridWithColumns(2), float32(0)
	for _, k := range sheet.Kinds() {
		tick := newSheetTick(p, kindOfPages(k), *p.ask.pages.Of(k), func(on bool) {
			*p.ask.pages.Of(k) = on
			p.chosen()
		})
		kinds.Add(tick)
		widest = max(widest, tick.MinSize().Width)
	}
	if 2*widest > p.w.columnWidth()-12*theme.Padding() { // the longest names need the whole width
		kinds = container.NewVBox(kinds.Objects...)
	}
	sizes := sheet.Papers()
	var names []string
	for _, q := range sizes {
		names = append(names, q.Name())
	}
	paper := newSheetPick(p, names, slices.Index(sizes, p.ask.paper), func(i int) {
		p.ask.paper = sizes[max(i, 0)]
		p.chosen()
	})
	s.grey = newSheetTick(p, say.T("In grey, as shops print it (G)"), p.ask.grey, func(on bool) {
		p.ask.grey = on
		p.view.wants()
		p.redraw()
	})
	s.maker = p.w.newField(p.w.set.maker(), say.T("Your name or workshop"))
	s.maker.follow(func() {
		p.w.set.keepMaker(strings.TrimSpace(s.maker.Text))
		p.m.in.Author = p.w.set.maker()
		p.chosen()
	})
	s.panels = container.New(stackLayout{})
	s.body = container.New(columnLayout{}, snug(head), flow([]fyne.CanvasObject{s.save, s.print}), snug(s.done),
		container.New(stackLayout{}, snug(s.note), container.New(keepRoom{}, container.NewBorder(nil, nil, nil, s.stop, container.NewCenter(least(18, s.bar))), container.NewHBox(s.again))),
		widget.NewSeparator(), s.code.box, widget.NewSeparator(),
		snug(bold(say.T("Paper"))), paper, s.grey, snug(bold(say.T("Pages"))), kinds, s.panels,
		snug(bold(say.T("Made by"))), s.maker, snug(wrapped(say.T("Stands on the client's page and in the file's properties."), widget.LowImportance)),
		snug(bold(say.T("Keys"))), snug(wrapped(say.T(sheetKeys), widget.LowImportance)))
	s.scroll = container.NewVScroll(container.New(besideBar{}, s.body))
	s.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, s.scroll))
	return s
}

// keepRoom lays objects over one another and keeps their room while they are
// hidden.
type keepRoom struct{}

// MinSize implements fyne.Layout.
func (keepRoom) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var out fyne.Size
	for _, o := range objs {
		out = out.Max(o.MinSize())
	}
	return out
}

// Layout implements fyne.Layout.
func (keepRoom) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Move(fyne.NewPos(0, 0))
		o.Resize(size)
	}
}

// chosen makes the sheet of what is chosen now.
func (p *sheetPage) chosen() {
	if p.m.in.Project == nil {
		p.follow()
		return
	}
	p.compose()
}

// status says how far the sheet is, in plain words.
func (p *sheetPage) status() string {
	m := &p.m
	n := 0
	if m.doc != nil {
		n = len(m.doc.Pages)
	}
	switch {
	case m.wrong != "":
		return say.F("⚠ No sheet: %s", lowerFirst(m.wrong))
	case m.halted && n == 0:
		return say.T("Stopped before there were pages.")
	case m.halted && m.stale:
		return say.T("⚠ Stopped. These pages are of what was chosen before.")
	case m.halted:
		return say.F("Stopped: %s of %s drawn.", itoa(m.drawn), say.Count(n, say.T("page"), say.T("pages")))
	case m.busy && (n == 0 || m.stale):
		return say.T("Making the pages…")
	case m.busy:
		return say.F("Drawing the pages: %s of %s.", itoa(m.drawn), itoa(n))
	}
	text := say.F("%s on %s, of the plan as it is now.", say.Count(n, say.T("page"), say.T("pages")), p.ask.paper.Name())
	if m.lacks {
		text += say.T(" They keep their numbers in the whole sheet.")
	}
	return text
}

// show brings the column up to date.
func (s *sheetSide) show() {
	p, m := s.p, &s.p.m
	s.code.show()
	s.fillPanels()
	put(s.note, p.status())
	share := 0.0
	if m.busy && m.doc != nil && !m.stale {
		share = float64(m.drawn) / float64(len(m.doc.Pages))
	}
	if s.bar.Value != share {
		s.bar.SetValue(share)
	}
	setShown(s.stop, m.busy)
	setShown(s.bar, m.busy)
	setShown(s.again, m.halted)
	bad := m.wrong != ""
	s.save.greyed(bad)
	s.print.greyed(bad)
	s.relaid()
}

// fillPanels makes the ticks of the panels anew where the panels are others.
func (s *sheetSide) fillPanels() {
	p := s.p
	key := ""
	for _, n := range p.w.ses.Committed().Panels {
		key += n.ID + "\x00"
	}
	if key == s.listed {
		return
	}
	s.listed = key
	s.panels.RemoveAll()
	list := p.w.ses.Committed().Panels
	if len(list) < 2 {
		return
	}
	s.panels.Add(snug(bold(say.T("Of which panels"))))
	for _, n := range list {
		s.panels.Add(newSheetTick(p, title(n.ID), !p.ask.left[n.ID], func(on bool) {
			p.ask.left[n.ID] = !on
			p.chosen()
		}))
	}
}

// relaid lays the column out again where its texts have changed.
func (s *sheetSide) relaid() {
	note := s.note.Text
	if s.p.m.busy { // figures that count up need no other room
		note = ""
	}
	key := strings.Join([]string{note, s.done.Text, s.code.answer.Text, s.listed}, "\x00")
	if key == s.laid {
		return
	}
	s.laid = key
	for range 2 {
		s.body.Refresh()
	}
	settled(s.scroll)
}

// tell says in the column what was done with the sheet, and where it lies.
func (s *sheetSide) tell(text string) {
	s.done.Hidden = text == ""
	put(s.done, text)
	s.relaid()
}
