package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"

	"heartside/layout/geom"
	"heartside/layout/photo/outline"
)

// imageOf is a picture as the readers of boards take it.
type imageOf = image.Image

// facePicker shows the photograph with the four corners. A dragged corner
// snaps to where edges meet; a glass away from the pointer shows it large.
// By key: 1 to 4 takes a corner in hand, arrows move it, with Shift further.
type facePicker struct {
	widget.BaseWidget
	c       *faceCorners
	small   *image.RGBA // the picture made small, for when all of it shows
	ground  *image.RGBA // the photograph as it lies in the view
	drawn   pickDrawn
	out     *image.RGBA // with the edges
	glass   *image.RGBA
	view    cornerView
	hand    int // corner in hand, -1 none
	held    bool
	grip    geom.Point // from the press to the corner, units
	start   faceLie    // as a drag or a run of arrows began
	walking bool
	panned  bool
	last    geom.Point // of the pointer
	focused bool
}

var (
	_ desktop.Mouseable  = (*facePicker)(nil)
	_ desktop.Hoverable  = (*facePicker)(nil)
	_ desktop.Keyable    = (*facePicker)(nil)
	_ desktop.Cursorable = (*facePicker)(nil)
	_ fyne.Draggable     = (*facePicker)(nil)
	_ fyne.Scrollable    = (*facePicker)(nil)
	_ fyne.Focusable     = (*facePicker)(nil)
)

// mostSmall is the longer side of the small picture, pixels.
const mostSmall = 1600

// snapUnits is how far a dragged corner looks for edges, units of the screen,
// and mostSnap how many pixels of the picture that may be: more would not
// follow the hand. Engineering choices.
const (
	snapUnits = 14
	mostSnap  = 22
)

func newFacePicker(c *faceCorners) *facePicker {
	p := &facePicker{c: c, hand: -1}
	p.view = cornerView{pic: geom.Pt(1, 1), zoom: 1}
	p.ExtendBaseWidget(p)
	return p
}

// smallOf makes a picture small for the screen; beside the window, it takes a
// while.
func smallOf(img image.Image) *image.RGBA {
	b := img.Bounds()
	k := max(float64(max(b.Dx(), b.Dy()))/mostSmall, 1)
	out := image.NewRGBA(image.Rect(0, 0, max(int(float64(b.Dx())/k), 1), max(int(float64(b.Dy())/k), 1)))
	draw.BiLinear.Scale(out, out.Rect, img, b, draw.Src, nil)
	return out
}

// put shows a picture.
func (p *facePicker) put(img image.Image, small *image.RGBA) {
	p.small = small
	p.view.pic = geom.Pt(float64(img.Bounds().Dx()), float64(img.Bounds().Dy()))
	p.view.zoom = 1
	p.view.hold()
	p.Refresh()
}

// MouseDown implements desktop.Mouseable.
func (p *facePicker) MouseDown(ev *desktop.MouseEvent) {
	p.c.p.w.win.Canvas().Focus(p)
	p.settle()
	p.last = point(ev.Position)
	if ev.Button != desktop.MouseButtonPrimary || p.small == nil {
		p.panned = true
		return
	}
	if p.c.tape.on {
		p.panned = !p.c.tape.press(p.last)
		return
	}
	lie := p.c.lie
	p.hand, p.held, p.start, p.grip = -1, false, lie, geom.Point{}
	for i, c := range lie.at {
		at := p.view.toRoom(c)
		if d := at.Dist(p.last); d < cornerReach && (p.hand < 0 || d < p.grip.Len()) {
			p.hand, p.grip = i, at.Sub(p.last)
		}
	}
	if n := len(lie.at); p.hand < 0 && n < 4 {
		p.hand = n
		p.c.follow(lie.with(n, p.snapped(p.view.inside(p.view.toPic(p.last)))))
	}
	p.held, p.panned = p.hand >= 0, p.hand < 0
	p.c.shown()
}

// MouseUp implements desktop.Mouseable.
func (p *facePicker) MouseUp(*desktop.MouseEvent) {
	p.c.tape.release()
	if p.held {
		p.held = false
		p.c.keep(p.start)
	}
	p.panned = false
}

// Dragged implements fyne.Draggable.
func (p *facePicker) Dragged(ev *fyne.DragEvent) { p.move(point(ev.Position)) }

// DragEnd implements fyne.Draggable; the release came before it.
func (p *facePicker) DragEnd() {}

// MouseIn implements desktop.Hoverable.
func (p *facePicker) MouseIn(*desktop.MouseEvent) {}

// MouseMoved pans with the right button, which drags nothing in the toolkit.
func (p *facePicker) MouseMoved(ev *desktop.MouseEvent) {
	if p.panned {
		p.move(point(ev.Position))
	}
}

// MouseOut implements desktop.Hoverable.
func (p *facePicker) MouseOut() {}

func (p *facePicker) move(to geom.Point) {
	switch {
	case p.c.tape.held:
		p.c.tape.drag(to)
	case p.held:
		p.c.follow(p.c.lie.with(p.hand, p.snapped(p.view.inside(p.view.toPic(to.Add(p.grip))))))
	case p.panned:
		p.view.moved(to.Sub(p.last))
		p.Refresh()
	}
	p.last = to
}

// snapped brings a corner to where edges meet near it, unless snapping is off,
// Ctrl is held or the board has no straight sides.
func (p *facePicker) snapped(at geom.Point) geom.Point {
	if !p.c.snap || p.c.lie.waney || p.c.p.img == nil || p.c.p.w.surf.mods().Control {
		return at
	}
	radius := min(max(snapUnits/p.view.scale(), 6), mostSnap)
	if q, ok := outline.SnapCorner(p.c.p.img, at, radius); ok {
		return p.view.inside(q)
	}
	return at
}

// Scrolled implements fyne.Scrollable.
func (p *facePicker) Scrolled(ev *fyne.ScrollEvent) {
	by := 1.25
	if ev.Scrolled.DY < 0 {
		by = 1 / by
	}
	p.zoom(point(ev.Position), by)
}

func (p *facePicker) zoom(at geom.Point, by float64) {
	p.view.zoomed(at, by)
	p.Refresh()
}

// middle is where the keys zoom: at the corner in hand, else in the middle.
func (p *facePicker) middle() geom.Point {
	if at, ok := p.inHand(); ok {
		return p.view.toRoom(at)
	}
	return p.view.room.Mul(0.5)
}

// take takes a corner in hand by key; the next one not set yet is set in the
// middle of the view.
func (p *facePicker) take(i int) {
	p.settle()
	if p.small == nil {
		return
	}
	if i == len(p.c.lie.at) {
		p.c.set(p.c.lie.with(i, p.view.at))
	}
	if i < len(p.c.lie.at) {
		p.hand = i
		p.c.shown()
	}
}

// walk moves the corner in hand by units of the screen; a run of arrows is one
// act. Without one it moves the view.
func (p *facePicker) walk(by geom.Point) {
	if p.c.tape.on && p.c.tape.walk(by.Mul(p.arrowStep())) {
		return
	}
	if p.hand < 0 || p.hand >= len(p.c.lie.at) {
		p.view.moved(by.Mul(-40))
		p.Refresh()
		return
	}
	if !p.walking {
		p.walking, p.start = true, p.c.lie
	}
	p.c.follow(p.c.lie.with(p.hand, p.view.inside(p.c.lie.at[p.hand].Add(by.Mul(p.arrowStep())))))
}

// settle ends a run of arrows.
func (p *facePicker) settle() {
	if p.walking {
		p.walking = false
		p.c.keep(p.start)
	}
}

// letGo drops a drag, then lets the corner in hand go; false where there was
// nothing.
func (p *facePicker) letGo() bool {
	switch {
	case p.held:
		p.held = false
		p.c.follow(p.start)
	case p.hand >= 0:
		p.settle()
		p.hand = -1
		p.c.shown()
	default:
		return false
	}
	return true
}

// all shows the whole picture.
func (p *facePicker) all() {
	p.view.zoom = 1
	p.view.hold()
	p.Refresh()
}

// Cursor implements desktop.Cursorable.
func (p *facePicker) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// FocusGained implements fyne.Focusable.
func (p *facePicker) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost implements fyne.Focusable.
func (p *facePicker) FocusLost() { p.focused = false; p.settle(); p.Refresh() }

// KeyDown implements desktop.Keyable.
func (p *facePicker) KeyDown(*fyne.KeyEvent) {}

// KeyUp ends a run of arrows.
func (p *facePicker) KeyUp(ev *fyne.KeyEvent) {
	if _, arrow := arrows(ev.Name); arrow {
		p.settle()
	}
}

// TypedKey implements fyne.Focusable.
func (p *facePicker) TypedKey(ev *fyne.KeyEvent) { p.c.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (p *facePicker) TypedRune(r rune) { p.c.p.sign(r) }

// arrows is the direction of an arrow key, y down.
func arrows(k fyne.KeyName) (geom.Point, bool) {
	switch k {
	case fyne.KeyLeft:
		return geom.Pt(-1, 0), true
	case fyne.KeyRight:
		return geom.Pt(1, 0), true
	case fyne.KeyUp:
		return geom.Pt(0, -1), true
	case fyne.KeyDown:
		return geom.Pt(0, 1), true
	}
	return geom.Point{}, false
}
