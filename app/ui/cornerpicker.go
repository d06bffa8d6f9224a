package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
)

// cornerPicker shows a picture and lets four corners be clicked and dragged.
type cornerPicker struct {
	widget.BaseWidget
	img     *canvas.Image
	size    geom.Point   // of the picture shown, pixels
	corners []geom.Point // pixels of the picture shown
	held    int          // corner being dragged, -1 none
	changed func()
}

var (
	_ desktop.Mouseable = (*cornerPicker)(nil)
	_ fyne.Draggable    = (*cornerPicker)(nil)
)

func newCornerPicker(src *image.RGBA) *cornerPicker {
	p := &cornerPicker{held: -1, size: geom.Pt(float64(src.Rect.Dx()), float64(src.Rect.Dy()))}
	p.img = canvas.NewImageFromImage(src)
	p.img.FillMode = canvas.ImageFillContain
	p.img.ScaleMode = canvas.ImageScaleFastest
	p.ExtendBaseWidget(p)
	return p
}

// frame returns where the picture lies on the widget and how many units a
// pixel has.
func (p *cornerPicker) frame() (x, y, k float64) {
	w, h := float64(p.Size().Width), float64(p.Size().Height)
	k = min(w/p.size.X, h/p.size.Y)
	return (w - k*p.size.X) / 2, (h - k*p.size.Y) / 2, k
}

func (p *cornerPicker) pixel(at fyne.Position) geom.Point {
	x, y, k := p.frame()
	if k <= 0 {
		return geom.Point{}
	}
	return geom.Pt(min(max((float64(at.X)-x)/k, 0), p.size.X), min(max((float64(at.Y)-y)/k, 0), p.size.Y))
}

// cornerReach is how near a press takes hold of a corner, units.
const cornerReach = 14

// MouseDown implements desktop.Mouseable.
func (p *cornerPicker) MouseDown(ev *desktop.MouseEvent) {
	if ev.Button != desktop.MouseButtonPrimary {
		return
	}
	_, _, k := p.frame()
	q := p.pixel(ev.Position)
	p.held = -1
	for i, c := range p.corners {
		if c.Dist(q)*k < cornerReach {
			p.held = i
		}
	}
	if p.held < 0 && len(p.corners) < 4 {
		p.corners = append(p.corners, q)
		p.held = len(p.corners) - 1
	}
	p.tell()
}

// MouseUp implements desktop.Mouseable.
func (p *cornerPicker) MouseUp(*desktop.MouseEvent) { p.held = -1 }

// Dragged implements fyne.Draggable.
func (p *cornerPicker) Dragged(ev *fyne.DragEvent) {
	if p.held >= 0 {
		p.corners[p.held] = p.pixel(ev.Position)
		p.tell()
	}
}

// DragEnd implements fyne.Draggable.
func (p *cornerPicker) DragEnd() { p.held = -1 }

func (p *cornerPicker) tell() {
	p.Refresh()
	if p.changed != nil {
		p.changed()
	}
}

// CreateRenderer implements fyne.Widget.
func (p *cornerPicker) CreateRenderer() fyne.WidgetRenderer {
	r := &cornerRenderer{p: p, objs: []fyne.CanvasObject{p.img}}
	for i := range r.lines {
		r.lines[i] = canvas.NewLine(theme.Color(theme.ColorNamePrimary))
		r.lines[i].StrokeWidth = 2
		r.objs = append(r.objs, r.lines[i])
	}
	for i := range r.dots {
		r.dots[i] = canvas.NewCircle(theme.Color(theme.ColorNamePrimary))
		r.dots[i].StrokeColor, r.dots[i].StrokeWidth = theme.Color(theme.ColorNameForegroundOnPrimary), 2
		r.objs = append(r.objs, r.dots[i])
	}
	return r
}

type cornerRenderer struct {
	p     *cornerPicker
	lines [4]*canvas.Line
	dots  [4]*canvas.Circle
	objs  []fyne.CanvasObject
}

func (r *cornerRenderer) Layout(size fyne.Size) {
	r.p.img.Resize(size)
	r.place()
}

func (r *cornerRenderer) place() {
	x, y, k := r.p.frame()
	at := func(i int) fyne.Position {
		c := r.p.corners[i]
		return fyne.NewPos(float32(x+c.X*k), float32(y+c.Y*k))
	}
	n := len(r.p.corners)
	for i := range r.dots {
		r.dots[i].Hidden = i >= n
		r.lines[i].Hidden = i+1 >= n && !(n == 4 && i == 3)
		if i < n {
			r.dots[i].Resize(fyne.NewSize(12, 12))
			r.dots[i].Move(at(i).SubtractXY(6, 6))
		}
		if !r.lines[i].Hidden {
			r.lines[i].Position1, r.lines[i].Position2 = at(i), at((i+1)%n)
		}
	}
}

func (r *cornerRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 120) }

func (r *cornerRenderer) Refresh() {
	r.place()
	for i := range r.dots {
		canvas.Refresh(r.dots[i])
		canvas.Refresh(r.lines[i])
	}
}

func (r *cornerRenderer) Objects() []fyne.CanvasObject { return r.objs }
func (r *cornerRenderer) Destroy()                     {}
