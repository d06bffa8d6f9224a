package scene

import (
	"image"
	"image/color"

	"heartside/app/render"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// Shift tells by how much the colour of a kind of wood on face f of a board is
// another than today, in CIELAB.
type Shift func(b *face.Board, f int, k face.Kind) colour.Lab

// aged shifts the colours of a portrait, each kind of wood by its own; to maps
// the panel to pixels. Photographs keep their figure.
func (s *Scene) aged(img *image.RGBA, p *face.Panel, to geom.Affine, by Shift) {
	// What lies where is drawn as colours of its own: red for heartwood, green
	// for sapwood, so that a pixel on the line between them takes of both.
	mask := image.NewRGBA(img.Rect)
	c := render.NewRaster(mask, 1, s.in.Look.Faces)
	for i := range p.Strips {
		st := &p.Strips[i]
		if st.Board == nil {
			continue
		}
		s.kinds(c, st, geom.Translate(p.Left(i), p.StripY(i)).Then(to))
		box := geom.Polygon(to.ApplyTo(stripRect(p, i).Polygon())).Bounds()
		rows := image.Rect(img.Rect.Min.X, int(box.Min.Y+0.5), img.Rect.Max.X, int(box.Max.Y+0.5)).Intersect(img.Rect)
		up := st.UpFace()
		shifted(img, mask, rows, by(st.Board, up, face.Heart), by(st.Board, up, face.Sap))
	}
}

// kinds fills the kinds of wood that the picture of a strip shows.
func (s *Scene) kinds(c render.Canvas, st *face.Strip, lay geom.Affine) {
	up := st.UpFace()
	inv, ok := st.PlaceToFace(up).Inverse()
	if !ok {
		return
	}
	b := st.Board
	if s.picture(b.ID, up, 1) != nil {
		b = b.Root() // a photograph shows the sawn face
	}
	z := zonesOf(b, up, inv.Then(lay))
	ring := render.Ring(lay.ApplyTo(geom.R(0, 0, st.L, st.W).Polygon()))
	c.Fill(ring, maskOf(z.base))
	c.Push(ring)
	for i := range z.zones {
		c.Fill(render.Ring(z.to.ApplyTo(z.zones[i].Polygon)), maskOf(z.zones[i].Kind))
	}
	c.Pop()
}

func maskOf(k face.Kind) color.NRGBA {
	switch k {
	case face.Heart:
		return color.NRGBA{R: 255, A: 255}
	case face.Sap:
		return color.NRGBA{G: 255, A: 255}
	}
	return color.NRGBA{B: 255, A: 255}
}

// shifted changes the pixels of rows by what the mask says they are.
func shifted(img, mask *image.RGBA, rows image.Rectangle, heart, sap colour.Lab) {
	if heart == (colour.Lab{}) && sap == (colour.Lab{}) {
		return
	}
	for y := rows.Min.Y; y < rows.Max.Y; y++ {
		for x := rows.Min.X; x < rows.Max.X; x++ {
			m := mask.RGBAAt(x, y)
			px := img.RGBAAt(x, y)
			if px.A == 0 || m.R == 0 && m.G == 0 {
				continue
			}
			plain := color.NRGBAModel.Convert(px).(color.NRGBA)
			h, l := float64(m.R)/255, float64(m.G)/255
			lab := colour.FromNRGBA(color.NRGBA{R: plain.R, G: plain.G, B: plain.B, A: 255})
			lab.L += h*heart.L + l*sap.L
			lab.A += h*heart.A + l*sap.A
			lab.B += h*heart.B + l*sap.B
			lab.L = min(max(lab.L, 0), 100)
			n := lab.ToNRGBA()
			n.A = px.A
			img.Set(x, y, n)
		}
	}
}
