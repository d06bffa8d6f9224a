package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// rowLayout lays objects in one line from the left. What does not fit is left
// out, and the last object, the "more" button, is shown in its place.
type rowLayout struct {
	gap    func() float32
	more   fyne.CanvasObject
	hidden []fyne.CanvasObject // left out by the last Layout
}

// MinSize implements fyne.Layout: the row can shrink to its "more" button.
func (r *rowLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var h float32
	for _, o := range objs {
		h = fyne.Max(h, o.MinSize().Height)
	}
	return fyne.NewSize(r.more.MinSize().Width, h)
}

// Layout implements fyne.Layout.
func (r *rowLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	fit := r.fitting(objs, size.Width)
	r.hidden = r.hidden[:0]
	var x float32
	for i, o := range objs {
		if o == r.more {
			continue
		}
		if i >= fit {
			if o.Visible() {
				o.Hide()
			}
			r.hidden = append(r.hidden, o)
			continue
		}
		if !o.Visible() {
			o.Show()
		}
		m := o.MinSize()
		o.Resize(fyne.NewSize(m.Width, size.Height))
		o.Move(fyne.NewPos(x, 0))
		x += m.Width + r.gap()
	}
	if len(r.hidden) == 0 {
		r.more.Hide()
		return
	}
	r.more.Resize(fyne.NewSize(r.more.MinSize().Width, size.Height))
	r.more.Move(fyne.NewPos(x, 0))
	r.more.Show()
}

// fitting returns how many of objs fit the width, the "more" button counted in
// where not all do.
func (r *rowLayout) fitting(objs []fyne.CanvasObject, width float32) int {
	n := 0
	var x float32
	room := width - r.more.MinSize().Width
	for _, o := range objs {
		if o == r.more {
			continue
		}
		x += o.MinSize().Width
		if x+r.gap() > room {
			if r.all(objs) <= width {
				return len(objs)
			}
			return n
		}
		x += r.gap()
		n++
	}
	return len(objs)
}

func (r *rowLayout) all(objs []fyne.CanvasObject) float32 {
	var x float32
	for _, o := range objs {
		if o != r.more {
			x += o.MinSize().Width + r.gap()
		}
	}
	return x - r.gap()
}

// sideLayout gives its second object a column at the right and its first the
// rest.
type sideLayout struct {
	column func() float32 // wanted width of the column
}

// columnShare is the most of the window the column may take.
const columnShare = 0.42

// MinSize implements fyne.Layout.
func (s sideLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(a.Width+b.Width, fyne.Max(a.Height, b.Height))
}

// Layout implements fyne.Layout.
func (s sideLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	w := fyne.Max(fyne.Min(s.column(), size.Width*columnShare), o[1].MinSize().Width)
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width-w, size.Height))
	o[1].Move(fyne.NewPos(size.Width-w, 0))
	o[1].Resize(fyne.NewSize(w, size.Height))
}

// roomLayout stretches its one object over all there is and asks for at least
// the given size, however large the object would like to be.
type roomLayout struct{ least fyne.Size }

// MinSize implements fyne.Layout.
func (r roomLayout) MinSize([]fyne.CanvasObject) fyne.Size { return r.least }

// Layout implements fyne.Layout.
func (r roomLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for _, c := range o {
		c.Move(fyne.NewPos(0, 0))
		c.Resize(size)
	}
}

// besideBar keeps its one object clear of the scroll bar at its right.
type besideBar struct{}

// MinSize implements fyne.Layout.
func (besideBar) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(theme.Size(theme.SizeNameScrollBar), 0)
}

// Layout implements fyne.Layout.
func (besideBar) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(size.SubtractWidthHeight(theme.Size(theme.SizeNameScrollBar), 0))
}

// keepLayout keeps room for so many lines of its one text, shown or not.
type keepLayout struct{ lines float32 }

// MinSize implements fyne.Layout.
func (k keepLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := k.lines*theme.TextSize()*1.5 + 2*theme.InnerPadding()
	if o[0].Visible() {
		h = fyne.Max(h, o[0].MinSize().Height)
	}
	return fyne.NewSize(0, h)
}

// Layout implements fyne.Layout.
func (keepLayout) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// besideLayout sets a large figure beside the lines that explain it, or under
// one another where there is no room.
type besideLayout struct{ width float32 } // of the last Layout

func (b *besideLayout) beside(o []fyne.CanvasObject) bool {
	return o[0].MinSize().Width+2*pad()+o[1].MinSize().Width <= b.width
}

// MinSize implements fyne.Layout.
func (b *besideLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	m, n := o[0].MinSize(), o[1].MinSize()
	if b.beside(o) {
		return fyne.NewSize(100, fyne.Max(m.Height, n.Height))
	}
	return fyne.NewSize(100, m.Height+n.Height)
}

// Layout implements fyne.Layout.
func (b *besideLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	b.width = size.Width
	m, n := o[0].MinSize(), o[1].MinSize()
	o[0].Resize(m)
	o[1].Resize(n)
	if b.beside(o) {
		h := fyne.Max(m.Height, n.Height)
		o[0].Move(fyne.NewPos(0, (h-m.Height)/2))
		o[1].Move(fyne.NewPos(m.Width+2*pad(), (h-n.Height)/2))
		return
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[1].Move(fyne.NewPos(0, m.Height))
}

// pairsLayout lays pairs of objects in rows: names in a column as wide as the
// widest, values in the rest.
type pairsLayout struct {
	gap  func() float32
	name float32 // least width of the names
}

// MinSize implements fyne.Layout.
func (p pairsLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	a, b, h := p.name, float32(0), float32(0)
	for i := 0; i+1 < len(objs); i += 2 {
		m, n := objs[i].MinSize(), objs[i+1].MinSize()
		a, b = fyne.Max(a, m.Width), fyne.Max(b, n.Width)
		h += fyne.Max(m.Height, n.Height) + p.gap()
	}
	return fyne.NewSize(a+p.gap()+b, fyne.Max(h-p.gap(), 0))
}

// Layout implements fyne.Layout.
func (p pairsLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	a := p.name
	for i := 0; i+1 < len(objs); i += 2 {
		a = fyne.Max(a, objs[i].MinSize().Width)
	}
	var y float32
	for i := 0; i+1 < len(objs); i += 2 {
		m, n := objs[i].MinSize(), objs[i+1].MinSize()
		h := fyne.Max(m.Height, n.Height)
		objs[i].Move(fyne.NewPos(0, y+(h-m.Height)/2))
		objs[i].Resize(fyne.NewSize(a, m.Height))
		objs[i+1].Move(fyne.NewPos(a+p.gap(), y+(h-n.Height)/2))
		objs[i+1].Resize(fyne.NewSize(size.Width-a-p.gap(), n.Height))
		y += h + p.gap()
	}
}
