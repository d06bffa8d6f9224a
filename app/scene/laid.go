package scene

import (
	"math"
	"sort"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// laid returns the strips on the board in hand, the one picked last so that
// it lies on top.
func (s *Scene) laid() []Laid {
	var out []Laid
	for _, l := range s.in.Boards.Laid {
		if l.Strip != nil && l.Strip.Board != nil && s.hand != nil && l.Strip.Board.ID == s.hand.ID {
			out = append(out, l)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return !s.picked(out[i]) && s.picked(out[j]) })
	return out
}

func (s *Scene) picked(l Laid) bool {
	return !l.Back && l.Solid == "" && l.Strip.ID == s.in.Pick.Strip
}

// stripUnits maps a strip's own (s, t) to units on a face of the board in
// hand.
func (s *Scene) stripUnits(st *face.Strip, f int) geom.Affine {
	m := st.ToBoard()
	if f == 2 {
		m = m.Then(s.hand.Other())
	}
	return m.Then(s.faceUnits(f))
}

// drawLaid draws a strip on both faces of the board in hand, with the blank
// sawn out for it.
func (s *Scene) drawLaid(c render.Canvas, l Laid, taken []geom.Rect) {
	st, t := l.Strip, &s.in.Look.Theme
	picked := s.picked(l)
	for f := 1; f <= 2; f++ {
		to := s.stripUnits(st, f)
		ring := to.ApplyTo(geom.R(0, 0, st.L, st.W).Polygon())
		bl := s.in.Boards.Blank
		blank := l.Sawn
		if blank.Empty() {
			blank = geom.R(-bl.End, -bl.Side, st.L+bl.End, st.W+bl.Side)
		}
		outer := to.ApplyTo(blank.Polygon())
		if picked && bl.Kerf > 0 {
			kerf := to.ApplyTo(blank.Inset(-bl.Kerf).Polygon())
			c.Fill(render.Rings(outer, kerf), faint(t.Chip, 0.55))
		}
		s.onWood(c, render.Ring(outer), 1, []float64{4, 4})
		switch {
		case picked:
			s.ringed(c, render.Ring(ring), 2.4, t.Accent, nil)
		case l.Solid != "":
			s.drawSolid(c, ring, l)
		case l.Back || l.Panel == "":
			c.Fill(render.Ring(ring), faint(t.Veil, 0.5))
			s.onWood(c, render.Ring(ring), 1.2, []float64{9, 3})
		default:
			s.onWood(c, render.Ring(ring), 1.6, nil)
			if s.in.Hover.Strip == st.ID && s.in.Hover.Part == BoardStrip {
				c.Stroke(render.Ring(ring), render.Pen{Width: 2, Color: t.Hover})
			}
		}
		s.laidName(c, l, f, to, taken)
	}
	if picked {
		s.drawHandle(c, st)
	}
}

// laidName writes a strip's number in the middle of it, and whether this face
// of it shows in the panel.
func (s *Scene) laidName(c render.Canvas, l Laid, f int, to geom.Affine, taken []geom.Rect) {
	st := l.Strip
	size := math.Min(s.size(12.5), 0.6*st.W*s.board.zoom)
	if size < 7 {
		return
	}
	number := s.in.Words.Number(l.Panel, st.ID)
	words := number
	switch {
	case l.Solid != "":
		number = l.Solid
		words = number + " · " + s.in.Words.Short(st.L) + " × " + s.in.Words.Len(st.W)
	case l.Panel == "":
		words += say.T(" · spare")
	case st.Up == f || (st.Up != 2 && f == 1):
		words += say.T(" · show face")
	default:
		words += say.T(" · back")
	}
	style := render.Style{Size: size, Bold: true}
	ring := geom.Polygon(to.ApplyTo(geom.R(0, 0, st.L, st.W).Polygon()))
	seen := ring.Bounds().Intersect(s.areas.body)
	if seen.Empty() {
		return
	}
	// The middle, or a place near it that covers no sap width.
	for _, t := range []string{words, number} {
		for _, share := range []float64{0.5, 0.44, 0.56, 0.38, 0.62, 0.32, 0.68, 0.26, 0.74, 0.2, 0.8, 0.14, 0.86, 0.08, 0.92} {
			at := to.Apply(geom.Pt(st.L*share, st.W/2))
			if !s.areas.body.Inset(20).Contains(at) {
				at = geom.Pt(seen.Min.X+share*seen.W(), seen.Centre().Y)
			}
			at.X -= s.chipRect(at, t, style).W() / 2
			r := s.chipRect(at, t, style)
			if r.Min.X < seen.Min.X || r.Max.X > seen.Max.X || covers(r, taken) {
				continue
			}
			s.chip(c, at, t, style)
			return
		}
	}
}

func covers(r geom.Rect, taken []geom.Rect) bool {
	for i := range taken {
		if !r.Intersect(taken[i]).Empty() {
			return true
		}
	}
	return false
}

// handleReach is how far the turning handle stands off the strip's end, and
// handleSize its radius, units at ordinary text.
const handleReach, handleSize = 20.0, 7.0

// handle returns where the turning handle of a strip stands on a face: off
// its far end, or off its near one where the far one cannot be seen.
func (s *Scene) handle(st *face.Strip, f int) (root, knob geom.Point) {
	to := s.stripUnits(st, f)
	a, b := to.Apply(geom.Pt(0, st.W/2)), to.Apply(geom.Pt(st.L, st.W/2))
	d := b.Sub(a)
	d = d.Mul(1 / math.Max(d.Len(), 1e-9))
	clear := s.areas.body.Inset(handleSize * s.text)
	for _, end := range [2]struct {
		at  geom.Point
		dir float64
	}{{b, 1}, {a, -1}} {
		if k := end.at.Add(d.Mul(end.dir * handleReach * s.text)); clear.Contains(k) {
			return end.at, k
		}
	}
	// Both ends are out of sight, or the strip fills the view: inside it.
	mid := a.Lerp(b, 0.5)
	if r := (geom.Polygon{a, b}).Bounds(); r.W() > clear.W() {
		mid.X = clear.Max.X - 40*s.text
	}
	return mid, mid
}

// handleFace is the face the turning handle of a strip stands on: the one
// that shows.
func handleFace(st *face.Strip) int {
	if st.Up == 2 {
		return 2
	}
	return 1
}

func (s *Scene) drawHandle(c render.Canvas, st *face.Strip) {
	t := &s.in.Look.Theme
	root, knob := s.handle(st, handleFace(st))
	if root != knob {
		c.Stroke(render.Segment(root, knob), render.Pen{Width: 4, Color: faint(t.Chalk, 0.9)})
		c.Stroke(render.Segment(root, knob), render.Pen{Width: 2, Color: t.Accent})
	}
	r := handleSize * s.text
	c.Fill(render.Round(knob, r+1.5), t.Chalk)
	c.Fill(render.Round(knob, r), t.Accent)
	// A bent arrow says what it does.
	var arc []geom.Point
	for i := 0; i <= 10; i++ {
		a := math.Pi * (0.25 + 1.4*float64(i)/10)
		arc = append(arc, knob.Add(geom.Pt(0.55*r*math.Cos(a), -0.55*r*math.Sin(a))))
	}
	pen := render.Pen{Width: 1.4 * s.text, Color: t.Chalk, Round: true}
	c.Stroke(render.Polyline(arc...), pen)
	tip := arc[len(arc)-1]
	c.Stroke(render.Polyline(tip.Add(geom.Pt(-0.36*r, -0.02*r)), tip, tip.Add(geom.Pt(0.06*r, -0.38*r))), pen)
}
