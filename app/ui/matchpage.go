package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// matchPage shows which edges go together: pairs of strips as pictures, laid
// about their joint, and book and slip matches of the strip in hand.
type matchPage struct {
	w         *Window
	from      page
	panel     string // id
	strip     string // of the panel, whose book and slip matches are shown; "" none
	only      bool   // only edges of that strip
	touches   []session.TouchWay
	how       session.Touch // chosen for its book and slip matches; zero: as the zones agree best
	edge      session.Edge  // at which they lie
	tolerance float64
	ctx       context.Context
	stop      context.CancelFunc
	of        *model.Project // what is shown was found for
	turn      int            // counts searches: what older ones tell is dropped
	halt      context.CancelFunc
	running   bool
	first     bool   // the first of what is found is taken in hand
	trouble   string // why there is no search
	edges     session.Matches
	leaves    session.Matches
	entries   []*matchEntry
	ways      map[string]int // by entry: which of its ways was chosen
	hatch     bool
	pics      *woodPics
	gallery   *matchGallery
	side      *matchSide
	head      *matchHead
	all       fyne.CanvasObject
}

// addMatchActions lists what leads to the page, and the row from one board.
func (w *Window) addMatchActions() {
	w.acts.add(
		&Action{ID: "match", Label: say.T("Edges that match…"), Short: say.T("Match"), Icon: icon("match"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyM)},
			Hint: say.T("Strips whose sapwood has one width along a joint, and book and slip matches, as pictures."), Can: w.canMatch, Do: func() { w.showMatch() }},
		&Action{ID: "row", Label: say.T("Row from one board…"), Group: groupPanel, Keys: []Chord{ctrlShift(fyne.KeyM)},
			Hint: say.T("Drawer fronts cut from one board so that the grain runs through them."), Can: w.canRow, Do: w.rowAsk},
	)
}

// canMatch reports whether a strip of the panel on screen lies on a board.
func (w *Window) canMatch() bool {
	n := w.panel()
	return n != nil && placed(n) > 0
}

// showMatch shows the page for the panel on screen and begins to search.
func (w *Window) showMatch() *matchPage {
	n := w.panel()
	if n == nil {
		return nil
	}
	p := &matchPage{w: w, from: w.page, panel: n.ID, tolerance: session.UsualTolerance, ways: map[string]int{}}
	if s, ok := n.Strip(w.ses.Selected().Strip); ok && !s.Empty() {
		p.strip = s.ID
	}
	p.ctx, p.stop = context.WithCancel(w.work)
	p.pics = newWoodPics(w, p.ctx, p.gone, func() { p.gallery.drawn() })
	p.gallery = newMatchGallery(p)
	p.build()
	w.turnTo(p)
	return p
}

// build makes what stands round the pictures, for the size of text there is.
func (p *matchPage) build() {
	p.head = newMatchHead(p)
	p.side = newMatchSide(p) // holds part of the head where text is large
	lay := layout.NewBorderLayout(p.head.box, nil, nil, nil)
	work := container.New(lay, p.head.box, p.gallery.all) // in the order of the Tab key
	p.all = container.New(sideLayout{column: p.w.columnWidth}, container.NewPadded(work), p.side.box)
}

// content implements page.
func (p *matchPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *matchPage) home() fyne.Focusable { return p.gallery }

// row implements page.
func (p *matchPage) row() []string { return nil }

// hint implements page.
func (p *matchPage) hint() string {
	return say.T("Arrows: a pair. Enter lays the panel so. O: another way to make room. T: the tolerance. L: how the boards lay. H: zones hatched. Esc goes back.")
}

// show implements page.
func (p *matchPage) show() {
	if p.w.page != page(p) || p.w.ses.Previewing() {
		return
	}
	now := p.w.ses.Committed()
	n := now.Panel(p.panel)
	if n == nil || placed(n) == 0 {
		p.stop()
		p.w.post(func() {
			if p.w.page == page(p) {
				p.w.turnTo(p.from)
			}
		})
		return
	}
	if now != p.of {
		p.search()
		return
	}
	p.gallery.drawn() // pictures may have come in
}

// shown brings all parts up to date.
func (p *matchPage) shown() {
	p.entries = p.gather()
	p.head.show()
	p.gallery.show()
	p.side.show()
}

// restyled implements page.
func (p *matchPage) restyled() {
	p.gallery.forget()
	p.build()
	p.w.turnTo(p)
	p.shown()
}

// reveal implements page.
func (p *matchPage) reveal(o fyne.CanvasObject) {
	for _, in := range inside(p.side.body) {
		if in == o {
			into(p.side.scroll, o)
			return
		}
	}
}

// back implements page.
func (p *matchPage) back() (page, bool) {
	p.stop()
	return p.from, false
}

// gone reports whether the page was left; nothing is done for it then.
func (p *matchPage) gone() bool { return p.ctx.Err() != nil || p.w.page != page(p) }

// keysBack gives the keys to the pictures, unless a question is up.
func (p *matchPage) keysBack() {
	if p.w.page == page(p) && p.w.asks == nil {
		p.w.takeKeys()
	}
}

// button is a button of the page; the keys go back to the pictures after it.
func (p *matchPage) button(text string, do func()) *pageButton {
	return newPageButton(p.w, text, func() {
		do()
		p.keysBack()
	})
}
