package ui

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/catalog"
	"heartside/model/say"
)

// endSketch is a small drawing of the section as it is seen from outside with
// face 1 up: on the marked end the marked edge lies at the right, on the other
// end at the left. What was read is drawn in.
type endSketch struct {
	widget.BaseWidget
	p       *endPage
	raster  *canvas.Raster
	img     *image.RGBA
	species string
}

func newEndSketch(p *endPage) *endSketch {
	d := &endSketch{p: p}
	d.raster = canvas.NewRaster(d.paint)
	d.ExtendBaseWidget(d)
	return d
}

func (d *endSketch) show(species string) {
	d.species = species
	d.raster.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (d *endSketch) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(d.raster)
}

// MinSize implements fyne.CanvasObject: as high as the section and its names
// need in the column, with room for a pith just outside.
func (d *endSketch) MinSize() fyne.Size {
	k := float32(d.p.w.look.TextPercent()) / 100
	high := 1.4*(d.p.w.columnWidth()-40)*float32(d.p.thickness/d.p.width) + 44*k
	return fyne.NewSize(160, fyne.Min(high, 110*k))
}

func (d *endSketch) paint(w, h int) image.Image {
	if d.img == nil || d.img.Rect.Dx() != w || d.img.Rect.Dy() != h {
		d.img = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	k := float64(w) / float64(max(d.Size().Width, 1))
	c := render.NewRaster(d.img, k, d.p.w.faces)
	room := geom.R(0, 0, float64(d.Size().Width), float64(d.Size().Height))
	clear(d.img.Pix)
	d.draw(c, room)
	return d.img
}

// draw draws the section into a room.
func (d *endSketch) draw(c render.Canvas, room geom.Rect) {
	p := d.p
	s, ink := catalog.Find(d.species), nrgba(theme.Color(theme.ColorNameForeground))
	text := 10 * float64(p.w.look.TextPercent()) / 100
	board := geom.R(0, 0, p.width, p.thickness)
	seen := board
	pith := p.got.pith
	if pith != nil && (!pith.Found || p.step == endCorners) {
		pith = nil
	}
	if pith != nil && board.Inset(-farPith*p.width).Contains(pith.At) {
		seen = seen.Union(geom.Rect{Min: pith.At, Max: pith.At}.Inset(-2))
	}
	air := 1.9 * text
	scale := math.Min((room.W()-20)/seen.W(), (room.H()-2*air)/seen.H())
	way := scale
	if p.end == 0 {
		way = -scale // across runs from right to left
	}
	mid, at := seen.Centre(), room.Centre()
	m := geom.Translate(-mid.X, -mid.Y).Then(geom.Scale(way, scale)).Then(geom.Translate(at.X, at.Y))
	ring := m.ApplyTo(board.Polygon())
	heart, sap := s.HeartSwatch().ToNRGBA(), s.SapSwatch().ToNRGBA()
	known := pith != nil && p.got.heart != nil && p.got.heart.Seen && !p.now.none
	ground := heart
	if known {
		ground = sap
	}
	c.Fill(render.Ring(ring), ground)
	if known {
		c.Hatch(render.Ring(ring), render.Hatch{Angle: 45, Spacing: 7, Pen: render.Pen{Width: 0.9, Color: color.NRGBA{R: 0x2B, G: 0x21, B: 0x18, A: 0x78}}})
		c.Push(render.Ring(ring))
		c.Fill(render.Ring(m.ApplyTo(circle(pith.At, p.got.heart.Radius))), heart)
		c.Pop()
	}
	if pith != nil {
		c.Push(render.Ring(ring))
		for r := 15.0; r < 600; r += 15 {
			c.Stroke(render.Ring(m.ApplyTo(circle(pith.At, r))), render.Pen{Width: 0.8, Color: color.NRGBA{A: 90}})
		}
		c.Pop()
	}
	c.Stroke(render.Ring(ring), render.Pen{Width: 1.4, Color: ink})
	if pith != nil {
		q := m.Apply(pith.At)
		for _, v := range []geom.Point{{X: 5}, {Y: 5}} {
			c.Stroke(render.Segment(q.Sub(v), q.Add(v)), render.Pen{Width: 1.8, Color: ink})
		}
	}
	d.names(c, geom.Polygon(ring).Bounds(), room, text, ink)
}

// names writes which edge and face is which, and the chalk mark into its
// corner.
func (d *endSketch) names(c render.Canvas, box, room geom.Rect, text float64, ink color.NRGBA) {
	st := render.Style{Size: text, Color: ink}
	marked, other := render.Right, render.Left
	mx, ox := math.Min(box.Max.X, room.Max.X-3), math.Max(box.Min.X, room.Min.X+3)
	if d.p.end == 1 {
		marked, other, mx, ox = other, marked, ox, mx
	}
	low := math.Min(box.Max.Y+1.3*text, room.Max.Y-3)
	st.Align = marked
	c.Text(geom.Pt(mx, low), say.T("marked edge"), st)
	st.Align = other
	c.Text(geom.Pt(ox, low), say.T("other edge"), st)
	st.Align = render.Middle
	c.Text(geom.Pt(box.Centre().X, math.Max(box.Min.Y-0.5*text, text)), say.T("face 1"), st)
}
