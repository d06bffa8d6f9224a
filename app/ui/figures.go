package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model/say"
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
}

// newFigures returns an empty table.
func newFigures() *figures { return &figures{box: container.New(&figureLayout{width: 300})} }

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

// figureLayout sets rows of three texts: a name and two values in columns. An
// empty row takes no room; where name and values do not fit one line, the
// values go under the name.
type figureLayout struct{ width float32 } // of the last Layout

// columns returns the widths of the two value columns.
func (l *figureLayout) columns(objs []fyne.CanvasObject) (a, b float32) {
	for i := 0; i+2 < len(objs); i += 3 {
		a, b = fyne.Max(a, textSize(objs[i+1]).Width), fyne.Max(b, textSize(objs[i+2]).Width)
	}
	return a + 2*pad(), b + 2*pad()
}

// row returns the height of a row's name where the values go under it, else 0,
// and the height of the row.
func (l *figureLayout) row(objs []fyne.CanvasObject, i int, values float32) (above, h float32) {
	name := textSize(objs[i])
	h = fyne.Max(textSize(objs[i+1]).Height, textSize(objs[i+2]).Height)
	if h > 0 && name.Width > l.width-values {
		return name.Height, name.Height + h
	}
	return 0, fyne.Max(h, name.Height)
}

// textSize is the size of a text, nothing for an empty one.
func textSize(o fyne.CanvasObject) fyne.Size {
	if t, ok := o.(*canvas.Text); ok && t.Text != "" {
		return t.MinSize()
	}
	return fyne.Size{}
}

// MinSize implements fyne.Layout. The width asked for is small: the column
// decides it.
func (l *figureLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	a, b := l.columns(objs)
	var h float32
	for i := 0; i+2 < len(objs); i += 3 {
		_, r := l.row(objs, i, a+b)
		h += r
	}
	return fyne.NewSize(100, h)
}

// Layout implements fyne.Layout.
func (l *figureLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	a, b := l.columns(objs)
	var y float32
	for i := 0; i+2 < len(objs); i += 3 {
		above, h := l.row(objs, i, a+b)
		put := func(o fyne.CanvasObject, x, top, w, h float32) {
			o.Move(fyne.NewPos(x, top))
			o.Resize(fyne.NewSize(w, h))
		}
		head := above
		if head == 0 {
			head = h
		}
		put(objs[i], 0, y, size.Width, head)
		put(objs[i+1], size.Width-a-b, y+above, a, h-above)
		put(objs[i+2], size.Width-b, y+above, b, h-above)
		y += h
	}
}

// gauge shows a share as a bar, its range as a paler one, and the limit as a
// tick with its figure under it.
type gauge struct {
	widget.BaseWidget
	share face.Share
	limit float64
	over  bool
}

func newGauge() *gauge {
	g := &gauge{limit: -1}
	g.ExtendBaseWidget(g)
	return g
}

// none shows no gauge.
func (g *gauge) none() {
	if g.Visible() {
		g.Hide()
	}
}

func (g *gauge) set(share face.Share, limit float64, over bool) {
	if !g.Visible() {
		g.Show()
	}
	if g.share == share && g.limit == limit && g.over == over {
		return
	}
	g.share, g.limit, g.over = share, limit, over
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
	r.tick = text(theme.SizeNameCaptionText, false)
	r.objs = append(r.objs, r.tick)
	return r
}

type gaugeRenderer struct {
	g    *gauge
	tick *canvas.Text         // what the limit is
	bars [4]*canvas.Rectangle // ground, range, value, limit
	objs []fyne.CanvasObject
}

func (r *gaugeRenderer) Layout(size fyne.Size) {
	all := 3 * pad()
	h := fyne.Max(all/2, 4)
	y := (all - h) / 2
	at := func(v float64) float32 { return float32(min(max(v, 0), 1)) * size.Width }
	put := func(i int, x0, x1, y, h float32) {
		r.bars[i].Move(fyne.NewPos(x0, y))
		r.bars[i].Resize(fyne.NewSize(x1-x0, h))
	}
	put(0, 0, size.Width, y, h)
	put(1, at(r.g.share.Lo), at(r.g.share.Hi), y, h)
	put(2, 0, at(r.g.share.Value), y, h)
	x := at(max(r.g.limit, 0))
	put(3, fyne.Max(x-1, 0), fyne.Max(x-1, 0)+2, 0, all)
	m := r.tick.MinSize()
	r.tick.Resize(m)
	r.tick.Move(fyne.NewPos(fyne.Max(fyne.Min(x-m.Width/2, size.Width-m.Width), 0), all))
}

func (r *gaugeRenderer) MinSize() fyne.Size {
	h := 3 * pad()
	if r.g.limit >= 0 {
		h += r.tick.MinSize().Height
	}
	return fyne.NewSize(60, h)
}

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
	r.tick.Hidden = r.g.limit < 0
	r.tick.Text, r.tick.Color = say.F("limit %s", session.Percent(max(r.g.limit, 0))), theme.Color(theme.ColorNamePlaceHolder)
	r.Layout(r.g.Size())
	canvas.Refresh(r.g)
}

func (r *gaugeRenderer) Objects() []fyne.CanvasObject { return r.objs }
func (r *gaugeRenderer) Destroy()                     {}
