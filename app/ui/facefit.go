package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"heartside/layout/geom"
)

// mapGap is between the small board and the face, units.
const mapGap = 8

// mapRoom is where the whole board is shown small; empty where it is all in
// sight anyway.
func (c *faceCanvas) mapRoom() geom.Rect {
	if c.view.room.Min.Y == 0 {
		return geom.Rect{}
	}
	k := c.mapScale()
	return geom.R(mapGap, mapGap, mapGap+c.view.size.X*k, mapGap+c.view.size.Y*k)
}

func (c *faceCanvas) mapScale() float64 {
	s := c.Size()
	return max(min((float64(s.Width)-2*mapGap)/c.view.size.X, float64(s.Height)*0.14/c.view.size.Y), 1e-6)
}

// faceFit is what the view is fitted to, also when the window changes.
type faceFit int

const (
	fitWork  faceFit = iota // large enough to work at
	fitWhole                // all of the face
	fitFree                 // as zoomed by hand
)

// laidOut fits the view to the widget.
func (c *faceCanvas) laidOut(size fyne.Size) {
	if size.Width < 1 || size.Height < 1 {
		return
	}
	c.fit(c.fitted)
}

// rooms sets what the view fills: all of the widget where it shows the whole
// face, else what the small board leaves.
func (c *faceCanvas) rooms(small bool) {
	s, top := c.Size(), 0.0
	if small && s.Height >= 160 {
		top = c.view.size.Y*c.mapScale() + 2*mapGap
	}
	c.view.room = geom.R(0, top, float64(s.Width), max(float64(s.Height), top+1))
}

// fit shows the whole face, so much of it that it can be worked on, or what
// was zoomed to.
func (c *faceCanvas) fit(to faceFit) {
	c.fitted = to
	c.rooms(false)
	whole := c.view.whole()
	work := c.view.readable()
	switch {
	case to == fitWhole:
		c.view.scale = whole
	case to == fitWork:
		c.view.scale = work
	}
	c.view.scale = max(c.view.scale, whole)
	c.rooms(c.view.scale > whole*1.02)
	switch {
	case c.keyed:
		c.view.at = c.cursor
	case !c.panned:
		c.view.at = geom.Pt(0, c.view.size.Y/2) // the marked end first
	}
	c.view.hold()
	c.renew()
}

// CreateRenderer implements fyne.Widget.
func (c *faceCanvas) CreateRenderer() fyne.WidgetRenderer {
	ring := canvas.NewRectangle(nil)
	return &faceRenderer{c: c, ring: ring, objs: []fyne.CanvasObject{c.raster, ring}}
}

type faceRenderer struct {
	c    *faceCanvas
	ring *canvas.Rectangle // shows that the keys work here
	objs []fyne.CanvasObject
}

// Layout implements fyne.WidgetRenderer.
func (r *faceRenderer) Layout(size fyne.Size) {
	r.c.raster.Resize(size)
	r.ring.Resize(size)
	r.c.laidOut(size)
}

// MinSize implements fyne.WidgetRenderer.
func (r *faceRenderer) MinSize() fyne.Size { return fyne.NewSize(160, 90) }

// Refresh implements fyne.WidgetRenderer.
func (r *faceRenderer) Refresh() {
	r.ring.StrokeWidth = 0
	if r.c.focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	canvas.Refresh(r.ring)
	r.c.stir()
}

// Objects implements fyne.WidgetRenderer.
func (r *faceRenderer) Objects() []fyne.CanvasObject { return r.objs }

// Destroy implements fyne.WidgetRenderer.
func (r *faceRenderer) Destroy() {}
