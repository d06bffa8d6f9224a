package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
)

// newBehaveTable is a table of the figures of a section.
func newBehaveTable(rows []session.Row) *fyne.Container {
	cols := 0
	for _, r := range rows {
		cols = max(cols, len(r.Values))
	}
	t := &fyne.Container{Layout: &tableLayout{cols: cols + 1}}
	for _, r := range rows {
		name := widget.NewLabel(r.Name)
		name.Wrapping = fyne.TextWrapWord
		t.Add(snug(name))
		for k := range cols {
			v := widget.NewLabel("")
			if k < len(r.Values) {
				v.SetText(r.Values[k])
			}
			v.Alignment = fyne.TextAlignTrailing
			if r.Head || r.Quiet {
				v.SizeName, v.Importance = theme.SizeNameCaptionText, widget.LowImportance
			} else {
				v.TextStyle.Bold = k == 0
			}
			t.Add(snug(v))
		}
		if r.Head || r.Quiet {
			name.SizeName, name.Importance = theme.SizeNameCaptionText, widget.LowImportance
		}
	}
	return t
}

// tableLayout sets rows of a name and values: the values in columns as wide as
// they need, the name in what is left. Where that is too little for a name, it
// stands on a line of its own.
type tableLayout struct {
	cols  int
	width float32 // of the last Layout
}

const tableGap = 10

// columns returns the widths of the values and what is left for the name.
func (l *tableLayout) columns(objs []fyne.CanvasObject, width float32) (name float32, values []float32) {
	values = make([]float32, l.cols-1)
	name = width
	for i, o := range objs {
		if k := i % l.cols; k > 0 {
			values[k-1] = fyne.Max(values[k-1], o.MinSize().Width)
		}
	}
	for _, v := range values {
		name -= v + tableGap
	}
	return name, values
}

// rows calls do with where each object of each row goes.
func (l *tableLayout) rows(objs []fyne.CanvasObject, width float32, do func(o fyne.CanvasObject, pos fyne.Position, size fyne.Size)) float32 {
	name, values := l.columns(objs, width)
	under := name < 0.3*width // the name takes a line of its own
	if under {
		name = width
	}
	var y float32
	for i := 0; i+l.cols <= len(objs); i += l.cols {
		first := objs[i]
		first.Resize(fyne.NewSize(name, first.MinSize().Height))
		h := first.MinSize().Height
		empty := isBlank(first)
		if under && empty {
			h = 0
		}
		do(first, fyne.NewPos(0, y), fyne.NewSize(name, h))
		top := y
		if under {
			y += h
			top, h = y, 0
		}
		x := width
		for k := l.cols - 2; k >= 0; k-- {
			o := objs[i+1+k]
			x -= values[k]
			do(o, fyne.NewPos(x, top), fyne.NewSize(values[k], o.MinSize().Height))
			h = fyne.Max(h, o.MinSize().Height)
			x -= tableGap
		}
		y += h + 2
	}
	return y
}

// isBlank reports whether a cell holds no text.
func isBlank(o fyne.CanvasObject) bool {
	c, ok := o.(*fyne.Container)
	if !ok || len(c.Objects) != 1 {
		return false
	}
	l, ok := c.Objects[0].(*widget.Label)
	return ok && l.Text == ""
}

// MinSize implements fyne.Layout.
func (l *tableLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	width := l.width
	if width == 0 {
		width = 300
	}
	h := l.rows(objs, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
	return fyne.NewSize(120, h)
}

// Layout implements fyne.Layout.
func (l *tableLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.rows(objs, size.Width, func(o fyne.CanvasObject, pos fyne.Position, s fyne.Size) {
		o.Move(pos)
		o.Resize(s)
	})
}

// cardsLayout sets cards in as many columns as there is room for, each under
// the shortest so far.
type cardsLayout struct {
	least func() float32 // narrowest card
	width float32        // of the last Layout
}

func (l *cardsLayout) place(objs []fyne.CanvasObject, width float32, do func(o fyne.CanvasObject, pos fyne.Position, size fyne.Size)) float32 {
	const air = 10
	cols := max(1, int((width+air)/(l.least()+air)))
	cols = min(cols, 3, max(len(objs), 1))
	card := (width - air*float32(cols-1)) / float32(cols)
	high := make([]float32, cols)
	for _, o := range objs {
		at := 0
		for k := range high {
			if high[k] < high[at]-1 {
				at = k
			}
		}
		o.Resize(fyne.NewSize(card, o.MinSize().Height))
		h := o.MinSize().Height
		do(o, fyne.NewPos(float32(at)*(card+air), high[at]), fyne.NewSize(card, h))
		high[at] += h + air
	}
	var most float32
	for _, h := range high {
		most = fyne.Max(most, h)
	}
	return most
}

// MinSize implements fyne.Layout.
func (l *cardsLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	width := l.width
	if width == 0 {
		width = l.least()
	}
	return fyne.NewSize(200, l.place(objs, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {}))
}

// Layout implements fyne.Layout.
func (l *cardsLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(objs, size.Width, func(o fyne.CanvasObject, pos fyne.Position, s fyne.Size) {
		o.Move(pos)
		o.Resize(s)
	})
}
