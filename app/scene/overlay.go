package scene

import (
	"image/color"
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// vertexSize is half the side of a zone's corner mark, units.
const vertexSize = 4.0

// zoneInHand returns the polygon of the zone picked on the board in hand, in
// its face's coordinates, and that face; false where there is none.
func (s *Scene) zoneInHand() (geom.Polygon, int, bool) {
	p := s.in.Pick
	if s.hand == nil || p.Board != s.hand.ID || p.Face < 1 || p.Face > 2 || p.Zone < 0 || p.Zone >= len(s.hand.Faces[p.Face-1].Zones) {
		return nil, 0, false
	}
	return s.hand.Faces[p.Face-1].Zones[p.Zone].Polygon, p.Face, true
}

func (s *Scene) drawPickedZone(c render.Canvas) {
	ring, f, ok := s.zoneInHand()
	if !ok {
		return
	}
	t := &s.in.Look.Theme
	q := s.faceUnits(f).ApplyTo(ring)
	c.Fill(render.Ring(q), faint(t.Accent, 0.16))
	c.Stroke(render.Ring(q), render.Pen{Width: 3.6, Color: faint(t.Chalk, 0.9)})
	c.Stroke(render.Ring(q), render.Pen{Width: 2, Color: t.Accent})
	for _, p := range q {
		d := vertexSize * s.text
		box := geom.R(p.X-d, p.Y-d, p.X+d, p.Y+d)
		c.Fill(render.Box(box), t.Chalk)
		c.Stroke(render.Box(box), render.Pen{Width: 1.6, Color: t.Accent})
	}
}

// kindInk is the colour a kind is sketched in.
func (s *Scene) kindInk(k face.Kind) color.NRGBA {
	switch k {
	case face.Sap:
		return rgb(0xF3DFA8)
	case face.Flaw:
		return rgb(0xE2574C)
	case face.Unseen:
		return rgb(0xB9B2A8)
	}
	return rgb(0xB8794A)
}

// drawSketch draws what a tool shows while it works: guides, the polygon
// under way, the brush.
func (s *Scene) drawSketch(c render.Canvas) {
	k := s.in.Sketch
	if k.Board != s.hand.ID {
		return
	}
	t := &s.in.Look.Theme
	for _, g := range k.Guides {
		for f := 1; f <= 2; f++ {
			to := s.faceUnits(f)
			if f == 2 {
				to = s.hand.Other().Then(to)
			}
			a, b := to.Apply(g.A), to.Apply(g.B)
			c.Stroke(render.Segment(a, b), render.Pen{Width: 3, Color: faint(t.Chip, 0.8)})
			c.Stroke(render.Segment(a, b), render.Pen{Width: 1.4, Color: rgb(0x6FE0CF), Dash: []float64{7, 4}})
			if f == 1 && g.Why != "" {
				mid := s.seenMiddle(a, b)
				st := render.Style{Size: s.size(11)}
				mid.X -= s.chipRect(mid, g.Why, st).W() / 2
				s.chip(c, mid.Add(geom.Pt(0, -st.Size)), g.Why, st)
			}
		}
	}
	if k.Face < 1 || k.Face > 2 {
		return
	}
	to := s.faceUnits(k.Face)
	ink := s.kindInk(k.Kind)
	if len(k.Ring) > 0 {
		q := to.ApplyTo(k.Ring)
		if len(q) > 2 {
			c.Fill(render.Ring(q), faint(ink, 0.35))
		}
		c.Stroke(render.Ring(q), render.Pen{Width: 3.4, Color: faint(t.Chip, 0.8)})
		c.Stroke(render.Ring(q), render.Pen{Width: 1.6, Color: ink})
		for _, p := range q {
			c.Fill(render.Round(p, 3.6*s.text), t.Chip)
			c.Fill(render.Round(p, 2.4*s.text), ink)
		}
	}
	s.drawGrainSketch(c, to)
	if k.Radius > 0 {
		p := render.Round(to.Apply(k.Centre), k.Radius*s.board.zoom)
		c.Fill(p, faint(ink, 0.3))
		c.Stroke(p, render.Pen{Width: 3.4, Color: faint(t.Chip, 0.8)})
		c.Stroke(p, render.Pen{Width: 1.6, Color: ink})
	}
}

// drawTold writes beside the strip under way how it lies on its board.
func (s *Scene) drawTold(c render.Canvas) {
	k := s.in.Sketch
	if k.Told == "" {
		return
	}
	for _, l := range s.laid() {
		if l.Back || l.Panel == "" || l.Strip.ID != k.Carried {
			continue
		}
		style := render.Style{Size: s.size(12), Bold: true}
		ring := geom.Polygon(s.stripUnits(l.Strip, handleFace(l.Strip)).ApplyTo(geom.R(0, 0, l.Strip.L, l.Strip.W).Polygon())).Bounds()
		body := s.areas.body.Inset(3)
		words := s.fit(k.Told, style, body.W()-2*style.Size)
		w := s.width(words, style) + 0.8*style.Size
		gap := 1.1*style.Size + 4*s.text
		at := geom.Pt(ring.Intersect(body).Centre().X-w/2, ring.Min.Y-gap)
		if at.Y-style.Size < body.Min.Y {
			at.Y = ring.Max.Y + gap
		}
		at.Y = math.Min(math.Max(at.Y, body.Min.Y+style.Size), body.Max.Y-style.Size)
		at.X = math.Min(math.Max(at.X, body.Min.X), body.Max.X-w)
		s.chip(c, at, words, style)
		return
	}
}

// seenMiddle returns the middle of the part of a line that is inside the
// board's area.
func (s *Scene) seenMiddle(a, b geom.Point) geom.Point {
	r := s.areas.body.Inset(30 * s.text)
	lo, hi := 0.0, 1.0
	d := b.Sub(a)
	for _, side := range [4][2]float64{{d.X, a.X - r.Min.X}, {-d.X, r.Max.X - a.X}, {d.Y, a.Y - r.Min.Y}, {-d.Y, r.Max.Y - a.Y}} {
		// side[1] + t side[0] >= 0 keeps the point inside.
		switch {
		case side[0] > 0:
			lo = math.Max(lo, -side[1]/side[0])
		case side[0] < 0:
			hi = math.Min(hi, -side[1]/side[0])
		}
	}
	if hi < lo {
		return a.Lerp(b, 0.5)
	}
	return a.Lerp(b, (lo+hi)/2)
}
