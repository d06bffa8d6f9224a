package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
)

// boardDrawing is a small picture of a board unwrapped, for the dialog that
// enters it.
type boardDrawing struct {
	widget.BaseWidget
	w      *Window
	raster *canvas.Raster
	board  *model.Board
	img    *image.RGBA
}

func newBoardDrawing(w *Window) *boardDrawing {
	d := &boardDrawing{w: w}
	d.raster = canvas.NewRaster(d.paint)
	d.ExtendBaseWidget(d)
	return d
}

func (d *boardDrawing) show(b *model.Board) {
	d.board = b
	d.raster.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (d *boardDrawing) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(d.raster)
}

// MinSize implements fyne.CanvasObject.
func (d *boardDrawing) MinSize() fyne.Size {
	return fyne.NewSize(200, 120*float32(d.w.look.TextPercent())/100)
}

func (d *boardDrawing) paint(w, h int) image.Image {
	if d.img == nil || d.img.Rect.Dx() != w || d.img.Rect.Dy() != h {
		d.img = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	ink := theme.Color(theme.ColorNameForeground)
	k := float64(w) / float64(max(d.Size().Width, 1))
	c := render.NewRaster(d.img, k, d.w.faces)
	width, height := float64(d.Size().Width), float64(d.Size().Height)
	c.Fill(render.Box(geom.R(0, 0, width, height)), nrgba(theme.Color(theme.ColorNameOverlayBackground)))
	st := render.Style{Size: 10 * float64(d.w.look.TextPercent()) / 100, Color: nrgba(ink)}
	if d.board == nil || d.board.Length <= 0 || d.board.Width <= 0 {
		c.Text(geom.Pt(6, height/2), say.T("The board is drawn here once its size is in."), st)
		return d.img
	}
	drawBoard(c, d.board, width, height, st)
	return d.img
}

// drawBoard draws both faces with the marked edge between them, the length
// squeezed to the width there is.
func drawBoard(c render.Canvas, b *model.Board, w, h float64, st render.Style) {
	s := catalog.Find(b.Species)
	left, gap := st.Size*2.2, st.Size*1.5
	band := (h - gap - 4) / 2
	for f := 1; f <= 2; f++ {
		box := geom.R(left, 2, w-4, 2+band)
		if f == 2 {
			box = geom.R(left, 2+band+gap, w-4, 2+2*band+gap)
		}
		// The face's own y runs up.
		m := geom.Scale(box.W()/b.Length, -box.H()/b.Width).Then(geom.Translate(box.Min.X, box.Max.Y))
		heart, sap := s.HeartSwatch().ToNRGBA(), s.SapSwatch().ToNRGBA()
		if !b.Faces[f-1].Known && f == 2 {
			heart = color.NRGBA{R: 0x9A, G: 0x93, B: 0x8A, A: 255}
		}
		base := heart
		if b.Faces[f-1].Base == model.Sap {
			base = sap
		}
		c.Fill(render.Box(box), base)
		c.Push(render.Box(box))
		for _, z := range b.Faces[f-1].Zones {
			if f == 2 && !b.Faces[1].Known {
				break
			}
			hue := heart
			switch z.Kind {
			case model.Sap:
				hue = sap
			case model.Flaw:
				hue = color.NRGBA{R: 0x30, G: 0x1C, B: 0x12, A: 255}
			case model.Unseen:
				hue = color.NRGBA{R: 0x9A, G: 0x93, B: 0x8A, A: 255}
			}
			c.Fill(render.Ring(m.ApplyTo(z.Polygon)), hue)
		}
		c.Pop()
		c.Stroke(render.Box(box), render.Pen{Width: 1, Color: st.Color})
		name := st
		name.Align = render.Middle
		c.Text(geom.Pt(left/2, box.Centre().Y+st.Size*0.4), itoa(f), name)
	}
	mark := st
	mark.Bold = true
	mark.Color = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	mark.Size *= 1.4
	rim := mark
	rim.Color = color.NRGBA{A: 160}
	at := geom.Pt(left+4, 2+band-4)
	c.Text(at.Add(geom.Pt(1, 1)), b.ID, rim)
	c.Text(at, b.ID, mark)
	edge := st
	edge.Size *= 0.9
	c.Text(geom.Pt(left, 2+band+gap*0.72), say.T("marked edge; the marked end is at the left"), edge)
}

func nrgba(c color.Color) color.NRGBA { return color.NRGBAModel.Convert(c).(color.NRGBA) }
