package scene

import (
	"image"
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Sitting is how the portrait of a panel is made.
type Sitting struct {
	Faces    *render.Faces
	Textures *Textures // nil: flat colours
	Picture  func(board string, f int, pxPerMM float64) *photo.Squared
	Theme    Theme
	Back     bool
	Hatch    bool  // the zones are hatched too
	Joints   bool  // the glue lines are drawn
	Aged     Shift // nil: the colours of today
}

// Portrait makes a picture of a finished panel as large as fits into w by h
// pixels: the wood of the face that shows and nothing else, clear where there
// is none. It is safe on any goroutine as long as Textures are.
func Portrait(p *face.Panel, sit Sitting, w, h int) *image.RGBA {
	if p == nil || !(p.Length > 0) || !(p.Width > 0) || w < 1 || h < 1 {
		return image.NewRGBA(image.Rectangle{})
	}
	p = p.Finished()
	if sit.Back {
		p = rolledOver(p)
	}
	k := math.Min(float64(w)/p.Length, float64(h)/p.Width)
	pw, ph := max(int(math.Round(k*p.Length)), 1), max(int(math.Round(k*p.Width)), 1)
	box := geom.R(0, 0, float64(pw), float64(ph))
	s := &Scene{text: 1, in: Input{Look: Look{
		Theme: sit.Theme, Pixels: 1, Hatch: sit.Hatch, Faces: sit.Faces,
		Textures: sit.Textures, Picture: sit.Picture,
	}}}
	img := image.NewRGBA(image.Rect(0, 0, pw, ph))
	c := render.NewRaster(img, 1, sit.Faces)
	to := geom.Affine{A: float64(pw) / p.Length, E: -float64(ph) / p.Width, F: float64(ph)}
	outline := render.Ring(to.ApplyTo(p.Outline()))
	c.Push(render.Box(box))
	c.Push(outline)
	for i := range p.Strips {
		st := &p.Strips[i]
		r := geom.Polygon(to.ApplyTo(stripRect(p, i).Polygon())).Bounds()
		if st.Board == nil {
			c.Fill(render.Box(r), faint(sit.Theme.Line, 0.5))
			continue
		}
		s.drawPlain(c, st, geom.Translate(p.Left(i), p.StripY(i)).Then(to))
	}
	if sit.Aged != nil {
		s.aged(img, p, to, sit.Aged)
	}
	for i := range p.Strips {
		st := &p.Strips[i]
		if st.Board == nil {
			continue
		}
		s.hatchPlain(c, st, geom.Translate(p.Left(i), p.StripY(i)).Then(to))
		if sit.Joints && i > 0 {
			r := geom.Polygon(to.ApplyTo(stripRect(p, i).Polygon())).Bounds()
			c.Fill(render.Box(geom.R(r.Min.X, r.Max.Y-0.5, r.Max.X, r.Max.Y+0.5)), faint(sit.Theme.Edge, 0.6))
		}
	}
	c.Pop()
	c.Pop()
	return img
}

// drawPlain draws the wood of a strip without its border.
func (s *Scene) drawPlain(c render.Canvas, st *face.Strip, lay geom.Affine) {
	up := st.UpFace()
	inv, ok := st.PlaceToFace(up).Inverse()
	if !ok {
		return
	}
	ring := lay.ApplyTo(geom.R(0, 0, st.L, st.W).Polygon())
	s.drawFace(c, st.Board, up, inv.Then(lay), render.Ring(ring))
}

// hatchPlain hatches the zones of a strip where that is asked.
func (s *Scene) hatchPlain(c render.Canvas, st *face.Strip, lay geom.Affine) {
	up := st.UpFace()
	inv, ok := st.PlaceToFace(up).Inverse()
	if !ok || !s.in.Look.Hatch {
		return
	}
	ring := lay.ApplyTo(geom.R(0, 0, st.L, st.W).Polygon())
	z := zonesOf(st.Board, up, inv.Then(lay))
	if st.Planed != nil {
		back, _ := st.FromPlace().Inverse()
		z = zoned{base: st.Planed.Base, zones: st.Planed.Zones, to: back.Then(lay)}
	}
	hatchZones(c, z, ring, s.text)
}
