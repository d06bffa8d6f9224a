package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// figure is one row of readings.
type figure struct {
	name, show, back string
	head, quiet      bool
}

// figures is a table of readings. Its texts are kept and written anew only
// where they differ.
type figures struct {
	box   *fyne.Container
	cells [][3]*canvas.Text
	wide  int // value columns: 1 or 2
}

func newFigures(values int) *figures {
	return &figures{box: container.New(&figureLayout{}), wide: values}
}

// set shows the rows.
func (f *figures) set(rows []figure) {
	for len(f.cells) < len(rows) {
		var c [3]*canvas.Text
		for i := range c {
			c[i] = text(theme.SizeNameText, false)
			if i > 0 {
				c[i].Alignment = fyne.TextAlignTrailing
			}
			f.box.Add(c[i])
		}
		f.cells = append(f.cells, c)
	}
	changed := false
	for i, c := range f.cells {
		r := figure{}
		if i < len(rows) {
			r = rows[i]
		}
		for k, s := range [3]string{r.name, r.show, r.back} {
			hue := theme.ColorNameForeground
			size := theme.Size(theme.SizeNameText)
			if r.head || r.quiet {
				hue, size = theme.ColorNamePlaceHolder, theme.Size(theme.SizeNameCaptionText)
			}
			if (c[k].Text == "") != (s == "") || c[k].TextSize != size || len(c[k].Text) != len(s) {
				changed = true
			}
			c[k].TextSize = size
			c[k].TextStyle.Bold = k == 1 && !r.head && !r.quiet
			write(c[k], s, hue)
		}
	}
	if changed {
		f.box.Refresh()
	}
}

// figureLayout sets rows of three texts; an empty row takes no room.
type figureLayout struct{}

func (figureLayout) rows(objs []fyne.CanvasObject) (name, value float32, heights []float32) {
	for i := 0; i+2 < len(objs); i += 3 {
		var h float32
		for k := 0; k < 3; k++ {
			t, ok := objs[i+k].(*canvas.Text)
			if !ok || t.Text == "" {
				continue
			}
			m := t.MinSize()
			h = fyne.Max(h, m.Height)
			if k == 0 {
				name = fyne.Max(name, m.Width)
			} else {
				value = fyne.Max(value, m.Width)
			}
		}
		heights = append(heights, h)
	}
	return name, value, heights
}

// MinSize implements fyne.Layout. The width asked for is small: the column
// decides it.
func (l figureLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	_, _, hs := l.rows(objs)
	var h float32
	for _, v := range hs {
		h += v
	}
	return fyne.NewSize(100, h)
}

// Layout implements fyne.Layout.
func (l figureLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	_, value, hs := l.rows(objs)
	value += pad()
	if most := size.Width * 0.36; value > most {
		value = most
	}
	var y float32
	for i, h := range hs {
		for k := 0; k < 3; k++ {
			o := objs[3*i+k]
			x, w := float32(0), size.Width-2*value
			if k > 0 {
				x, w = size.Width-value*float32(3-k), value
			}
			o.Move(fyne.NewPos(x, y))
			o.Resize(fyne.NewSize(w, h))
		}
		y += h
	}
}

// gauge shows a share as a bar, its range as a paler one, and the limit as a
// tick.
type gauge struct {
	widget.BaseWidget
	value, lo, hi, limit float64
	over                 bool
}

func newGauge() *gauge {
	g := &gauge{limit: -1}
	g.ExtendBaseWidget(g)
	return g
}

func (g *gauge) set(value, lo, hi, limit float64, over bool) {
	if g.value == value && g.lo == lo && g.hi == hi && g.limit == limit && g.over == over {
		return
	}
	g.value, g.lo, g.hi, g.limit, g.over = value, lo, hi, limit, over
	g.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (g *gauge) CreateRenderer() fyne.WidgetRenderer {
	r := &gaugeRenderer{g: g}
	for i := range r.bars {
		r.bars[i] = canvas.NewRectangle(theme.Color(theme.ColorNameForeground))
		r.bars[i].CornerRadius = 2
		r.objs = append(r.objs, r.bars[i])
	}
	return r
}

type gaugeRenderer struct {
	g    *gauge
	bars [4]*canvas.Rectangle // ground, range, value, limit
	objs []fyne.CanvasObject
}

func (r *gaugeRenderer) Layout(size fyne.Size) {
	h := fyne.Max(size.Height/2, 4)
	y := (size.Height - h) / 2
	at := func(v float64) float32 { return float32(min(max(v, 0), 1)) * size.Width }
	put := func(i int, x0, x1, y, h float32) {
		r.bars[i].Move(fyne.NewPos(x0, y))
		r.bars[i].Resize(fyne.NewSize(x1-x0, h))
	}
	put(0, 0, size.Width, y, h)
	put(1, at(r.g.lo), at(r.g.hi), y, h)
	put(2, 0, at(r.g.value), y, h)
	x := at(max(r.g.limit, 0))
	put(3, fyne.Max(x-1, 0), fyne.Max(x-1, 0)+2, 0, size.Height)
}

func (r *gaugeRenderer) MinSize() fyne.Size { return fyne.NewSize(60, 3*pad()) }

func (r *gaugeRenderer) Refresh() {
	hue := theme.ColorNamePrimary
	if r.g.over {
		hue = theme.ColorNameError
	}
	r.bars[0].FillColor = theme.Color(theme.ColorNameSeparator)
	r.bars[1].FillColor = theme.Color(theme.ColorNameFocus)
	r.bars[2].FillColor = theme.Color(hue)
	r.bars[3].FillColor = theme.Color(theme.ColorNameForeground)
	r.bars[3].Hidden = r.g.limit < 0
	r.Layout(r.g.Size())
	canvas.Refresh(r.g)
}

func (r *gaugeRenderer) Objects() []fyne.CanvasObject { return r.objs }
func (r *gaugeRenderer) Destroy()                     {}
