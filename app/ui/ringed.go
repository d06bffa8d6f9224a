package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// ringed renders a painted picture with a ring about it while the keys work
// there.
type ringed struct {
	raster  *canvas.Raster
	ring    *canvas.Rectangle
	objs    []fyne.CanvasObject
	least   fyne.Size
	focused func() bool
	laid    func(fyne.Size)
}

// newRinged makes one: paint draws w x h pixels, laid is told of a new size.
func newRinged(paint func(w, h int) image.Image, least fyne.Size, focused func() bool, laid func(fyne.Size)) *ringed {
	r := &ringed{raster: canvas.NewRaster(paint), ring: canvas.NewRectangle(nil), least: least, focused: focused, laid: laid}
	r.objs = []fyne.CanvasObject{r.raster, r.ring}
	return r
}

// Layout implements fyne.WidgetRenderer.
func (r *ringed) Layout(size fyne.Size) {
	r.raster.Resize(size)
	r.ring.Resize(size)
	r.laid(size)
}

// MinSize implements fyne.WidgetRenderer.
func (r *ringed) MinSize() fyne.Size { return r.least }

// Refresh implements fyne.WidgetRenderer.
func (r *ringed) Refresh() {
	r.ring.StrokeWidth = 0
	if r.focused() {
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	canvas.Refresh(r.ring)
	canvas.Refresh(r.raster)
}

// Objects implements fyne.WidgetRenderer.
func (r *ringed) Objects() []fyne.CanvasObject { return r.objs }

// Destroy implements fyne.WidgetRenderer.
func (r *ringed) Destroy() {}
