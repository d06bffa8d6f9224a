package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// mark is a word on a strip of the panel.
type mark struct {
	at    geom.Point // its left middle, units
	words string
	style render.Style
	part  Part // what it is to the pointer, Nothing for a part of the strip
}

// marks lays out what tells strip i and how it lies: its number, the side that
// shows, the planing arrow.
func (s *Scene) marks(p *face.Panel, i int) []mark {
	st := &p.Strips[i]
	r := s.panel.rect(stripRect(p, i))
	seen := r.Intersect(inset(s.areas.panel, 4, 0, 4, 0))
	if st.Board == nil || seen.W() < 12 || r.H() < 7 {
		return nil
	}
	size := math.Min(s.size(13), r.H()*0.62)
	style := render.Style{Size: size, Bold: true}
	x := math.Max(seen.Min.X, s.panel.rect(geom.R(0, 0, p.Length, p.Width)).Min.X)
	at := geom.Pt(x+size*1.5, r.Centre().Y)
	last := seen.Max.X - size*1.6
	number := mark{at, s.in.Words.Number(p.ID, st.ID), style, Nothing}
	next := s.chipRect(at, number.words, style).Max.X + size*0.35
	if next-size*0.35 > last {
		return nil
	}
	out := []mark{number}
	style.Bold = false
	style.Size *= 0.86
	side, arrow := s.lying(st)
	if size < 8 {
		return out
	}
	for _, words := range [][2]string{{side, arrow}, {"", arrow}} {
		list, x := out, next
		for k, w := range words {
			if w == "" {
				continue
			}
			m := mark{geom.Pt(x, at.Y), w, style, Nothing}
			if k == 1 {
				m.part = PlaneArrow
			}
			list = append(list, m)
			x = s.chipRect(m.at, w, style).Max.X + size*0.35
		}
		if x-size*0.35 <= last {
			return list
		}
	}
	return out
}

// drawMarks writes the marks of strip i, and chalk at the corner of the marked
// end and the marked edge.
func (s *Scene) drawMarks(c render.Canvas, p *face.Panel, i int) {
	st := &p.Strips[i]
	if st.Board == nil || s.isRolling(st.ID) {
		return
	}
	for _, m := range s.marks(p, i) {
		s.chip(c, m.at, m.words, m.style)
	}
	if ring := s.wedge(p, i); ring != nil {
		s.drawChalk(c, st, ring)
	}
}

// markAt tells which mark of strip i lies at a place, Nothing for none that
// has a meaning of its own.
func (s *Scene) markAt(p *face.Panel, i int, at geom.Point) Part {
	for _, m := range s.marks(p, i) {
		if m.part != Nothing && s.chipRect(m.at, m.words, m.style).Contains(at) {
			return m.part
		}
	}
	if ring := s.wedge(p, i); ring != nil && ring.Bounds().Inset(-1).Contains(at) {
		return MarkWedge
	}
	return Nothing
}

func (s *Scene) isRolling(strip string) bool {
	return s.in.Roll != nil && s.in.Roll.Strip == strip
}

// lying says which side of a strip shows, and which way it planes.
func (s *Scene) lying(st *face.Strip) (side, arrow string) {
	switch d := st.Planing(); {
	case d > 0:
		arrow = "→"
	case d < 0:
		arrow = "←"
	}
	side = s.in.Words.Side(st.Board, st.UpFace())
	if !s.in.Back {
		side += say.T(" up")
	}
	if st.Pinned {
		side += say.T(" · pinned")
	}
	return side, arrow
}

// markCorner returns the corner of a strip's place where the marked end meets
// the marked edge, as parts of its length and width: 0 or 1 each.
func markCorner(st *face.Strip) (u, v float64) {
	if st.Turned {
		u = 1
	}
	if st.Turned != (st.Up == 2) {
		v = 1
	}
	return u, v
}

// wedge returns the corner mark of strip i, units; nil where the strip is too
// small for one or lies on no board.
func (s *Scene) wedge(p *face.Panel, i int) geom.Polygon {
	st := &p.Strips[i]
	r := s.panel.rect(stripRect(p, i))
	if seen := r.Intersect(inset(s.areas.panel, 4, 0, 4, 0)); st.Board == nil || seen.W() < 12 || r.H() < 7 {
		return nil
	}
	u, v := markCorner(st)
	at := geom.Pt(r.Min.X+u*r.W(), r.Max.Y-v*r.H())
	dx, dy := 1-2*u, 2*v-1
	k := math.Min(s.size(11), r.H()*0.5)
	return geom.Polygon{at, at.Add(geom.Pt(dx*k*1.5, 0)), at.Add(geom.Pt(0, dy*k))}
}

// drawChalk draws the corner mark: a filled wedge where the chalked side is
// up, an open one where it is underneath.
func (s *Scene) drawChalk(c render.Canvas, st *face.Strip, ring geom.Polygon) {
	t := &s.in.Look.Theme
	if st.Up == 2 {
		c.Stroke(render.Ring(ring), render.Pen{Width: 2.6, Color: faint(t.Chip, 0.7)})
		c.Stroke(render.Ring(ring), render.Pen{Width: 1.3, Color: t.Chalk})
		return
	}
	c.Fill(render.Ring(ring), t.Chalk)
	c.Stroke(render.Ring(ring), render.Pen{Width: 1, Color: faint(t.Chip, 0.7)})
}

// drawLights points out places of the panel.
func (s *Scene) drawLights(c render.Canvas) {
	p, t := s.in.Panel.Panel, &s.in.Look.Theme
	for _, l := range s.in.Lit {
		colour := t.Caution
		if l.Severe {
			colour = t.Fault
		}
		place, dash := l.Place, []float64(nil)
		switch side := l.Side; side {
		case face.Front, face.Rear, face.Left, face.Right:
			place = s.edgePlace(p, side)
		default:
			if (side == face.Back) != s.in.Back { // on the side that is not seen
				place = p.BackView().ApplyTo(place.Polygon()).Bounds()
				dash = []float64{7, 4}
			}
		}
		if place.Empty() {
			continue
		}
		r := s.panel.rect(place)
		r = inset(r, math.Min(0, r.W()-6)/2, math.Min(0, r.H()-6)/2, math.Min(0, r.W()-6)/2, math.Min(0, r.H()-6)/2)
		if !l.Bright {
			c.Stroke(render.Box(r), render.Pen{Width: 1.4, Color: colour, Dash: dash})
			continue
		}
		c.Hatch(render.Box(r), render.Hatch{Angle: -45, Spacing: 8 * s.text, Origin: r.Min, Pen: render.Pen{Width: 2, Color: faint(colour, 0.75)}})
		c.Stroke(render.Box(r), render.Pen{Width: 5, Color: faint(t.Chalk, 0.85)})
		c.Stroke(render.Box(r), render.Pen{Width: 2.8, Color: colour, Dash: dash})
	}
}

// edgePlace is a thin place along an edge or end of the panel.
func (s *Scene) edgePlace(p *face.Panel, side face.Side) geom.Rect {
	d := 3 / s.panel.zoom
	if s.in.Back && side == face.Front {
		side = face.Rear
	} else if s.in.Back && side == face.Rear {
		side = face.Front
	}
	switch side {
	case face.Front:
		return geom.R(0, -d, p.Length, d)
	case face.Rear:
		return geom.R(0, p.Width-d, p.Length, p.Width+d)
	case face.Left:
		return geom.R(-d, 0, d, p.Width)
	}
	return geom.R(p.Length-d, 0, p.Length+d, p.Width)
}

// drawPicked outlines the strip in hand, the one under the pointer and the
// one that would change places.
func (s *Scene) drawPicked(c render.Canvas) {
	p, t := s.in.Panel.Panel, &s.in.Look.Theme
	for i := range p.Strips {
		id := p.Strips[i].ID
		if s.isRolling(id) {
			continue
		}
		r := render.Box(s.panel.rect(stripRect(p, i)).Inset(0.5))
		hovered := s.in.Hover.Strip == id && (s.in.Hover.Panel == "" || s.in.Hover.Panel == p.ID)
		switch {
		case id == s.in.Sketch.Swap:
			s.ringed(c, r, 2.5, t.Accent, []float64{8, 4})
		case id == s.in.Pick.Strip:
			s.ringed(c, r, 2.4, t.Accent, nil)
		case hovered:
			s.ringed(c, r, 1.4, t.Hover, nil)
		}
	}
}

// drawNames writes the names of edges and ends round the panel.
func (s *Scene) drawNames(c render.Canvas) {
	p, t, n := s.in.Panel.Panel, &s.in.Look.Theme, s.in.Panel
	r := s.panel.rect(s.panelContent())
	area := s.areas.panel
	if s.in.Before != nil {
		area.Min.X = area.Centre().X
	}
	k := s.text
	seen := r.Intersect(inset(area, 26*k, 22*k, 40*k, 22*k))
	if seen.Empty() {
		return
	}
	st := render.Style{Size: s.size(12), Color: t.Quiet, Align: render.Middle}
	mid := seen.Centre()
	long := func(name string, mm, room float64) string {
		size := s.in.Words.Len(mm)
		if words := name + "  ·  " + size; name != "" && s.width(words, st) <= room {
			return words
		}
		return size
	}
	// Where the wood runs on beyond what is seen, a name lies on it.
	write := func(at geom.Point, words string, turn, room float64, onWood bool) {
		st := st
		st.Turn = turn
		words = s.fit(words, st, room)
		if words == "" {
			return
		}
		if onWood {
			s.plaque(c, at, words, st)
			return
		}
		if turn == 90 {
			at.X += 0.36 * st.Size
		} else {
			at.Y += 0.36 * st.Size
		}
		c.Text(at, words, st)
	}
	write(geom.Pt(mid.X, seen.Max.Y+13*k), long(n.Front, p.Length, seen.W()), 0, seen.W(), r.Max.Y > seen.Max.Y+1)
	write(geom.Pt(mid.X, seen.Min.Y-12*k), n.Back, 0, seen.W(), r.Min.Y < seen.Min.Y-1)
	write(geom.Pt(seen.Min.X-14*k, mid.Y), long(n.Left, p.Width, seen.H()), 90, seen.H(), r.Min.X < seen.Min.X-1)
	write(geom.Pt(seen.Max.X+31*k, mid.Y), n.Right, 90, seen.H(), r.Max.X > seen.Max.X+1)
}
