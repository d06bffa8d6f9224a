package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
)

// cornerPicker shows a picture and lets four corners be clicked and dragged.
// The wheel zooms at the pointer; the middle or right button moves the view.
// By key: 1 to 4 takes a corner in hand or sets it in the middle of the view,
// arrows move it, + and - zoom, 0 shows all.
type cornerPicker struct {
	widget.BaseWidget
	w       *Window
	src     *image.RGBA
	out     *image.RGBA
	view    cornerView
	corners []geom.Point // pixels of the picture shown
	names   [4]string
	held    int // corner being dragged, -1 none
	hand    int // corner the keys move, -1 none
	panned  bool
	last    geom.Point // of the pointer
	focused bool
	changed func()
}

var (
	_ desktop.Mouseable  = (*cornerPicker)(nil)
	_ desktop.Hoverable  = (*cornerPicker)(nil)
	_ desktop.Cursorable = (*cornerPicker)(nil)
	_ fyne.Draggable     = (*cornerPicker)(nil)
	_ fyne.Scrollable    = (*cornerPicker)(nil)
	_ fyne.Focusable     = (*cornerPicker)(nil)
)

func newCornerPicker(w *Window, src *image.RGBA) *cornerPicker {
	p := &cornerPicker{w: w, src: src, held: -1, hand: -1}
	p.view = cornerView{pic: geom.Pt(float64(src.Rect.Dx()), float64(src.Rect.Dy())), zoom: 1}
	p.ExtendBaseWidget(p)
	return p
}

// cornerReach is how near a press takes hold of a corner, units.
const cornerReach = 14

func point(p fyne.Position) geom.Point { return geom.Pt(float64(p.X), float64(p.Y)) }

// MouseDown implements desktop.Mouseable.
func (p *cornerPicker) MouseDown(ev *desktop.MouseEvent) {
	p.w.win.Canvas().Focus(p)
	p.last = point(ev.Position)
	if ev.Button != desktop.MouseButtonPrimary {
		p.panned = true
		return
	}
	p.held = -1
	for i, c := range p.corners {
		if p.view.toRoom(c).Dist(p.last) < cornerReach {
			p.held = i
		}
	}
	if p.held < 0 && len(p.corners) < 4 {
		p.corners = append(p.corners, p.view.inside(p.view.toPic(p.last)))
		p.held = len(p.corners) - 1
	}
	p.hand = p.held
	p.panned = p.held < 0 // all are set: the press moves the view
	p.tell()
}

// MouseUp implements desktop.Mouseable.
func (p *cornerPicker) MouseUp(*desktop.MouseEvent) { p.held, p.panned = -1, false }

// Dragged implements fyne.Draggable.
func (p *cornerPicker) Dragged(ev *fyne.DragEvent) { p.move(point(ev.Position)) }

// DragEnd implements fyne.Draggable.
func (p *cornerPicker) DragEnd() { p.held, p.panned = -1, false }

// MouseIn implements desktop.Hoverable.
func (p *cornerPicker) MouseIn(*desktop.MouseEvent) {}

// MouseMoved pans with the right button, which drags nothing in the toolkit.
func (p *cornerPicker) MouseMoved(ev *desktop.MouseEvent) {
	if p.panned {
		p.move(point(ev.Position))
	}
}

// MouseOut implements desktop.Hoverable.
func (p *cornerPicker) MouseOut() {}

func (p *cornerPicker) move(to geom.Point) {
	switch {
	case p.held >= 0:
		p.corners[p.held] = p.view.inside(p.view.toPic(to))
		p.tell()
	case p.panned:
		p.view.moved(to.Sub(p.last))
		p.Refresh()
	}
	p.last = to
}

// Scrolled implements fyne.Scrollable.
func (p *cornerPicker) Scrolled(ev *fyne.ScrollEvent) {
	by := 1.25
	if ev.Scrolled.DY < 0 {
		by = 1 / by
	}
	p.zoom(point(ev.Position), by)
}

func (p *cornerPicker) zoom(at geom.Point, by float64) {
	p.view.zoomed(at, by)
	p.Refresh()
}

// middle is where the keys zoom: at the corner in hand, else in the middle.
func (p *cornerPicker) middle() geom.Point {
	if p.hand >= 0 && p.hand < len(p.corners) {
		return p.view.toRoom(p.corners[p.hand])
	}
	return p.view.room.Mul(0.5)
}

// startOver takes all corners away.
func (p *cornerPicker) startOver() {
	p.corners, p.held, p.hand = nil, -1, -1
	p.view.zoom = 1
	p.view.hold()
	p.tell()
}

// put sets the corners without telling anyone.
func (p *cornerPicker) put(list []geom.Point) {
	p.corners, p.held, p.hand = list, -1, -1
	p.Refresh()
}

// Cursor implements desktop.Cursorable.
func (p *cornerPicker) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// FocusGained implements fyne.Focusable.
func (p *cornerPicker) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost implements fyne.Focusable.
func (p *cornerPicker) FocusLost() { p.focused = false; p.Refresh() }

// TypedRune implements fyne.Focusable.
func (p *cornerPicker) TypedRune(r rune) {
	switch {
	case r == '+' || r == '=':
		p.zoom(p.middle(), 1.5)
	case r == '-':
		p.zoom(p.middle(), 1/1.5)
	case r == '0':
		p.view.zoom = 1
		p.view.hold()
		p.Refresh()
	case r >= '1' && r <= '4':
		i := int(r - '1')
		if i == len(p.corners) {
			p.corners = append(p.corners, p.view.at)
		}
		if i < len(p.corners) {
			p.hand = i
			p.tell()
		}
	}
}

// TypedKey implements fyne.Focusable.
func (p *cornerPicker) TypedKey(ev *fyne.KeyEvent) {
	by, ok := map[fyne.KeyName]geom.Point{
		fyne.KeyLeft: geom.Pt(-1, 0), fyne.KeyRight: geom.Pt(1, 0), fyne.KeyUp: geom.Pt(0, -1), fyne.KeyDown: geom.Pt(0, 1),
	}[ev.Name]
	switch {
	case !ok:
		p.w.dialogKey(ev)
	case p.hand >= 0 && p.hand < len(p.corners):
		by = by.Mul(max(6/p.view.scale(), 0.25)) // finer the nearer the view
		p.corners[p.hand] = p.view.inside(p.corners[p.hand].Add(by))
		p.tell()
	default:
		p.view.moved(by.Mul(-40))
		p.Refresh()
	}
}

func (p *cornerPicker) tell() {
	p.Refresh()
	if p.changed != nil {
		p.changed()
	}
}

// CreateRenderer implements fyne.Widget.
func (p *cornerPicker) CreateRenderer() fyne.WidgetRenderer {
	r := &cornerRenderer{p: p}
	r.raster = canvas.NewRaster(func(w, h int) image.Image {
		if p.out == nil || p.out.Rect.Dx() != w || p.out.Rect.Dy() != h {
			p.out = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
		}
		p.view.draw(p.out, p.src)
		return p.out
	})
	r.ring = canvas.NewRectangle(nil)
	r.objs = []fyne.CanvasObject{r.raster, r.ring}
	for i := range r.lines {
		dark, light := canvas.NewLine(color.NRGBA{A: 170}), canvas.NewLine(color.White)
		dark.StrokeWidth, light.StrokeWidth = 4, 1.5
		r.lines[i] = [2]*canvas.Line{dark, light}
		r.objs = append(r.objs, dark, light)
	}
	for i := range r.marks {
		r.marks[i] = newCornerMark()
		r.objs = append(r.objs, r.marks[i].objects()...)
	}
	return r
}
