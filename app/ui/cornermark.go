package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"heartside/layout/geom"
)

// cornerMark is a corner on a picture: a ring with open middle, its number and
// its name on a plate beside it.
type cornerMark struct {
	dark, light *canvas.Circle // one of them shows on any wood
	plate       *canvas.Rectangle
	text        *canvas.Text
}

func newCornerMark() *cornerMark {
	m := &cornerMark{dark: canvas.NewCircle(color.Transparent), light: canvas.NewCircle(color.Transparent),
		plate: canvas.NewRectangle(color.NRGBA{A: 200}), text: canvas.NewText("", color.White)}
	m.dark.StrokeColor, m.dark.StrokeWidth = color.NRGBA{A: 255}, 5
	m.light.StrokeWidth = 2
	m.plate.CornerRadius = 3
	return m
}

func (m *cornerMark) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{m.dark, m.light, m.plate, m.text}
}

func (m *cornerMark) show(on bool) {
	for _, o := range m.objects() {
		if on {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// place sets the mark at a place in a room; the plate keeps inside the room
// and away from the middle of the ring.
func (m *cornerMark) place(at, room geom.Point, name string, inHand bool) {
	m.show(at.X >= -2 && at.Y >= -2 && at.X <= room.X+2 && at.Y <= room.Y+2)
	m.light.StrokeColor = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	if inHand {
		m.light.StrokeColor = color.NRGBA{R: 255, G: 200, B: 60, A: 255}
	}
	const d = 16
	for _, c := range []*canvas.Circle{m.dark, m.light} {
		c.Resize(fyne.NewSize(d, d))
		c.Move(fyne.NewPos(float32(at.X)-d/2, float32(at.Y)-d/2))
	}
	m.text.Text, m.text.TextSize = name, theme.Size(theme.SizeNameCaptionText)
	size := m.text.MinSize()
	x, y := float32(at.X)+d, float32(at.Y)-d-size.Height
	if at.X > room.X/2 {
		x = float32(at.X) - d - size.Width
	}
	if at.Y < room.Y/2 {
		y = float32(at.Y) + d
	}
	x = fyne.Max(fyne.Min(x, float32(room.X)-size.Width-6), 6)
	y = fyne.Max(fyne.Min(y, float32(room.Y)-size.Height-4), 4)
	m.text.Move(fyne.NewPos(x, y))
	m.text.Resize(size)
	m.plate.Move(fyne.NewPos(x-5, y-2))
	m.plate.Resize(size.AddWidthHeight(10, 4))
}

type cornerRenderer struct {
	p      *cornerPicker
	raster *canvas.Raster
	ring   *canvas.Rectangle  // shows that the keys work here
	lines  [4][2]*canvas.Line // dark, and light on it
	marks  [4]*cornerMark
	objs   []fyne.CanvasObject
}

// Layout implements fyne.WidgetRenderer.
func (r *cornerRenderer) Layout(size fyne.Size) {
	r.p.view.room = geom.Pt(float64(size.Width), float64(size.Height))
	r.p.view.hold()
	r.raster.Resize(size)
	r.ring.Resize(size)
	r.place()
}

func (r *cornerRenderer) place() {
	p := r.p
	n := len(p.corners)
	at := func(i int) geom.Point { return p.view.toRoom(p.corners[i]) }
	for i := range r.marks {
		for _, l := range r.lines[i] {
			l.Hidden = true
		}
		if i >= n {
			r.marks[i].show(false)
			continue
		}
		r.marks[i].place(at(i), p.view.room, itoa(i+1)+"  "+p.names[i], i == p.hand)
		if i+1 < n || n == 4 {
			a, b, ok := clipLine(at(i), at((i+1)%n), p.view.room)
			for _, l := range r.lines[i] {
				l.Hidden = !ok
				l.Position1, l.Position2 = position(a), position(b)
			}
		}
	}
}

func position(p geom.Point) fyne.Position { return fyne.NewPos(float32(p.X), float32(p.Y)) }

// clipLine keeps the part of a line that lies in a room.
func clipLine(a, b, room geom.Point) (geom.Point, geom.Point, bool) {
	lo, hi := 0.0, 1.0
	d := b.Sub(a)
	for _, s := range [4][2]float64{{-d.X, a.X}, {d.X, room.X - a.X}, {-d.Y, a.Y}, {d.Y, room.Y - a.Y}} {
		switch {
		case s[0] == 0 && s[1] < 0:
			return a, b, false
		case s[0] < 0:
			lo = max(lo, s[1]/s[0])
		case s[0] > 0:
			hi = min(hi, s[1]/s[0])
		}
	}
	return a.Add(d.Mul(lo)), a.Add(d.Mul(hi)), lo < hi
}

// MinSize implements fyne.WidgetRenderer.
func (r *cornerRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 120) }

// Refresh implements fyne.WidgetRenderer.
func (r *cornerRenderer) Refresh() {
	r.ring.StrokeWidth = 0
	if r.p.focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	r.ring.FillColor = color.Transparent
	r.place()
	for _, o := range r.objs {
		canvas.Refresh(o)
	}
}

// Objects implements fyne.WidgetRenderer.
func (r *cornerRenderer) Objects() []fyne.CanvasObject { return r.objs }

// Destroy implements fyne.WidgetRenderer.
func (r *cornerRenderer) Destroy() {}
