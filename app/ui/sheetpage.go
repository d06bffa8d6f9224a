package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// sheetPage shows the layout sheet as it will be printed: every page small, the
// one in hand large, beside them what it is made of and where it goes.
type sheetPage struct {
	w     *Window
	from  page
	ask   sheetAsk
	m     sheetMaker
	press presses // the programs of the system that print
	at    int     // which page is in hand
	other bool    // the look or the size of text changed meanwhile
	list  *sheetList
	view  *sheetView
	head  *sheetHead
	none  *widget.Label // in the place of pages
	side  *sheetSide
	all   fyne.CanvasObject
}

// sheetToggle turns to the page, or back from it.
func (w *Window) sheetToggle() {
	if w.sheetUp() != nil {
		w.leavePage()
		return
	}
	w.showSheet(systemPresses())
}

// sheetUp is the page where it is up, nil otherwise.
func (w *Window) sheetUp() *sheetPage {
	p, _ := w.page.(*sheetPage)
	return p
}

// showSheet turns to the page and begins to make the sheet.
func (w *Window) showSheet(press presses) *sheetPage {
	p := &sheetPage{w: w, from: w.page, ask: w.usualSheet(), press: press}
	p.m.gate = make(chan struct{}, 1)
	if p.draft() != nil {
		w.guardSheet()
	}
	p.build()
	w.turnTo(p)
	return p
}

// addSheetActions lists what leads to the page and what is done there.
func (w *Window) addSheetActions() {
	on := func() bool { return w.sheetUp() != nil }
	may := func() bool { // what is not kept is asked about on the way
		d, ok := w.page.(drafted)
		return on() || !ok || !d.unsaved()
	}
	do := func(what func(*sheetPage)) func() {
		return func() {
			if !on() {
				w.sheetToggle()
			}
			what(w.sheetUp())
		}
	}
	w.acts.add(
		&Action{ID: "sheet", Label: say.T("Layout sheet"), Short: say.T("Sheet"), Icon: icon("sheet"), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyE)}, Hint: say.T("The sheet for the bench as it will be printed: choose, look, save, print."), On: on, Do: w.sheetToggle},
		&Action{ID: "sheet-save", Label: say.T("Save the layout sheet…"), Short: say.T("Save sheet"), Icon: theme.DownloadIcon(), Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyE)}, Hint: say.T("As PDF, as pictures, as drawings in true size, or as a cutting list."), Can: may, Do: do((*sheetPage).save)},
		&Action{ID: "sheet-print", Label: say.T("Print the layout sheet"), Short: say.T("Print"), Icon: theme.DocumentPrintIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyP)}, Hint: say.T("Opens it in the system's viewer, which prints."), Can: may, Do: do((*sheetPage).print)},
	)
}

// build makes what is shown, for the size of text there is.
func (p *sheetPage) build() {
	w := p.w
	p.list, p.view = newSheetList(p), newSheetView(p)
	p.none = wrapped("", widget.MediumImportance)
	p.none.Alignment = fyne.TextAlignCenter
	p.head = newSheetHead(p)
	p.side = newSheetSide(p)
	none := container.New(layout.NewCustomPaddedVBoxLayout(0), layout.NewSpacer(), p.none, layout.NewSpacer())
	lay := layout.NewBorderLayout(p.head.box, nil, nil, nil)
	work := container.New(lay, p.head.box, container.NewStack(p.view, none)) // in the order of the Tab key
	left := container.New(layout.NewBorderLayout(nil, nil, p.list.all, nil), p.list.all, container.NewPadded(work))
	p.all = container.New(sideLayout{column: w.columnWidth}, left, p.side.box)
}

// gone reports whether the page was left.
func (p *sheetPage) gone() bool { return p.w.work.Err() != nil || p.w.page != page(p) }

// content implements page.
func (p *sheetPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *sheetPage) home() fyne.Focusable { return p.view }

// row implements page.
func (p *sheetPage) row() []string { return []string{"sheet-save", "sheet-print"} }

// hint implements page.
func (p *sheetPage) hint() string {
	if p.view != nil && p.view.larger() {
		return say.T("Arrows, the wheel or a drag move the page. 0: all of it. PgUp and PgDn: another page. Enter saves, P prints, Esc goes back.")
	}
	return say.T("PgUp and PgDn: another page. + and −: zoom. G: in grey. Enter saves, P prints, C copies the code. Esc goes back.")
}

// show implements page.
func (p *sheetPage) show() {
	if p.w.page == page(p) && !p.w.ses.Previewing() {
		p.follow()
		p.shown()
	}
}

// follow makes the sheet anew where what it rests on has changed.
func (p *sheetPage) follow() {
	if p.restsOn() != p.m.of {
		p.gather()
	}
}

// shown brings all parts up to date.
func (p *sheetPage) shown() {
	if p.gone() {
		return
	}
	text := p.instead()
	if p.none.Text != text {
		p.none.SetText(text)
	}
	setShown(p.none, text != "")
	p.list.show()
	if p.m.doc != nil {
		p.view.put(p.m.doc.Pages[p.at])
	} else {
		p.view.put(nil)
	}
	p.head.show()
	p.side.show()
}

// instead is what stands in the place of pages where there are none.
func (p *sheetPage) instead() string {
	switch m := &p.m; {
	case m.wrong != "":
		return "⚠ " + m.wrong
	case m.doc != nil:
		return ""
	case m.halted:
		return say.T("Stopped before there were pages. M makes them.")
	}
	return say.T("Making the pages…")
}

// pageWords names the page in hand.
func (p *sheetPage) pageWords() string {
	if p.m.doc == nil {
		return p.instead()
	}
	return say.F("%s · %s of %s", pageTitle(p.m.doc, p.at), itoa(p.at+1), say.Count(len(p.m.doc.Pages), say.T("page"), say.T("pages")))
}

// take takes a page in hand.
func (p *sheetPage) take(i int) {
	if p.m.doc == nil {
		return
	}
	i = min(max(i, 0), len(p.m.doc.Pages)-1)
	if i != p.at {
		p.at = i
		p.shown()
	}
	p.w.say("")
}

// restyled implements page.
func (p *sheetPage) restyled() {
	p.other = true
	p.build()
	p.w.turnTo(p)
	p.shown()
	p.redraw()
}

// reveal implements page.
func (p *sheetPage) reveal(o fyne.CanvasObject) {
	for _, in := range inside(p.side.body) {
		if in == o {
			into(p.side.scroll, o)
			return
		}
	}
}

// back implements page: Escape leaves the code of an old sheet, then the page.
func (p *sheetPage) back() (page, bool) {
	if c := p.side.code; p.w.win.Canvas().Focused() == fyne.Focusable(c.old) && c.old.Text != "" {
		p.w.takeKeys()
		return nil, true
	}
	if from := p.from; p.other && from != nil && from != page(p.w.rack) {
		p.w.post(func() {
			if p.w.page == from {
				from.restyled()
			}
		})
	}
	return p.from, false
}

// left ends the making as the page is left.
func (p *sheetPage) left(to page) {
	p.m.turn++
	p.m.halt()
	p.m.of, p.m.then = "", nil
	if to == nil { // not back to what is under the page
		switch under := p.from.(type) {
		case *arrangePage:
			under.stop()
		case *matchPage:
			under.stop()
		}
	}
}

// liesOver reports whether a page is a sheet over another one, which waits there.
func liesOver(p, under page) bool {
	s, ok := p.(*sheetPage)
	return ok && s.from == under
}
