package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
)

// stations returns at how many places along the board in hand sap widths are
// told: fewer where their numbers would hide the wood.
func (s *Scene) stations() int {
	st := s.tickStyle()
	tall := s.hand.Width * s.board.zoom / (1.36 * st.Size)
	wide := s.hand.Length * s.board.zoom / (s.width(s.in.Words.Short(s.hand.Width), st) + 3*st.Size)
	for _, c := range []struct {
		n    int
		tall float64
	}{{5, 4.8}, {3, 3.4}, {2, 2.4}} {
		if tall >= c.tall && wide >= 1.6*float64(c.n) {
			return c.n
		}
	}
	return 0
}

// tick tells one sap width: a line from the edge to the sap line, and its
// number beyond.
type tick struct {
	edge, line geom.Point // units
	words      string
	chip       geom.Rect
}

// ticks lays out the sap widths along each edge of each face, from the marked
// end to the other.
func (s *Scene) ticks() []tick {
	b := s.hand
	stations := s.stations()
	if stations < 2 {
		return nil
	}
	from, to := b.Left()
	var out []tick
	for f := 1; f <= 2; f++ {
		if b.Faces[f-1].Guessed {
			continue // nothing was measured there
		}
		units := s.faceUnits(f)
		for i := 0; i < stations; i++ {
			share := float64(i) / float64(stations-1)
			x := math.Min(math.Max(from+(to-from)*share, from+0.5), to-0.5)
			low, high := sapAtEdges(b, f, x)
			if low == high {
				continue // sapwood from edge to edge has no line to measure to
			}
			out = s.tick(out, units, x, low.y0, low.y1, share)
			out = s.tick(out, units, x, high.y1, high.y0, share)
		}
	}
	return out
}

func (s *Scene) tick(out []tick, to geom.Affine, x, y0, y1, share float64) []tick {
	if math.Abs(y1-y0) < 0.5 {
		return out
	}
	k := tick{edge: to.Apply(geom.Pt(x, y0)), line: to.Apply(geom.Pt(x, y1)), words: s.in.Words.Short(math.Abs(y1 - y0))}
	inward := 2 - 4*share // ticks at the ends stand inside the board
	k.edge.X, k.line.X = k.edge.X+inward, k.line.X+inward
	st := s.tickStyle()
	w := s.chipRect(geom.Point{}, k.words, st).W()
	at := geom.Pt(k.line.X-w*share, k.line.Y+math.Copysign(st.Size*0.95, k.line.Y-k.edge.Y))
	k.chip = s.chipRect(at, k.words, st)
	// Where sapwood from both edges leaves no room, the numbers stand side by
	// side.
	for i := range out {
		if !k.chip.Intersect(out[i].chip).Empty() {
			dx := out[i].chip.Max.X - k.chip.Min.X + 2
			if share > 0.5 {
				dx = out[i].chip.Min.X - k.chip.Max.X - 2
			}
			k.chip.Min.X, k.chip.Max.X = k.chip.Min.X+dx, k.chip.Max.X+dx
		}
	}
	return append(out, k)
}

func (s *Scene) tickStyle() render.Style { return render.Style{Size: s.size(10.5)} }

// drawTicks writes the numbers of the ticks.
func (s *Scene) drawTicks(c render.Canvas, ticks []tick) {
	for _, k := range ticks {
		s.chip(c, geom.Pt(k.chip.Min.X, k.chip.Centre().Y), k.words, s.tickStyle())
	}
}

// drawTickLines draws the lines of the ticks, beneath the strips' names.
func (s *Scene) drawTickLines(c render.Canvas, ticks []tick) {
	t := &s.in.Look.Theme
	for _, k := range ticks {
		cap := render.Segment(k.line.Add(geom.Pt(-4, 0)), k.line.Add(geom.Pt(4, 0)))
		both := append(render.Segment(k.edge, k.line), cap...)
		c.Stroke(both, render.Pen{Width: 2.6, Color: faint(t.Chalk, 0.6)})
		c.Stroke(both, render.Pen{Width: 1.2, Color: t.Edge})
	}
}
