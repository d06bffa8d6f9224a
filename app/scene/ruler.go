package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
)

// drawRuler draws a rule along the board in hand, from the marked end.
func (s *Scene) drawRuler(c render.Canvas) {
	b, t, k := s.hand, &s.in.Look.Theme, s.text
	area := s.areas.board
	y := area.Min.Y + (headHeight-2)*k
	st := render.Style{Size: s.size(10.5), Color: t.Quiet, Align: render.Middle}
	// Numbers need room for the longest of them.
	room := s.width(s.in.Words.Short(b.Length), st) + 14*k
	big, small := steps(s.in.Words.Steps, s.board.zoom, room, 5*k)
	x0, x1 := math.Max(s.board.px(geom.Pt(0, 0)).X, area.Min.X), math.Min(s.board.px(geom.Pt(b.Length, 0)).X, area.Max.X)
	if x1 <= x0 {
		return
	}
	pen := render.Pen{Width: 1, Color: t.Quiet}
	c.Stroke(render.Segment(geom.Pt(x0, y), geom.Pt(x1, y)), pen)
	var ticks render.Path
	first := math.Max(0, math.Ceil(s.board.mm(geom.Pt(x0, 0)).X/small-1e-6))
	for n := first; n*small <= b.Length+1e-6; n++ {
		x := s.board.px(geom.Pt(n*small, 0)).X
		if x > x1+0.5 {
			break
		}
		long := math.Abs(math.Remainder(n*small, big)) < small/4
		h := 3.5 * k
		if long {
			h = 7 * k
			number := s.in.Words.Short(n * small)
			if n == 0 {
				number = s.in.Words.Len(0) // the unit, once
			}
			if w := s.width(number, st) / 2; x-w > area.Min.X && x+w < area.Max.X {
				c.Text(geom.Pt(x, y-9*k), number, st)
			}
		}
		ticks = append(ticks, render.Line{Points: []geom.Point{{X: x, Y: y}, {X: x, Y: y - h}}})
	}
	c.Stroke(ticks, pen)
	st.Align = render.Left
	words := "from the marked end"
	if w := s.width("0000"+words, st); x1 < area.Max.X-w-8*k && s.board.px(geom.Pt(b.Length, 0)).X <= x1 {
		c.Text(geom.Pt(x1+s.width("0000", st), y-k), words, st)
	}
}

// steps picks the ruler's numbered and fine steps, mm: the finest whose marks
// stand at least so many units apart.
func steps(all []float64, zoom, bigRoom, smallRoom float64) (big, small float64) {
	pick := func(room float64) float64 {
		for _, v := range all {
			if v*zoom >= room {
				return v
			}
		}
		v := all[len(all)-1]
		for v*zoom < room {
			v *= 2
		}
		return v
	}
	big, small = pick(bigRoom), pick(smallRoom)
	// Numbers stand on fine marks.
	for _, v := range all {
		if v >= small && v <= big && math.Abs(math.Remainder(big, v)) < 1e-6 {
			return big, v
		}
	}
	return big, big
}
