package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// arrangePage is the page on which a panel is arranged: what the search finds
// as pictures, beside how the panel lies and what was kept of it.
type arrangePage struct {
	w       *Window
	from    page
	panel   string // id
	whole   bool   // all panels of its set are arranged at once
	begin   func(session.Wish) (searcher, error)
	ctx     context.Context
	stop    context.CancelFunc
	ask     arrangeAsk
	found   session.Found
	shift   ageing             // of the colours in ten years
	restsOn string             // what the search was begun with
	turn    int                // counts searches: what older ones tell is dropped
	halt    context.CancelFunc // ends the search under way
	running bool
	stopped bool   // by the maker
	trouble string // why there is no search
	was     string // said beside the result
	box     foundBox
	weighed map[string]session.Arrangement // by wood and how it lies; nil points while being weighed
	keptOf  *model.Project
	kept    []keptLie
	seen    seeing
	hatch   bool
	ticked  []string // ids of entries
	entries []*layEntry
	gallery *arrangeGallery
	side    *arrangeSide
	head    *arrangeHead
	all     fyne.CanvasObject
}

// arrangeAsk is what is asked of the search.
type arrangeAsk struct {
	look               model.Look
	roll, turn, spares bool
	change             bool // strips may change panels of a set
}

// addArrangeActions lists what leads to the page.
func (w *Window) addArrangeActions() {
	w.acts.add(&Action{ID: "arrange", Label: say.T("Arrange for me…"), Short: say.T("Arrange"), Icon: icon("arrange"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyG)},
		Hint: say.T("Looks for better ways to lay the strips there are, and shows them as pictures."), Can: w.canArrange, Do: w.showArrange})
}

// canArrange reports whether a strip of the panel on screen lies on a board.
func (w *Window) canArrange() bool {
	n := w.panel()
	if n == nil {
		return false
	}
	for i := range n.Strips {
		if !n.Strips[i].Empty() {
			return true
		}
	}
	return false
}

// showArrange shows the page for the panel on screen and begins to search.
func (w *Window) showArrange() { w.showArrangeWith(w.beginSearch) }

func (w *Window) showArrangeWith(begin func(session.Wish) (searcher, error)) *arrangePage {
	n := w.panel()
	if n == nil {
		return nil
	}
	p := &arrangePage{w: w, from: w.page, panel: n.ID, begin: begin, weighed: map[string]session.Arrangement{}}
	p.ctx, p.stop = context.WithCancel(w.work)
	p.ask = arrangeAsk{look: lookToAsk(n.Look, w.ses.Panel(n.ID).Wanted), roll: true, turn: true, spares: false}
	_, p.ask.change = w.ses.MayChange(n.ID)
	p.gallery = newArrangeGallery(p)
	p.build()
	w.turnTo(p)
	p.search()
	return p
}

// build makes what stands round the pictures, for the size of text there is.
func (p *arrangePage) build() {
	p.head = newArrangeHead(p)
	p.side = newArrangeSide(p) // holds part of the head where text is large
	lay := layout.NewBorderLayout(p.head.box, nil, nil, nil)
	work := container.New(lay, p.head.box, p.gallery.all) // in the order of the Tab key
	p.all = container.New(sideLayout{column: p.w.columnWidth}, container.NewPadded(work), p.side.box)
}

// wantSap reports whether dark wood is the unwanted one.
func (p *arrangePage) wantSap() bool {
	n := p.w.ses.Panel(p.panel)
	return n != nil && n.Wanted == face.WantSap
}

// content implements page.
func (p *arrangePage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *arrangePage) home() fyne.Focusable { return p.gallery }

// row implements page.
func (p *arrangePage) row() []string { return nil }

// hint implements page.
func (p *arrangePage) hint() string {
	if p.gallery.comparing {
		return say.T("Arrows: one of them. Enter uses it. V: seen otherwise. C or Esc: all arrangements again.")
	}
	return say.T("Arrows or 0 to 5: an arrangement. Enter uses it. K keeps it, Space ticks it, C compares what is ticked, V: seen otherwise. Esc goes back.")
}

// show implements page.
func (p *arrangePage) show() {
	if p.w.page != page(p) {
		return
	}
	n := p.w.ses.Project().Panel(p.panel)
	if n == nil || !p.w.ses.Previewing() && !p.any(n) {
		p.stop()
		p.w.post(func() {
			if p.w.page == page(p) {
				p.w.turnTo(p.from)
			}
		})
		return
	}
	if _, ok := p.set(); p.whole && !ok { // the set is no more
		p.takeWhole(false)
		return
	}
	if p.turn > 0 && p.restsOnNow() != p.restsOn {
		p.search()
		return
	}
	p.shown()
}

// any reports whether a strip of the panel still lies on a board.
func (p *arrangePage) any(n *model.Panel) bool {
	for i := range n.Strips {
		if !n.Strips[i].Empty() {
			return true
		}
	}
	return false
}

// shown brings all parts up to date.
func (p *arrangePage) shown() {
	p.entries = p.gather()
	p.head.show()
	p.gallery.show()
	p.side.show()
}

// restyled implements page.
func (p *arrangePage) restyled() {
	p.gallery.forget()
	p.build()
	p.w.turnTo(p)
}

// reveal implements page.
func (p *arrangePage) reveal(o fyne.CanvasObject) {
	for _, in := range inside(p.side.body) {
		if in == o {
			into(p.side.scroll, o)
			return
		}
	}
}

// back implements page: Escape ends a comparison, then the search, then leaves.
func (p *arrangePage) back() (page, bool) {
	switch {
	case p.gallery.comparing:
		p.compare(false)
		return nil, true
	case p.running:
		p.end()
		return nil, true
	}
	p.stop()
	return p.from, false
}

// button is a button of the page; the keys go back to the pictures after it.
func (p *arrangePage) button(text string, do func()) *pageButton {
	return newPageButton(p.w, text, func() {
		do()
		p.keysBack()
	})
}

// keysBack gives the keys to the pictures, unless a question is up.
func (p *arrangePage) keysBack() {
	if p.w.page == page(p) && p.w.asks == nil {
		p.w.takeKeys()
	}
}
