package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
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
	from := s.rulerStart(c, x0, y-9*k, st)
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
			if w := s.width(number, st) / 2; x-w > from && x+w < area.Max.X {
				c.Text(geom.Pt(x, y-9*k), number, st)
			}
		}
		ticks = append(ticks, render.Line{Points: []geom.Point{{X: x, Y: y}, {X: x, Y: y - h}}})
	}
	c.Stroke(ticks, pen)
}

// rulerStart names the end that the rule counts from, and its unit, and
// returns where the first number may begin.
func (s *Scene) rulerStart(c render.Canvas, x0, y float64, st render.Style) float64 {
	area, k := s.areas.board, s.text
	st.Color = s.in.Look.Theme.Ink
	words := say.F("marked end %s", s.in.Words.Len(0))
	x := s.board.px(geom.Pt(0, 0)).X
	if x < area.Min.X { // out of sight
		words = say.T("← marked end")
		x = x0
	}
	// Its last word, the 0, stands over the beginning where there is room.
	zero := s.width(s.in.Words.Len(0), st) / 2
	w := s.width(words, st)
	st.Align = render.Left
	x = math.Max(area.Min.X+8*k, x+zero-w)
	c.Text(geom.Pt(x, y), words, st)
	return x + w + 5*k
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
