package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// ringButton is a button with a ring about it while it has the keys: the toolkit's
// own tint is too faint to find at a glance.
type ringButton struct {
	widget.Button
	focused bool
}

// FocusGained implements fyne.Focusable.
func (b *ringButton) FocusGained() {
	b.focused = true
	b.Button.FocusGained()
}

// FocusLost implements fyne.Focusable.
func (b *ringButton) FocusLost() {
	b.focused = false
	b.Button.FocusLost()
}

// CreateRenderer implements fyne.Widget.
func (b *ringButton) CreateRenderer() fyne.WidgetRenderer {
	r := &ringRenderer{WidgetRenderer: b.Button.CreateRenderer(), b: b}
	for i := range r.rings {
		r.rings[i] = canvas.NewRectangle(nil)
	}
	r.show()
	return r
}

// ringRenderer adds two rings to the button's own: one in the colour of text, and
// inside it one in the colour of the ground, so that it stands out from any button.
type ringRenderer struct {
	fyne.WidgetRenderer
	b     *ringButton
	rings [2]*canvas.Rectangle
}

// Widths of the rings.
const (
	outerRing = 2
	innerRing = 1
)

// Layout implements fyne.WidgetRenderer.
func (r *ringRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.rings[0].Resize(size)
	r.rings[1].Move(fyne.NewSquareOffsetPos(outerRing))
	r.rings[1].Resize(size.SubtractWidthHeight(2*outerRing, 2*outerRing))
}

// Objects implements fyne.WidgetRenderer.
func (r *ringRenderer) Objects() []fyne.CanvasObject {
	own := r.WidgetRenderer.Objects()
	return append(append(make([]fyne.CanvasObject, 0, len(own)+2), own...), r.rings[1], r.rings[0])
}

// Refresh implements fyne.WidgetRenderer.
func (r *ringRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	r.show()
	for _, ring := range r.rings {
		ring.Refresh()
	}
}

func (r *ringRenderer) show() {
	for i, name := range [2]fyne.ThemeColorName{theme.ColorNameForeground, theme.ColorNameBackground} {
		ring := r.rings[i]
		ring.Hidden = !r.b.focused
		ring.StrokeColor, ring.StrokeWidth = theme.Color(name), [2]float32{outerRing, innerRing}[i]
		ring.CornerRadius = theme.Size(theme.SizeNameInputRadius)
	}
}
