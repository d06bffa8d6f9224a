package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// reasonRow is one thing against the arrangement in hand. While it has the
// keys or the pointer, its place is pointed out in the picture.
type reasonRow struct {
	widget.BaseWidget
	p      *arrangePage
	r      session.Reason
	places []geom.Rect
	ground *canvas.Rectangle
	has    bool
	hover  bool
}

var (
	_ fyne.Focusable    = (*reasonRow)(nil)
	_ fyne.Tappable     = (*reasonRow)(nil)
	_ desktop.Hoverable = (*reasonRow)(nil)
)

func newReasonRow(p *arrangePage, e *layEntry, r session.Reason) *reasonRow {
	o := &reasonRow{p: p, r: r, places: e.placesOf(r)}
	o.ExtendBaseWidget(o)
	return o
}

// reasonPlaces are the places of a panel that a reason is about: the joint, or
// else the strips, mm.
func reasonPlaces(p *face.Panel, r session.Reason) []geom.Rect {
	if p == nil {
		return nil
	}
	in := func(y0, y1 float64) geom.Rect {
		return geom.R(0, min(max(y0, 0), p.Width), p.Length, min(max(y1, 0), p.Width))
	}
	if r.Joint >= 0 && r.Joint+1 < len(p.Strips) {
		y := p.StripY(r.Joint + 1)
		return []geom.Rect{in(y, y)}
	}
	var out []geom.Rect
	for i := range p.Strips {
		for _, id := range r.Strips {
			if p.Strips[i].ID == id {
				y := p.StripY(i)
				out = append(out, in(y, y+p.Strips[i].W))
			}
		}
	}
	return out
}

// pointed points the place out or no longer.
func (o *reasonRow) pointed() {
	on := o.has || o.hover
	if on {
		o.p.gallery.point(o.places)
	} else if !o.p.side.pointing() {
		o.p.gallery.point(nil)
	}
	o.Refresh()
}

// pointing reports whether a reason points at something.
func (s *arrangeSide) pointing() bool {
	for _, o := range s.reasons {
		if o.has || o.hover {
			return true
		}
	}
	return false
}

// Tapped implements fyne.Tappable.
func (o *reasonRow) Tapped(*fyne.PointEvent) { o.p.w.win.Canvas().Focus(o) }

// MouseIn implements desktop.Hoverable.
func (o *reasonRow) MouseIn(*desktop.MouseEvent) { o.hover = true; o.pointed() }

// MouseMoved implements desktop.Hoverable.
func (o *reasonRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (o *reasonRow) MouseOut() { o.hover = false; o.pointed() }

// FocusGained implements fyne.Focusable.
func (o *reasonRow) FocusGained() {
	o.has = true
	o.p.w.reached(o)
	o.p.gallery.reveal()
	o.pointed()
}

// FocusLost implements fyne.Focusable.
func (o *reasonRow) FocusLost() { o.has = false; o.pointed() }

// TypedRune implements fyne.Focusable.
func (o *reasonRow) TypedRune(r rune) { o.p.sign(r) }

// TypedKey implements fyne.Focusable: up and down go from reason to reason.
func (o *reasonRow) TypedKey(ev *fyne.KeyEvent) {
	list := o.p.side.reasons
	at := 0
	for i := range list {
		if list[i] == o {
			at = i
		}
	}
	switch ev.Name {
	case fyne.KeyUp:
		o.p.w.win.Canvas().Focus(list[max(at-1, 0)])
	case fyne.KeyDown:
		o.p.w.win.Canvas().Focus(list[min(at+1, len(list)-1)])
	case fyne.KeyReturn, fyne.KeyEnter:
		o.p.w.takeKeys()
	default:
		o.p.w.pageKey(ev)
	}
}

// AccessibilityLabel says what speaks against it.
func (o *reasonRow) AccessibilityLabel() string {
	return say.F("%s points: %s", pointWords(o.r.Points), o.r.Text)
}

// AccessibilityRole implements fyne.Accessible.
func (o *reasonRow) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// CreateRenderer implements fyne.Widget.
func (o *reasonRow) CreateRenderer() fyne.WidgetRenderer {
	o.ground = canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))
	o.ground.CornerRadius = 4
	points := widget.NewLabel(pointWords(o.r.Points))
	points.TextStyle.Bold = true
	text := wrapped(ended(sentence(o.r.Text)), widget.MediumImportance)
	r := &reasonRenderer{o: o, all: container.NewStack(o.ground, container.NewBorder(nil, nil, container.NewVBox(snug(points)), nil, snug(text)))}
	r.ring()
	return r
}

type reasonRenderer struct {
	o   *reasonRow
	all *fyne.Container
}

func (r *reasonRenderer) ring() {
	g := r.o.ground
	g.FillColor, g.StrokeColor, g.StrokeWidth = theme.Color(theme.ColorNameOverlayBackground), theme.Color(theme.ColorNameSeparator), 1
	switch {
	case r.o.has:
		g.StrokeColor, g.StrokeWidth = theme.Color(theme.ColorNamePrimary), 3
	case r.o.hover:
		g.StrokeColor, g.StrokeWidth = theme.Color(theme.ColorNameInputBorder), 2
	}
}

func (r *reasonRenderer) Layout(size fyne.Size)        { r.all.Resize(size) }
func (r *reasonRenderer) MinSize() fyne.Size           { return r.all.MinSize() }
func (r *reasonRenderer) Refresh()                     { r.ring(); r.o.ground.Refresh() }
func (r *reasonRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.all} }
func (r *reasonRenderer) Destroy()                     {}
