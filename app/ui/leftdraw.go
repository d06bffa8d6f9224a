package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
)

// leftDrawing is a board seen on face 1 with what is cut from it hatched and what
// is left numbered. Its length is squeezed to the width there is.
type leftDrawing struct {
	widget.BaseWidget
	w      *Window
	board  *session.LeftBoard
	raster *canvas.Raster
	img    *image.RGBA
}

func newLeftDrawing(w *Window, b *session.LeftBoard) *leftDrawing {
	d := &leftDrawing{w: w, board: b}
	d.raster = canvas.NewRaster(d.paint)
	d.ExtendBaseWidget(d)
	return d
}

// CreateRenderer implements fyne.Widget.
func (d *leftDrawing) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(d.raster)
}

// MinSize implements fyne.CanvasObject.
func (d *leftDrawing) MinSize() fyne.Size {
	return fyne.NewSize(200, 96*float32(d.w.look.TextPercent())/100)
}

func (d *leftDrawing) paint(w, h int) image.Image {
	if d.img == nil || d.img.Rect.Dx() != w || d.img.Rect.Dy() != h {
		d.img = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	k := float64(w) / float64(max(d.Size().Width, 1))
	c := render.NewRaster(d.img, k, d.w.faces)
	width, height := float64(d.Size().Width), float64(d.Size().Height)
	c.Fill(render.Box(geom.R(0, 0, width, height)), nrgba(theme.Color(theme.ColorNameBackground)))
	st := render.Style{Size: 11 * float64(d.w.look.TextPercent()) / 100, Color: nrgba(theme.Color(theme.ColorNameForeground))}
	if b := d.w.ses.Project().Board(d.board.Board); b != nil {
		d.draw(c, b, geom.R(1, 1, width-1, height-1.8*st.Size), st)
	}
	return d.img
}

func (d *leftDrawing) draw(c render.Canvas, b *model.Board, box geom.Rect, st render.Style) {
	// The face's own y runs up.
	m := geom.Scale(box.W()/b.Length, -box.H()/b.Width).Then(geom.Translate(box.Min.X, box.Max.Y))
	s := catalog.Find(b.Species)
	hues := map[model.ZoneKind]color.NRGBA{model.Heart: s.HeartSwatch().ToNRGBA(), model.Sap: s.SapSwatch().ToNRGBA(),
		model.Flaw: {R: 0x30, G: 0x1C, B: 0x12, A: 255}, model.Unseen: {R: 0x9A, G: 0x93, B: 0x8A, A: 255}}
	base := hues[model.Heart]
	if b.Faces[0].Base == model.Sap {
		base = hues[model.Sap]
	}
	c.Fill(render.Box(box), base)
	c.Push(render.Box(box))
	for _, z := range b.Faces[0].Zones {
		ring := render.Ring(m.ApplyTo(z.Polygon))
		c.Fill(ring, hues[z.Kind])
		if z.Kind == model.Sap {
			c.Hatch(ring, render.Hatch{Angle: 60, Spacing: 6, Pen: render.Pen{Width: 0.6, Color: color.NRGBA{A: 110}}})
		}
	}
	for i := range d.board.Strips {
		d.strip(c, i, m, st)
	}
	white := color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	for i := range d.board.Pieces {
		x := &d.board.Pieces[i]
		r := m.ApplyTo(x.Place.Polygon()).Bounds()
		c.Stroke(render.Box(r.Inset(1)), render.Pen{Width: 3, Color: color.NRGBA{A: 200}})
		c.Stroke(render.Box(r.Inset(1)), render.Pen{Width: 1.4, Color: white})
		rimmed(c, r.Centre(), x.Name, st)
	}
	c.Pop()
	c.Stroke(render.Box(box), render.Pen{Width: 1, Color: st.Color})
	c.Text(geom.Pt(box.Min.X, box.Max.Y+1.3*st.Size), say.T("face 1, the marked end at the left, the marked edge below; cut pieces are crossed"), st)
}

// strip draws a piece that is cut.
func (d *leftDrawing) strip(c render.Canvas, i int, m geom.Affine, st render.Style) {
	s := &d.board.Strips[i]
	at := geom.Rotate(s.Angle).Then(geom.Translate(s.X, s.Y)).Then(m)
	ring := render.Ring(at.ApplyTo(geom.R(0, 0, s.L, s.W).Polygon()))
	c.Fill(ring, color.NRGBA{R: 128, G: 128, B: 128, A: 150})
	c.Hatch(ring, render.Hatch{Angle: 45, Spacing: 7, Cross: true, Pen: render.Pen{Width: 0.8, Color: color.NRGBA{A: 170}}})
	c.Stroke(ring, render.Pen{Width: 1, Color: color.NRGBA{A: 220}})
	rimmed(c, at.Apply(geom.Pt(s.L/2, s.W/2)), d.board.Labels[i], st)
}

// rimmed writes a name in white with a dark rim, about a point.
func rimmed(c render.Canvas, at geom.Point, name string, st render.Style) {
	at.Y += 0.36 * st.Size
	st.Bold, st.Align = true, render.Middle
	st.Color = color.NRGBA{A: 220}
	for _, o := range []geom.Point{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}} {
		c.Text(at.Add(o), name, st)
	}
	st.Color = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	c.Text(at, name, st)
}
