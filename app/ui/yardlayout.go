package ui

import "fyne.io/fyne/v2"

// foldLayout sets its first and third object at the left and its second and
// fourth at the right, or all four under one another where there is no room for
// two columns: what answers the first comes right after it then.
type foldLayout struct {
	side, least func() float32 // width of the right column, least width of the left one
	width       float32        // of the last Layout
}

const foldAir = 16

func (l *foldLayout) beside(width float32) bool { return width >= l.least()+foldAir+l.side() }

// place sizes the objects for a width and returns the height of all.
func (l *foldLayout) place(objs []fyne.CanvasObject, width float32) float32 {
	two := l.beside(width)
	var y [2]float32
	for i, o := range objs {
		col, x, w := 0, float32(0), width
		if two {
			if col = i % 2; col == 0 {
				w = width - foldAir - l.side()
			} else {
				x, w = width-l.side(), l.side()
			}
		}
		if y[col] > 0 {
			y[col] += foldAir / 2
		}
		o.Move(fyne.NewPos(x, y[col]))
		for range 2 { // texts break in the width they were given
			o.Resize(fyne.NewSize(w, o.MinSize().Height))
		}
		y[col] += o.MinSize().Height
	}
	return fyne.Max(y[0], y[1])
}

// MinSize implements fyne.Layout.
func (l *foldLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	width := l.width
	if width == 0 {
		width = l.least()
	}
	return fyne.NewSize(200, l.place(objs, width))
}

// Layout implements fyne.Layout.
func (l *foldLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(objs, size.Width)
}
