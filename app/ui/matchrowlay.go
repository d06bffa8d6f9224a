package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// halvesLayout sets what is asked beside what comes of it, or under one another
// where there is no room.
type halvesLayout struct{ width float32 } // of the last Layout

// halvesLetters is from which width on, in letters, two columns are read well.
const halvesLetters = 96

func (h *halvesLayout) beside() bool { return h.width > halvesLetters*letterWidth*theme.TextSize() }

// MinSize implements fyne.Layout.
func (h *halvesLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	m, n := o[0].MinSize(), o[1].MinSize()
	if h.beside() {
		return fyne.NewSize(100, fyne.Max(m.Height, n.Height))
	}
	return fyne.NewSize(100, m.Height+n.Height)
}

// Layout implements fyne.Layout.
func (h *halvesLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	h.width = size.Width
	if h.beside() {
		half := 0.46 * size.Width
		o[0].Resize(fyne.NewSize(half, size.Height))
		o[0].Move(fyne.NewPos(0, 0))
		o[1].Resize(fyne.NewSize(size.Width-half-3*pad(), size.Height))
		o[1].Move(fyne.NewPos(half+3*pad(), 0))
		return
	}
	y := float32(0)
	for _, c := range o {
		for range 2 { // lines break in the width they were given
			c.Resize(fyne.NewSize(size.Width, c.MinSize().Height))
		}
		c.Move(fyne.NewPos(0, y))
		y += c.MinSize().Height
	}
}
