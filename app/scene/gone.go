package scene

import (
	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// gone returns what was cut off an end of the board in hand, 0 the marked end or
// 1 the other end, as it lay on a face; false where nothing was.
func (s *Scene) gone(f, end int) (geom.Rect, bool) {
	b := s.hand
	if !(b.Cut[end] > 0) {
		return geom.Rect{}, false
	}
	from, to := b.Left()
	r := geom.R(0, 0, from, b.Width)
	if end == 1 {
		r = geom.R(to, 0, b.Length, b.Width)
	}
	return geom.Polygon(s.faceUnits(f).ApplyTo(r.Polygon())).Bounds(), true
}

// drawGone hatches away what was cut off the ends of the board in hand, and
// draws the line where it was cut.
func (s *Scene) drawGone(c render.Canvas, f int) {
	t, k := &s.in.Look.Theme, s.text
	for end := range s.hand.Cut {
		r, ok := s.gone(f, end)
		if !ok {
			continue
		}
		box := render.Box(r)
		c.Hatch(box, render.Hatch{Angle: -45, Spacing: 8 * k, Origin: r.Min, Pen: render.Pen{Width: 1 * k, Color: t.Quiet}})
		c.Stroke(box, render.Pen{Width: 1, Color: t.Quiet, Dash: []float64{4 * k, 4 * k}})
		x := r.Max.X
		if end == 1 {
			x = r.Min.X
		}
		line := render.Segment(geom.Pt(x, r.Min.Y-4*k), geom.Pt(x, r.Max.Y+4*k))
		c.Stroke(line, render.Pen{Width: 4.5 * k, Color: t.Chalk})
		c.Stroke(line, render.Pen{Width: 2.4 * k, Color: spoiledHue})
		s.nameGone(c, r, end)
	}
}

// nameGone says how much was cut off, on what is gone where there is room, else
// beside the line on the wood.
func (s *Scene) nameGone(c render.Canvas, r geom.Rect, end int) {
	words := say.F("%s cut off", s.in.Words.Len(s.hand.Cut[end]))
	st := render.Style{Size: s.size(11)}
	w := s.width(words, st) + 12*s.text
	switch {
	case w <= r.W():
	case w <= r.H():
		st.Turn = 90
	default:
		return // the head of the board says it
	}
	s.plaque(c, r.Centre(), words, st)
}

// goneWords tells what was cut off the ends, "" nothing.
func (s *Scene) goneWords(cut [2]float64) string {
	marked, other := "", ""
	if cut[0] > 0 {
		marked = say.F("%s cut off the marked end", s.in.Words.Len(cut[0]))
	}
	if cut[1] > 0 {
		other = say.F("%s cut off the other end", s.in.Words.Len(cut[1]))
	}
	if marked != "" && other != "" {
		return marked + ", " + other
	}
	return marked + other
}
