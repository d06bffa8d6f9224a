package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// drawMarks writes what tells a strip and how it lies: its number, the side
// that shows, the planing arrow, and chalk at the corner of the marked end and
// the marked edge.
func (s *Scene) drawMarks(c render.Canvas, p *face.Panel, i int) {
	st := &p.Strips[i]
	if st.Board == nil || s.isRolling(st.ID) {
		return
	}
	r := s.panel.rect(stripRect(p, i))
	seen := r.Intersect(inset(s.areas.panel, 4, 0, 4, 0))
	if seen.W() < 12 || r.H() < 7 {
		return
	}
	size := math.Min(s.size(13), r.H()*0.62)
	style := render.Style{Size: size, Bold: true}
	x := math.Max(seen.Min.X, s.panel.rect(geom.R(0, 0, p.Length, p.Width)).Min.X)
	at := geom.Pt(x+size*1.5, r.Centre().Y)
	room := seen.Max.X - at.X - size*1.6
	number := s.in.Words.Number(p.ID, st.ID)
	if w := s.chipRect(at, number, style).W(); w <= room {
		chip := s.chip(c, at, number, style)
		rest := s.lying(st)
		style.Bold = false
		style.Size *= 0.86
		for _, words := range []string{rest[0] + rest[1], rest[1]} {
			if words == "" {
				continue
			}
			next := geom.Pt(chip.Max.X+size*0.35, at.Y)
			if size >= 8 && s.chipRect(next, words, style).Max.X <= seen.Max.X-size*1.6 {
				s.chip(c, next, words, style)
				break
			}
		}
	}
	s.drawChalk(c, st, r)
}

func (s *Scene) isRolling(strip string) bool {
	return s.in.Roll != nil && s.in.Roll.Strip == strip
}

// lying says which side of a strip shows and which way it planes.
func (s *Scene) lying(st *face.Strip) [2]string {
	arrow := ""
	switch d := st.Planing(); {
	case d > 0:
		arrow = " →"
	case d < 0:
		arrow = " ←"
	}
	if st.Pinned {
		arrow += " · pinned"
	}
	return [2]string{s.in.Words.Side(st.Board, st.UpFace()) + " up", arrow}
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

// drawChalk draws the corner mark: a filled wedge where the chalked side is
// up, an open one where it is underneath.
func (s *Scene) drawChalk(c render.Canvas, st *face.Strip, r geom.Rect) {
	u, v := markCorner(st)
	at := geom.Pt(r.Min.X+u*r.W(), r.Max.Y-v*r.H())
	dx, dy := 1-2*u, 2*v-1
	k := math.Min(s.size(11), r.H()*0.5)
	ring := geom.Polygon{at, at.Add(geom.Pt(dx*k*1.5, 0)), at.Add(geom.Pt(0, dy*k))}
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
		switch l.Side {
		case face.Back:
			place = p.BackView().ApplyTo(place.Polygon()).Bounds()
			dash = []float64{7, 4}
		case face.Front, face.Rear, face.Left, face.Right:
			place = s.edgePlace(p, l.Side)
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
			c.Stroke(r, render.Pen{Width: 4.5, Color: faint(t.Chalk, 0.9)})
			c.Stroke(r, render.Pen{Width: 2.5, Color: t.Accent, Dash: []float64{8, 4}})
		case id == s.in.Pick.Strip:
			c.Stroke(r, render.Pen{Width: 4.8, Color: faint(t.Chalk, 0.9)})
			c.Stroke(r, render.Pen{Width: 2.8, Color: t.Accent})
		case hovered:
			c.Stroke(r, render.Pen{Width: 3, Color: faint(t.Chalk, 0.6)})
			c.Stroke(r, render.Pen{Width: 1.6, Color: t.Hover})
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
	long := func(name string, mm float64) string {
		if name == "" {
			return s.in.Words.Len(mm)
		}
		return name + "  ·  " + s.in.Words.Len(mm)
	}
	write := func(at geom.Point, words string, turn, room float64) {
		st := st
		st.Turn = turn
		c.Text(at, s.fit(words, st, room), st)
	}
	write(geom.Pt(mid.X, seen.Max.Y+17*k), long(n.Front, p.Length), 0, seen.W())
	write(geom.Pt(mid.X, seen.Min.Y-8*k), n.Back, 0, seen.W())
	write(geom.Pt(seen.Min.X-10*k, mid.Y), long(n.Left, p.Width), 90, seen.H())
	write(geom.Pt(seen.Max.X+34*k, mid.Y), n.Right, 90, seen.H())
}

// drawJoints marks at the right of each joint what meets there: two squares,
// filled for heartwood and open and hatched for sapwood, ringed where they
// differ.
func (s *Scene) drawJoints(c render.Canvas) {
	p, rd, t := s.in.Panel.Panel, s.in.Panel.Reading, &s.in.Look.Theme
	if rd == nil || rd.Panel != p.ID {
		return
	}
	x := math.Min(s.panel.rect(s.panelContent()).Max.X, s.areas.panel.Max.X-30*s.text) + 8*s.text
	for i := range rd.Joints {
		j := &rd.Joints[i]
		if j.Kind == face.Unjudged || j.I+1 >= len(p.Strips) {
			continue
		}
		below, above := stripRect(p, j.I), stripRect(p, j.I+1)
		y := s.panel.px(geom.Pt(0, above.Min.Y)).Y
		k := math.Min(s.size(7), 0.42*s.panel.zoom*math.Min(below.H(), above.H()))
		if k < 2.5 || y < s.areas.panel.Min.Y+k || y > s.areas.panel.Max.Y-k {
			continue
		}
		rear, front := s.jointMark(j)
		s.jointSquare(c, geom.R(x, y-k, x+1.5*k, y), rear)
		s.jointSquare(c, geom.R(x, y, x+1.5*k, y+k), front)
		if j.Kind == face.SapHeart {
			c.Stroke(render.Box(geom.R(x, y-k, x+1.5*k, y+k).Inset(-2.5)), render.Pen{Width: 2, Color: t.Caution})
		}
	}
}

// jointMark tells which side of a joint is sapwood.
func (s *Scene) jointMark(j *face.Joint) (rear, front bool) {
	switch j.Kind {
	case face.SapSap:
		return true, true
	case face.HeartHeart:
		return false, false
	}
	sum := func(w face.Widths) float64 { return w[0] + w[1] + w[2] }
	return sum(j.RearW) > sum(j.FrontW), sum(j.FrontW) >= sum(j.RearW)
}

func (s *Scene) jointSquare(c render.Canvas, r geom.Rect, sap bool) {
	t := &s.in.Look.Theme
	if !sap {
		c.Fill(render.Box(r), t.Ink)
		return
	}
	c.Hatch(render.Box(r), render.Hatch{Angle: 45, Spacing: 3, Origin: r.Min, Pen: render.Pen{Width: 0.9, Color: t.Ink}})
	c.Stroke(render.Box(r.Inset(0.5)), render.Pen{Width: 1, Color: t.Ink})
}
