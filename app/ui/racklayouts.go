package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// flowLayout sets objects side by side and begins a new line where the next
// has no room. One object of a line may take what the others leave.
type flowLayout struct {
	grow  map[fyne.CanvasObject]bool
	heads []fyne.CanvasObject // shown only where there is more than one line
	width float32             // of the last Layout
}

// flow lays objects out in lines; those of grow take what is left of theirs.
func flow(objs []fyne.CanvasObject, grow ...fyne.CanvasObject) *fyne.Container {
	l := &flowLayout{grow: map[fyne.CanvasObject]bool{}}
	for _, o := range grow {
		l.grow[o] = true
	}
	return container.New(l, objs...)
}

// lines cuts the visible objects into lines of the width.
func (f *flowLayout) lines(objs []fyne.CanvasObject, width float32) [][]fyne.CanvasObject {
	var out [][]fyne.CanvasObject
	x := float32(0)
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		w := o.MinSize().Width
		if len(out) == 0 || x+w > width+0.5 {
			out, x = append(out, nil), 0
		}
		out[len(out)-1] = append(out[len(out)-1], o)
		x += w + 2*pad()
	}
	return out
}

// caption shows the headings that a single line under another needs not.
func (f *flowLayout) caption(lines [][]fyne.CanvasObject) {
	for _, h := range f.heads {
		setShown(h, len(lines) > 1)
	}
}

// MinSize implements fyne.Layout.
func (f *flowLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	width, h := float32(0), float32(0)
	for _, o := range objs {
		if o.Visible() {
			width = fyne.Max(width, o.MinSize().Width)
		}
	}
	lines := f.lines(objs, fyne.Max(f.width, width))
	f.caption(lines)
	for i, line := range lines {
		high := float32(0)
		for _, o := range line {
			high = fyne.Max(high, o.MinSize().Height)
		}
		if i > 0 {
			h += pad()
		}
		h += high
	}
	return fyne.NewSize(width, h)
}

// Layout implements fyne.Layout.
func (f *flowLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	f.width = size.Width
	y := float32(0)
	lines := f.lines(objs, size.Width)
	f.caption(lines)
	for _, line := range lines {
		spare, takers := size.Width+2*pad(), 0
		for _, o := range line {
			spare -= o.MinSize().Width + 2*pad()
			if f.grow[o] {
				takers++
			}
		}
		high := float32(0)
		widths := make([]float32, len(line))
		for i, o := range line {
			widths[i] = o.MinSize().Width
			if f.grow[o] && spare > 0 {
				widths[i] += spare / float32(takers)
			}
		}
		for i, o := range line {
			o.Resize(fyne.NewSize(widths[i], o.MinSize().Height))
			high = fyne.Max(high, o.MinSize().Height) // texts break anew in their width
		}
		x := float32(0)
		for i, o := range line {
			h := o.MinSize().Height
			o.Resize(fyne.NewSize(widths[i], h))
			o.Move(fyne.NewPos(x, y+(high-h)/2))
			x += widths[i] + 2*pad()
		}
		y += high + pad()
	}
}

// leastLayout asks for a least width, in letters of the theme's text, and
// leaves the height to its one object.
type leastLayout struct{ letters float32 }

// least keeps room for so many letters.
func least(letters float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(leastLayout{letters}, o)
}

// letterWidth is the width of a letter of running text, of the text size; an
// engineering choice near that of the typeface.
const letterWidth = 0.62

// MinSize implements fyne.Layout.
func (l leastLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	if !o[0].Visible() {
		return fyne.Size{}
	}
	return fyne.NewSize(l.letters*letterWidth*theme.TextSize(), o[0].MinSize().Height)
}

// Layout implements fyne.Layout.
func (leastLayout) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// downLayout scrolls its one scroll container's content only up and down, and
// lays it out until its height fits its width.
type downLayout struct {
	width float32 // of the last Layout
	wider func()  // told of a new width, nil: nobody
}

// down scrolls what does not fit the height.
func down(content fyne.CanvasObject, wider func()) (*fyne.Container, *container.Scroll) {
	s := container.NewVScroll(container.New(besideBar{}, content))
	return container.New(&downLayout{wider: wider}, s), s
}

// MinSize implements fyne.Layout.
func (*downLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 60) }

// Layout implements fyne.Layout.
func (d *downLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	if d.width != size.Width && d.wider != nil {
		defer d.wider()
	}
	d.width = size.Width
	s := o[0].(*container.Scroll)
	s.Resize(size)
	for range 2 {
		s.Content.Resize(fyne.NewSize(size.Width, fyne.Max(s.Content.MinSize().Height, size.Height)))
	}
	s.Refresh()
}

// settled lays a scrolled content out again after it changed.
func settled(s *container.Scroll) {
	for range 2 {
		s.Content.Resize(fyne.NewSize(s.Size().Width, fyne.Max(s.Content.MinSize().Height, s.Size().Height)))
	}
	s.Refresh()
}

// relay lays containers out again, the inner ones first, twice: texts break in
// the width they were given, and their height counts then.
func relay(list ...*fyne.Container) {
	for range 2 {
		for _, c := range list {
			c.Layout.Layout(c.Objects, c.Size())
			for _, o := range c.Objects {
				if in, ok := o.(*fyne.Container); ok {
					in.Layout.Layout(in.Objects, in.Size())
				}
			}
		}
	}
}

// inside lists an object and what its containers hold.
func inside(o fyne.CanvasObject) []fyne.CanvasObject {
	out := []fyne.CanvasObject{o}
	if c, ok := o.(*fyne.Container); ok {
		for _, in := range c.Objects {
			out = append(out, inside(in)...)
		}
	}
	return out
}

// into scrolls so that an object of the content is in sight.
func into(s *container.Scroll, o fyne.CanvasObject) {
	d := fyne.CurrentApp().Driver()
	y := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s.Content).Y
	to := s.Offset.Y
	if low := y + o.Size().Height + 2*pad() - s.Size().Height; to < low {
		to = low
	}
	if high := y - 2*pad(); to > high {
		to = high
	}
	if to = fyne.Max(to, 0); to != s.Offset.Y {
		s.ScrollToOffset(fyne.NewPos(0, to))
	}
}
