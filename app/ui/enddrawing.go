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
	"heartside/layout/wood"
	"heartside/model/catalog"
	"heartside/model/say"
)

// endDrawing shows the end of a board as its two faces imply it: the section
// seen from the marked end with face 1 up, so that the marked edge lies at the
// right, the heartwood in it, rings and the pith.
type endDrawing struct {
	widget.BaseWidget
	w       *Window
	raster  *canvas.Raster
	img     *image.RGBA
	end     *wood.EndView
	species string
}

func newEndDrawing(w *Window) *endDrawing {
	d := &endDrawing{w: w}
	d.raster = canvas.NewRaster(d.paint)
	d.ExtendBaseWidget(d)
	return d
}

func (d *endDrawing) show(e *wood.EndView, species string) {
	d.end, d.species = e, species
	d.raster.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (d *endDrawing) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(d.raster) }

// MinSize implements fyne.CanvasObject.
func (d *endDrawing) MinSize() fyne.Size {
	return fyne.NewSize(160, 110*float32(d.w.look.TextPercent())/100)
}

func (d *endDrawing) paint(w, h int) image.Image {
	if d.img == nil || d.img.Rect.Dx() != w || d.img.Rect.Dy() != h {
		d.img = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	k := float64(w) / float64(max(d.Size().Width, 1))
	c := render.NewRaster(d.img, k, d.w.faces)
	room := geom.R(0, 0, float64(d.Size().Width), float64(d.Size().Height))
	c.Fill(render.Box(room), nrgba(theme.Color(theme.ColorNameBackground)))
	if d.end != nil {
		drawEnd(c, d.end, room, catalog.Find(d.species), nrgba(theme.Color(theme.ColorNameForeground)), 9*float64(d.w.look.TextPercent())/100)
	}
	return d.img
}

// farPith is how far off the pith may lie and still be drawn in its place, in
// widths of the board; rings tell of one farther off.
const farPith = 0.8

// drawEnd draws an end into a room. Across runs from right to left, depth
// downwards.
func drawEnd(c render.Canvas, e *wood.EndView, room geom.Rect, s catalog.Species, ink color.NRGBA, text float64) {
	seen := e.Board
	if near := e.Board.Inset(-farPith * e.Board.W()); near.Contains(e.Pith) {
		seen = seen.Union(geom.Rect{Min: e.Pith, Max: e.Pith}.Inset(-2))
	}
	air := 1.7 * text
	scale := math.Min((room.W()-2*air)/seen.W(), (room.H()-2*air)/seen.H())
	mid, at := seen.Centre(), room.Centre()
	m := geom.Translate(-mid.X, -mid.Y).Then(geom.Scale(-scale, scale)).Then(geom.Translate(at.X, at.Y))
	board := m.ApplyTo(e.Board.Polygon())
	sap := s.SapSwatch().ToNRGBA()
	c.Fill(render.Ring(board), sap)
	c.Hatch(render.Ring(board), render.Hatch{Angle: 45, Spacing: 7, Pen: render.Pen{Width: 0.9, Color: color.NRGBA{R: 0x2B, G: 0x21, B: 0x18, A: 0x78}}})
	if len(e.Heart) > 2 {
		c.Fill(render.Ring(m.ApplyTo(e.Heart)), s.HeartSwatch().ToNRGBA())
	}
	faint := ink
	faint.A = 90
	for _, r := range e.Rings {
		c.Push(render.Ring(board))
		c.Stroke(render.Ring(m.ApplyTo(circle(e.Pith, r.Radius))), render.Pen{Width: 0.8, Color: faint})
		c.Pop()
	}
	for _, p := range []geom.Polygon{e.Least, e.Most} {
		if len(p) > 2 {
			c.Stroke(render.Ring(m.ApplyTo(p)), render.Pen{Width: 1, Color: ink, Dash: []float64{3, 3}})
		}
	}
	c.Stroke(render.Ring(board), render.Pen{Width: 1.4, Color: ink})
	pith := m.Apply(e.Pith)
	if seen != e.Board || e.Board.Contains(e.Pith) {
		for _, d := range []geom.Point{{X: 4}, {Y: 4}} {
			c.Stroke(render.Path{{Points: []geom.Point{pith.Sub(d), pith.Add(d)}}}, render.Pen{Width: 1.6, Color: ink})
		}
	}
	st := render.Style{Size: text, Color: ink}
	right, low := geom.Polygon(board).Bounds().Max.X, geom.Polygon(board).Bounds().Max.Y
	right, low = math.Min(right, room.Max.X), math.Min(low+1.1*text, room.Max.Y-2)
	st.Align = render.Right
	c.Text(geom.Pt(right, low), say.T("marked edge"), st)
	st.Align = render.Left
	c.Text(geom.Pt(math.Max(geom.Polygon(board).Bounds().Min.X, 2), geom.Polygon(board).Bounds().Min.Y-0.4*text), say.T("face 1"), st)
}

// circle is a ring as a polygon.
func circle(mid geom.Point, radius float64) geom.Polygon {
	return geom.Ellipse(geom.R(mid.X-radius, mid.Y-radius, mid.X+radius, mid.Y+radius), 180)
}
