package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// buildPanel lists what is drawn of the panel.
func (s *Scene) buildPanel() {
	p := s.in.Panel.Panel
	if p == nil {
		s.add("no panel", s.drawNoPanel)
		return
	}
	for i := range p.Strips {
		s.add("strip "+p.Strips[i].ID, s.inPanel(func(c render.Canvas) { s.drawStrip(c, &s.panel, p, i) }))
	}
	s.add("trim", s.inPanel(func(c render.Canvas) { s.drawTrim(c, &s.panel, p) }))
	s.add("lights", s.inPanel(s.drawLights))
	for i := range p.Strips {
		s.add("marks "+p.Strips[i].ID, s.inPanel(func(c render.Canvas) { s.drawMarks(c, p, i) }))
	}
	s.add("picked", s.inPanel(s.drawPicked))
	s.add("names", s.drawNames)
	s.add("joints", s.drawJoints)
	if b := s.in.Before; b != nil {
		s.add("before", s.drawBefore)
	} else if s.in.Back {
		s.add("back", s.drawBackTitle)
	}
	s.add("depth", s.drawPanelDepth)
}

func (s *Scene) drawNoPanel(c render.Canvas) {
	s.sentence(c, s.areas.panel, say.T("No panel yet. Give one its finished size, and a list of strips is proposed."))
}

// inPanel draws inside the panel's area, and beside the panel as it was.
func (s *Scene) inPanel(draw func(render.Canvas)) func(render.Canvas) {
	r := s.areas.panel
	if s.in.Before != nil {
		r.Min.X = r.Centre().X
	}
	return func(c render.Canvas) {
		c.Push(render.Box(r))
		draw(c)
		c.Pop()
	}
}

// drawStrip draws strip i as it lies, or the empty place it would take.
func (s *Scene) drawStrip(c render.Canvas, fr *frame, p *face.Panel, i int) {
	st := &p.Strips[i]
	r := fr.rect(stripRect(p, i))
	if st.Board == nil {
		s.drawEmpty(c, r, st)
		return
	}
	lay := geom.Translate(p.Left(i), p.StripY(i)).Then(fr.toUnits()) // (u, v) to units
	if roll := s.in.Roll; roll != nil && roll.Strip == st.ID && fr == &s.panel {
		var was *face.Strip
		if lay, was = rolling(lay, roll, st); was != nil {
			st = was
		}
	}
	s.drawWood(c, st, lay)
}

// rolling squeezes a strip about its middle, half way to a line; it shows as
// it lay before until then.
func rolling(lay geom.Affine, roll *Roll, st *face.Strip) (geom.Affine, *face.Strip) {
	k := math.Max(math.Abs(math.Cos(math.Pi*roll.Part)), 0.02)
	squeeze := geom.Translate(-st.L/2, -st.W/2)
	if roll.End {
		squeeze = squeeze.Then(geom.Scale(k, 1))
	} else {
		squeeze = squeeze.Then(geom.Scale(1, k))
	}
	lay = squeeze.Then(geom.Translate(st.L/2, st.W/2)).Then(lay)
	if roll.Part < 0.5 && roll.Was.Board != nil {
		return lay, &roll.Was
	}
	return lay, nil
}

// drawWood draws the face that shows of a strip laid out by a map from its
// place (u, v) to units.
func (s *Scene) drawWood(c render.Canvas, st *face.Strip, lay geom.Affine) {
	up := st.UpFace()
	box := geom.R(0, 0, st.L, st.W)
	ring := lay.ApplyTo(box.Polygon())
	toFace := st.PlaceToFace(up)
	inv, ok := toFace.Inverse()
	if !ok {
		return
	}
	faceTo := inv.Then(lay) // face mm to units
	t := &s.in.Look.Theme
	c.Fill(render.Ring(ring), faint(t.Line, 0.6)) // where the strip leaves its board
	s.drawFace(c, st.Board, up, faceTo, render.Ring(ring))
	z := zonesOf(st.Board, up, faceTo)
	if st.Planed != nil {
		back, _ := st.FromPlace().Inverse()
		z = zoned{base: st.Planed.Base, zones: st.Planed.Zones, to: back.Then(lay)}
	}
	s.drawZones(c, z, ring)
	c.Stroke(render.Ring(ring), render.Pen{Width: 1, Color: faint(t.Edge, 0.8)})
}

func zonesOf(b *face.Board, f int, to geom.Affine) zoned {
	bf := &b.Faces[f-1]
	return zoned{base: bf.Base, outline: bf.Outline, zones: bf.Zones, to: to}
}

// drawZones hatches and outlines zones inside a ring of units, as the look
// asks.
func (s *Scene) drawZones(c render.Canvas, z zoned, ring geom.Polygon) {
	if s.in.Look.Hatch {
		hatchZones(c, z, ring, s.text)
	}
	if (s.in.Look.Outlines || s.in.Depth.On) && len(z.zones) > 0 {
		c.Push(render.Ring(ring))
		for i := range z.zones {
			p := render.Ring(z.to.ApplyTo(z.zones[i].Polygon))
			c.Stroke(p, render.Pen{Width: 2.2, Color: faint(s.in.Look.Theme.Chip, 0.5)})
			c.Stroke(p, render.Pen{Width: 1, Color: faint(s.in.Look.Theme.Chalk, 0.9), Dash: []float64{5, 3}})
		}
		c.Pop()
	}
}

// drawFace draws a face of a board through a map from its own mm to units:
// its texture, or flat colours where there is none yet.
func (s *Scene) drawFace(c render.Canvas, b *face.Board, f int, to geom.Affine, clip render.Path) {
	scale := math.Sqrt(math.Abs(to.Det())) * s.in.Look.Pixels
	if tex := s.in.Look.Textures; tex != nil {
		pic, of := s.picture(b.ID, f, scale), b
		if pic != nil || s.in.Depth.On {
			of = b.Root() // a photograph shows the sawn face, however deep the hatch lies
		}
		if img := tex.Get(of, f, pic, scale); img != nil {
			nx, ny := float64(img.Rect.Dx()), float64(img.Rect.Dy())
			m := geom.Affine{A: b.Length / nx, E: -b.Width / ny, F: b.Width}
			c.Image(img, m.Then(to), clip)
			if s.in.Depth.On && b != b.Root() {
				s.drawVeil(c, b, f, to, clip)
			}
			return
		}
	}
	bf := &b.Faces[f-1]
	outline := b.OutlineOf(f)
	c.Push(clip)
	c.Push(render.Ring(to.ApplyTo(outline)))
	c.Fill(render.Ring(to.ApplyTo(geom.R(0, 0, b.Length, b.Width).Polygon())), flatColour(b, bf, bf.Base))
	for i := range bf.Zones {
		c.Fill(render.Ring(to.ApplyTo(bf.Zones[i].Polygon)), flatColour(b, bf, bf.Zones[i].Kind))
	}
	c.Pop()
	c.Pop()
}

// drawEmpty draws an empty place with its size and what to do with it.
func (s *Scene) drawEmpty(c render.Canvas, r geom.Rect, st *face.Strip) {
	t := &s.in.Look.Theme
	c.Fill(render.Box(r.Inset(1)), faint(t.Line, 0.28))
	c.Stroke(render.Box(r.Inset(1.5)), render.Pen{Width: 1.3, Color: t.Quiet, Dash: []float64{6, 4}})
	size := math.Min(s.size(12), r.H()*0.8)
	if size < 6 {
		return
	}
	style := render.Style{Size: size, Color: t.Ink, Align: render.Middle}
	y := r.Centre().Y + size*0.36
	x := (math.Max(r.Min.X, s.areas.panel.Min.X) + math.Min(r.Max.X, s.areas.panel.Max.X)) / 2
	room := math.Min(r.W(), s.areas.panel.W()) - 2*size
	place := say.F("place %s", st.ID)
	short := place + "  ·  " + s.in.Words.Short(st.L) + " × " + s.in.Words.Len(st.W)
	for _, words := range []string{say.F("%s  ·  drag it to a board, or sweep it on one", short), say.F("%s  ·  drag it to a board", short), short, place, st.ID} {
		if s.width(words, style) <= room {
			c.Text(geom.Pt(x, y), words, style)
			return
		}
	}
}

// drawTrim dims what will be trimmed off and draws the finished outline.
func (s *Scene) drawTrim(c render.Canvas, fr *frame, p *face.Panel) {
	t := &s.in.Look.Theme
	outline := fr.toUnits().ApplyTo(p.Outline())
	b := outline.Bounds()
	for i := range p.Strips {
		b = b.Union(fr.rect(stripRect(p, i)))
	}
	c.Fill(render.Rings(b.Inset(-1).Polygon(), outline), t.Veil)
	for _, h := range p.Hidden {
		q := render.Ring(fr.toUnits().ApplyTo(h))
		c.Fill(q, faint(t.Veil, 0.6))
		c.Stroke(q, render.Pen{Width: 1, Color: t.Quiet, Dash: []float64{3, 3}})
	}
	c.Stroke(render.Ring(outline), render.Pen{Width: 3.2, Color: faint(t.Chalk, 0.55)})
	c.Stroke(render.Ring(outline), render.Pen{Width: 1.6, Color: t.Ink})
}

// drawBefore draws the panel as it was, with its strips' names.
func (s *Scene) drawBefore(c render.Canvas) {
	p, t := s.in.Before, &s.in.Look.Theme
	r := s.areas.panel
	r.Max.X = r.Centre().X
	c.Push(render.Box(r))
	for i := range p.Strips {
		s.drawStrip(c, &s.was, p, i)
	}
	s.drawTrim(c, &s.was, p)
	for i := range p.Strips {
		q := s.was.rect(stripRect(p, i))
		if size := math.Min(s.size(12), q.H()*0.62); size >= 7 && p.Strips[i].Board != nil {
			s.chip(c, geom.Pt(q.Min.X+8, q.Centre().Y), s.in.Words.Was(p.ID, p.Strips[i].ID), render.Style{Size: size, Bold: true})
		}
	}
	c.Pop()
	x := s.areas.panel.Centre().X
	c.Stroke(render.Segment(geom.Pt(x, s.areas.panel.Min.Y+6), geom.Pt(x, s.areas.panel.Max.Y-6)), render.Pen{Width: 1, Color: t.Line})
	s.drawTitle(c, s.size(12), x-s.size(8), say.T("before the last change"), s.in.Words.Before)
	s.drawTitle(c, x+s.size(12), s.areas.panel.Max.X-s.size(8), "now", s.in.Words.Now)
}

// drawTitle heads a panel: what it is and, where there is room, what is read
// of it.
func (s *Scene) drawTitle(c render.Canvas, x0, x1 float64, title, says string) {
	t := &s.in.Look.Theme
	if s.in.Back {
		title += say.T(", seen from the back")
	}
	st := render.Style{Size: s.size(12), Bold: true, Color: t.Ink}
	at := geom.Pt(x0, s.areas.panel.Min.Y+s.size(15))
	title = s.fit(title, st, x1-x0)
	c.Text(at, title, st)
	at.X += s.width(title, st) + s.size(10)
	st.Bold, st.Color = false, t.Quiet
	if says != "" && s.width(says, st) <= x1-at.X {
		c.Text(at, says, st)
	}
}

// drawBackTitle says that the back is seen.
func (s *Scene) drawBackTitle(c render.Canvas) {
	t, k := &s.in.Look.Theme, s.text
	st := render.Style{Size: s.size(13), Bold: true, Color: t.Accent}
	at := geom.Pt(12*k, s.areas.panel.Min.Y+17*k)
	c.Text(at, say.T("Back"), st)
	at.X += s.width(say.T("Back"), st) + 8*k
	st = render.Style{Size: s.size(11.5), Color: t.Quiet}
	words := say.T("as seen after rolling the panel over about its length")
	if s.width(words, st) <= s.areas.panel.Centre().X-40*k-at.X {
		c.Text(at, words, st)
	}
}
