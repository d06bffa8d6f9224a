package ui

import (
	"context"
	"image"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// faceStep is what is looked at on the page of a face.
type faceStep int

const (
	stepCorners faceStep = iota // where the board lies in the photograph
	stepZones                   // where sapwood, heartwood and flaws lie on it
)

// facePage is the page on which a photographed face is looked at and
// corrected. What is done there is a draft of its own, with its own undo; it
// becomes one change of the project.
type facePage struct {
	w       *Window
	from    page // where Escape leads
	board   string
	face    int
	length  float64 // of the board, mm
	width   float64
	means   faceMeans
	ctx     context.Context
	stop    context.CancelFunc
	base    model.Face // as the project has it
	img     image.Image
	step    faceStep
	making  string // what is being made ready, "" nothing
	trouble string // why there is nothing to see, "" nothing
	ready   func() // done once the face is made ready
	saved   savedFace
	corners *faceCorners
	zones   *faceZones
	bar     *faceBar
	side    *faceSide
	note    *faceNote
	room    *fyne.Container
	all     fyne.CanvasObject
}

// showFace shows the page of a face.
func (w *Window) showFace(board string, face int, means faceMeans) *facePage {
	b := w.ses.Project().Board(board)
	if b == nil {
		return nil
	}
	w.guardFaces()
	p := &facePage{w: w, from: w.page, board: board, face: face, length: b.Length, width: b.Width, means: means, base: b.Faces[face-1], step: stepZones}
	if was, ok := w.page.(*facePage); ok {
		p.from = was.from
		was.stop()
	}
	p.ctx, p.stop = context.WithCancel(w.work)
	p.corners, p.zones = newFaceCorners(p), newFaceZones(p)
	p.room = container.NewStack()
	p.build()
	p.corners.begin()
	p.saved.lie = p.corners.lie
	if p.base.Corners == nil {
		p.step = stepCorners
	}
	p.turned()
	w.turnTo(p)
	p.open()
	return p
}

// build makes what stands round the picture, for the size of text there is.
func (p *facePage) build() {
	p.bar = newFaceBar(p)
	p.side, p.note = newFaceSide(p), newFaceNote(p)
	foot := container.New(stackLayout{}, p.note.box, p.bar.foot)
	work := container.NewBorder(p.bar.box, foot, nil, nil, p.room)
	p.all = container.New(sideLayout{column: p.w.columnWidth}, container.NewPadded(work), p.side.box)
}

// content implements page.
func (p *facePage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *facePage) home() fyne.Focusable {
	if p.step == stepCorners {
		return p.corners.pic
	}
	return p.zones.canvas
}

// row implements page.
func (p *facePage) row() []string { return nil }

// hint implements page.
func (p *facePage) hint() string {
	switch {
	case p.making != "":
		return p.making
	case p.step == stepCorners && p.corners.tape.on:
		return p.corners.tape.hint()
	case p.step == stepCorners:
		return say.T("Drag a corner, or 1 to 4 and arrows. Ctrl: no snapping. Wheel: zoom. Enter uses the corners. Esc goes back.")
	}
	switch p.zones.hand.mode {
	case modeTeach:
		return say.F("Draw on %s: the whole face follows. [ and ] change the width. By key: arrows, Space begins and ends. Esc ends.", labelWords(p.zones.hand.kind))
	case modePaint:
		return say.F("Paint %s: only what lies under the brush changes. [ and ] change the width. Esc ends.", labelWords(p.zones.hand.kind))
	case modePolygon:
		return say.F("Click the corners of the %s; the first one again, a double click or Enter closes it. Esc ends.", labelWords(p.zones.hand.kind))
	case modeLine:
		return say.T("Click the border between heartwood and sapwood at two places: between them it becomes straight. Esc ends.")
	}
	return say.T("S, H, F or U and draw: what the wood is there. Drag moves the view, the wheel zooms. Enter: it looks right. Esc goes back.")
}

// turn shows the other step; the corners are used before zones are looked at.
func (p *facePage) turn(s faceStep) {
	if s == p.step {
		return
	}
	if s == stepZones {
		p.corners.use(nil)
		return
	}
	p.zones.drop()
	p.step = s
	p.turned()
	p.w.takeKeys()
	p.w.say("")
}

// turned shows the step that is on.
func (p *facePage) turned() {
	var o fyne.CanvasObject = p.zones.canvas
	if p.step == stepCorners {
		o = p.corners.pic
		p.corners.judge()
	}
	p.room.Objects = []fyne.CanvasObject{o}
	p.room.Refresh()
	p.show()
}

// show implements page: it follows the session, and says what is so now.
func (p *facePage) show() {
	if p.followed() {
		return
	}
	p.bar.show()
	p.side.show()
	p.note.show()
	if p.w.page == page(p) { // undo and redo are those of the page
		p.w.row.show()
		p.w.menus.show(p.w)
	}
}

// followed leaves or begins anew where the session holds another face now.
func (p *facePage) followed() bool {
	b := p.w.ses.Project().Board(p.board)
	if p.w.page != page(p) {
		return false
	}
	if b == nil || b.Faces[p.face-1].Photo != p.base.Photo || b.Length != p.length || b.Width != p.width {
		p.stop()
		p.w.post(func() {
			if p.w.page == page(p) {
				p.w.turnTo(p.from)
			}
		})
		return true
	}
	if now := b.Faces[p.face-1]; !reflect.DeepEqual(now, p.base) && !p.unsaved() {
		p.w.post(func() {
			if p.w.page == page(p) {
				p.w.showFace(p.board, p.face, p.means)
			}
		})
		p.base = now
		return true
	}
	return false
}

// restyled implements page.
func (p *facePage) restyled() {
	p.build()
	p.zones.canvas.renew()
	p.corners.pic.Refresh()
	p.w.turnTo(p)
}

// button is a button of the page; the keys go back to the picture after it.
func (p *facePage) button(text string, do func()) *pageButton {
	return newPageButton(p.w, text, func() {
		do()
		if p.w.page == page(p) && p.w.asks == nil {
			p.w.takeKeys()
		}
	})
}

// other shows the other face of the board.
func (p *facePage) other() { p.faceOf(3 - p.face) }

func (p *facePage) faceOf(n int) {
	if n != p.face {
		p.leave(func() { p.w.openFace(p.board, n) })
	}
}

// hasOther reports whether the other face has a photograph.
func (p *facePage) hasOther() bool {
	b := p.w.ses.Project().Board(p.board)
	return b != nil && b.Faces[2-p.face].Photo != ""
}

// faceNote is the line under the picture that tells of a stroke that changed
// more than its surroundings.
type faceNote struct {
	p    *facePage
	box  *fyne.Container
	text *widget.Label
}

func newFaceNote(p *facePage) *faceNote {
	n := &faceNote{p: p, text: wrapped("", widget.WarningImportance)}
	n.text.TextStyle.Bold = true
	text := least(30, n.text)
	n.box = flow([]fyne.CanvasObject{text, p.button(say.T("Only near the stroke (N)"), p.zones.nearOnly), p.button(say.T("Take back (Ctrl+Z)"), p.zones.undo)}, text)
	n.box.Hide()
	return n
}

func (n *faceNote) show() {
	z := n.p.zones
	on := n.p.step == stepZones && z.reachedFar()
	if on {
		n.text.SetText(say.F("⚠ The split also changed away from your stroke (%s of the face).", whole(z.work.now.changed.Far)))
	}
	if on != n.box.Visible() {
		setShown(n.box, on)
		n.p.all.Refresh()
	}
}
