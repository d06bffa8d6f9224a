package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/model/say"
)

// widthBars draws the width of a panel today and in both seasons, one bar under
// the other about the line that stays, with the changes made greater.
type widthBars struct {
	w    *Window
	y    session.YearWidth
	bars [3]widthBar
	k    float64 // how many times the changes are drawn
}

type widthBar struct {
	name, says string
	width      float64 // mm
}

// Changes are drawn no greater than this part of the width.
const barChange = 0.2

func newWidthBars(w *Window, y session.YearWidth) *widthBars {
	b := &widthBars{w: w, y: y, k: 1}
	b.bars = [3]widthBar{
		{say.T("today"), w.ses.Len(y.Now), y.Now},
		{say.T("driest"), w.ses.Len(y.Dry) + "  (" + w.ses.Signed(y.Dry-y.Now) + ")", y.Dry},
		{say.T("dampest"), w.ses.Len(y.Wet) + "  (" + w.ses.Signed(y.Wet-y.Now) + ")", y.Wet},
	}
	most := math.Max(math.Abs(y.Dry-y.Now), math.Abs(y.Wet-y.Now))
	for _, k := range []float64{2, 5, 10, 20} {
		if k*most <= barChange*y.Now {
			b.k = k
		}
	}
	return b
}

// shown is how wide a bar is drawn, mm.
func (b *widthBars) shown(i int) float64 { return b.y.Now + b.k*(b.bars[i].width-b.y.Now) }

// object is the drawing with a word on its scale.
func (b *widthBars) object() []fyne.CanvasObject {
	d := newBehaveDrawing(b.w, b.high, b.draw)
	for _, bar := range b.bars {
		d.says += bar.name + " " + bar.says + ". "
	}
	text := say.T("The changes are drawn as they are.")
	if b.k > 1 {
		text = say.F("The changes are drawn %g times as large as they are.", b.k)
	}
	l := wrapped(text, widget.LowImportance)
	l.SizeName = theme.SizeNameCaptionText
	return []fyne.CanvasObject{d, snug(l)}
}

// high is the height of the drawing: a line of words over each bar, and one
// below for the edges.
func (b *widthBars) high(float64) float64 {
	t := b.w.behaveText()
	return 3*(b.row()) + 1.7*t
}

func (b *widthBars) row() float64 { return 3.1 * b.w.behaveText() }

func (b *widthBars) draw(c render.Canvas, room geom.Rect) {
	t := b.w.behaveText()
	ink, line := nrgba(theme.Color(theme.ColorNameForeground)), nrgba(theme.Color(theme.ColorNameInputBorder))
	fill := nrgba(theme.Color(theme.ColorNameButton))
	plain, quiet := b.w.behaveStyle(false), b.w.behaveStyle(true)
	left, right := 0.0, 0.0 // of the line that stays, mm drawn
	for i := range b.bars {
		left = math.Max(left, b.y.Stays*b.shown(i))
		right = math.Max(right, (1-b.y.Stays)*b.shown(i))
	}
	air := 2.0
	scale := (room.W() - 2*air) / (left + right)
	at := air + left*scale
	x := func(i int) (float64, float64) {
		return at - b.y.Stays*b.shown(i)*scale, at + (1-b.y.Stays)*b.shown(i)*scale
	}
	x0, x1 := x(0)
	for i, bar := range b.bars {
		y := float64(i)*b.row() + 1.4*t
		st := plain
		st.Bold = i == 0
		c.Text(geom.Pt(air, y-0.4*t), bar.name, st)
		st.Align, st.Bold = render.Right, true
		c.Text(geom.Pt(room.Max.X-air, y-0.4*t), bar.says, st)
		a, z := x(i)
		box := geom.R(a, y, z, y+1.15*t)
		c.Fill(render.Box(box), fill)
		// What is more than today is hatched, what is less is left open.
		for _, part := range [2][2]float64{{a, x0}, {x1, z}} {
			q := geom.R(part[0], y, part[1], y+1.15*t)
			switch d := part[1] - part[0]; {
			case d > 0.3:
				c.Hatch(render.Box(q), render.Hatch{Angle: 45, Spacing: 0.35 * t, Pen: render.Pen{Width: 1, Color: ink}})
			case d < -0.3:
				c.Stroke(render.Box(geom.R(part[1], y, part[0], y+1.15*t)), render.Pen{Width: 1, Color: line, Dash: []float64{2, 2}})
			}
		}
		c.Stroke(render.Box(box), render.Pen{Width: 1.2, Color: ink})
	}
	low := 2*b.row() + 2.55*t
	accent := nrgba(theme.Color(theme.ColorNamePrimary))
	c.Stroke(render.Segment(geom.Pt(at, 1.4*t), geom.Pt(at, low+0.3*t)), render.Pen{Width: 2, Color: accent})
	y := low + 1.35*t
	front, back, mid := b.y.Front, b.y.Back, ""
	switch b.y.Stays {
	case 0:
		front += say.T(", stays")
	case 1:
		back += say.T(", stays")
	default:
		mid = say.T("the middle stays")
	}
	c.Text(geom.Pt(air, y), front, quiet)
	quiet.Align = render.Right
	c.Text(geom.Pt(room.Max.X-air, y), back, quiet)
	if mid != "" {
		quiet.Align = render.Middle
		c.Text(geom.Pt(at, y), mid, quiet)
	}
}
