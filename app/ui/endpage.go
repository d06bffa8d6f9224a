package ui

import (
	"context"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"heartside/model"
	"heartside/model/say"
)

// endStep is what is marked on the photograph of an end.
type endStep int

const (
	endCorners endStep = iota // where the section lies in the photograph
	endPith                   // where the pith is
	endHeart                  // how far the heartwood reaches
)

// endPage is the page on which the photograph of an end is read: corners of
// the section, pith, border of the heartwood. What is done there is a draft
// with its own undo; keeping it is one change of the project.
type endPage struct {
	w         *Window
	from      page // where Escape leads
	board     string
	end       int     // 0 the marked end, 1 the other
	width     float64 // of the section, mm
	thickness float64
	length    float64 // of the board, mm
	means     endMeans
	ctx       context.Context
	stop      context.CancelFunc
	base      model.End // as the project has it
	img       image.Image
	step      endStep
	making    string // what is being made ready, "" nothing
	trouble   string // why there is nothing to see, "" nothing
	now       endDraft
	saved     endDraft
	past      []endDraft
	ahead     []endDraft
	got       endAnswer // what was read for the draft as it is
	asked     endAsk    // what it was read from
	ends      func()    // stops the reading under way
	reading   bool
	pic       *endCanvas
	bar       *endBar
	side      *endSide
	all       fyne.CanvasObject
}

// openEnd opens the photograph of an end, 0 the marked one.
func (w *Window) openEnd(board string, end int) {
	w.showEnd(board, end, realEndMeans())
}

// showEnd shows the page of an end.
func (w *Window) showEnd(board string, end int, means endMeans) *endPage {
	b := w.ses.Project().Board(board)
	if b == nil || end < 0 || end > 1 || b.Ends[end].Photo == "" {
		return nil
	}
	w.guardEnds()
	p := &endPage{w: w, from: w.page, board: board, end: end, width: b.Width, thickness: b.Thickness, length: b.Length, means: means, base: b.Ends[end]}
	if was, ok := w.page.(*endPage); ok {
		p.from = was.from
		was.stop()
	}
	p.ctx, p.stop = context.WithCancel(w.work)
	if c := p.base.Corners; c != nil {
		p.now.lie.at = append(p.now.lie.at, c[:]...)
	}
	p.saved = p.now
	p.pic = newEndCanvas(p)
	p.build()
	w.turnTo(p)
	p.open()
	return p
}

// build makes what stands round the picture, for the size of text there is.
func (p *endPage) build() {
	p.bar, p.side = newEndBar(p), newEndSide(p)
	work := container.NewBorder(p.bar.box, nil, nil, nil, p.pic)
	p.all = container.New(sideLayout{column: p.w.columnWidth}, container.NewPadded(work), p.side.box)
}

// content implements page.
func (p *endPage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *endPage) home() fyne.Focusable { return p.pic }

// row implements page.
func (p *endPage) row() []string { return nil }

// reveal implements page.
func (p *endPage) reveal(o fyne.CanvasObject) {
	for _, t := range p.side.ticks {
		if o == fyne.CanvasObject(t) {
			into(p.side.scroll, o)
		}
	}
}

// hint implements page.
func (p *endPage) hint() string {
	switch {
	case p.trouble != "":
		return p.trouble
	case p.making != "":
		return p.making
	case p.step == endCorners && len(p.now.lie.at) < 4:
		return say.F("Click corner %s of 4: %s. F lets the program look for them. Esc goes back.", itoa(len(p.now.lie.at)+1), endCornerNames()[len(p.now.lie.at)])
	case p.step == endCorners:
		return say.T("Drag a corner, or 1 to 4 and arrows. Ctrl: no snapping. Wheel: zoom. Enter uses the corners. Esc goes back.")
	case p.step == endPith:
		return say.T("Click three points or more of one ring, far apart. N begins another ring. By key: arrows, Space clicks. Enter goes on. Esc goes back.")
	}
	return say.T("Click three points or more where heartwood meets sapwood, or X: no border seen. By key: arrows, Space clicks. Enter keeps. Esc goes back.")
}

// show implements page: it follows the session, and says what is so now.
func (p *endPage) show() {
	if p.followed() {
		return
	}
	p.bar.show()
	p.side.show()
	if p.w.page == page(p) { // undo and redo are those of the page
		p.w.row.show()
		p.w.menus.show(p.w)
	}
}

// followed leaves or begins anew where the session holds another end now.
func (p *endPage) followed() bool {
	if p.w.page != page(p) {
		return false
	}
	b := p.w.ses.Project().Board(p.board)
	gone := b == nil || b.Ends[p.end].Photo != p.base.Photo || b.Length != p.length || b.Width != p.width || b.Thickness != p.thickness
	if !gone && sameEnd(b.Ends[p.end], p.base) {
		return false
	}
	if !gone && p.unsaved() {
		return false
	}
	if !gone {
		p.base = b.Ends[p.end]
	}
	p.w.post(func() {
		switch {
		case p.w.page != page(p):
		case gone:
			p.stop()
			p.w.turnTo(p.from)
		default:
			p.w.showEnd(p.board, p.end, p.means)
		}
	})
	return true
}

func sameEnd(a, b model.End) bool {
	if a.Photo != b.Photo || (a.Corners == nil) != (b.Corners == nil) {
		return false
	}
	return a.Corners == nil || *a.Corners == *b.Corners
}

// restyled implements page.
func (p *endPage) restyled() {
	p.build()
	p.pic.Refresh()
	p.w.turnTo(p)
}

// turn shows another step; the corners are needed for those after them.
func (p *endPage) turn(s endStep) {
	if s == p.step || p.making != "" {
		return
	}
	if s != endCorners {
		if why := p.now.bad(); why != "" {
			p.w.say(why)
			return
		}
	}
	p.pic.settle()
	p.pic.letGo()
	p.step = s
	if s == endCorners {
		p.pic.all()
	} else {
		p.pic.near()
		p.read()
	}
	p.show()
	p.pic.Refresh()
	p.w.takeKeys()
	p.w.say("")
}

// button is a button of the page; the keys go back to the picture after it.
func (p *endPage) button(text string, do func()) *pageButton {
	return newPageButton(p.w, text, func() {
		do()
		if p.w.page == page(p) && p.w.asks == nil {
			p.w.takeKeys()
		}
	})
}

// place names the end in a message.
func (p *endPage) place() string { return say.F("Board %s, %s", p.board, endName(p.end)) }

// endName names an end, 0 the marked one.
func endName(end int) string {
	if end == 0 {
		return say.T("marked end")
	}
	return say.T("other end")
}
