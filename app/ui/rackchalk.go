package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// chalkDrawing shows where the letter goes: a board seen a little from above
// and from its marked end, face 1 up, and the same board rolled over.
type chalkDrawing struct {
	widget.BaseWidget
	w *Window
}

func newChalkDrawing(w *Window) *chalkDrawing {
	d := &chalkDrawing{w: w}
	d.ExtendBaseWidget(d)
	return d
}

// CreateRenderer implements fyne.Widget.
func (d *chalkDrawing) CreateRenderer() fyne.WidgetRenderer {
	r := &chalkRenderer{d: d}
	r.build()
	return r
}

type chalkRenderer struct {
	d    *chalkDrawing
	objs []fyne.CanvasObject
	size fyne.Size
}

// build draws both boards anew in the colours and size of the theme. The end
// is seen as a parallelogram at the left; its corners are, in this order, the
// lower and the upper one at the near edge, then those at the far edge.
func (r *chalkRenderer) build() {
	t := theme.TextSize()
	r.objs = nil
	r.board(0, say.T("face 1"), true)
	r.board(t*17.5, say.T("face 2, rolled over"), false)
	r.size = fyne.NewSize(t*34, t*7.8)
}

func (r *chalkRenderer) board(x float32, name string, first bool) {
	t := theme.TextSize()
	at := func(px, py float32) fyne.Position { return fyne.NewPos(x+px*t, py*t) }
	// The near edge is below, the far edge above, the end at the left.
	a, b := at(4, 4.6), at(15.4, 4.6) // near edge, top
	c, d := at(4, 6.3), at(15.4, 6.3) // near edge, bottom
	e, f := at(0.8, 2), at(12.2, 2)   // far edge, top
	g := at(0.8, 3.7)                 // far edge, bottom
	line := func(p, q fyne.Position, w float32) {
		l := canvas.NewLine(theme.Color(theme.ColorNameForeground))
		l.Position1, l.Position2, l.StrokeWidth = p, q, w
		r.objs = append(r.objs, l)
	}
	for _, s := range [][2]fyne.Position{{a, c}, {c, d}, {d, b}, {e, f}, {f, b}, {e, g}, {g, c}} {
		line(s[0], s[1], 1.2)
	}
	if first { // the marked edge is the near one
		line(a, b, 3)
	} else {
		line(a, b, 1.2)
		line(g, e, 1.2)
		line(e, f, 3)
	}
	line(e, a, 1.2)
	text := func(s string, p fyne.Position, size float32, bold bool) {
		o := canvas.NewText(s, theme.Color(theme.ColorNameForeground))
		o.TextSize, o.TextStyle.Bold = size, bold
		o.Move(p)
		o.Resize(o.MinSize())
		r.objs = append(r.objs, o)
	}
	text(name, at(3.9, 2.6), 0.95*t, false)
	if first {
		text("A", at(2.75, 3.95), 1.15*t, true)
		text(say.T("marked edge"), at(6, 6.4), 0.88*t, false)
		text(say.T("marked end"), at(0, 0.5), 0.88*t, false)
	} else {
		text("∀", at(1.15, 2.75), 1.15*t, true) // upside down: the letter's side is underneath
		text(say.T("marked edge"), at(4, 0.5), 0.88*t, false)
		text(say.T("marked end"), at(0, 6.4), 0.88*t, false)
	}
}

// Layout implements fyne.WidgetRenderer.
func (r *chalkRenderer) Layout(fyne.Size) {}

// MinSize implements fyne.WidgetRenderer.
func (r *chalkRenderer) MinSize() fyne.Size { return r.size }

// Objects implements fyne.WidgetRenderer.
func (r *chalkRenderer) Objects() []fyne.CanvasObject { return r.objs }

// Refresh implements fyne.WidgetRenderer.
func (r *chalkRenderer) Refresh() {
	r.build()
	canvas.Refresh(r.d)
}

// Destroy implements fyne.WidgetRenderer.
func (r *chalkRenderer) Destroy() {}
