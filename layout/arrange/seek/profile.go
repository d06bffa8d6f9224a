package seek

import (
	"math"

	"heartside/layout/arrange/order"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// Two arrangements differ by how much of the light wood lies elsewhere: the
// face is cut into coarse cells, and of the light wood in them the share is
// taken that would have to move to another cell. The cells are a few strips'
// parts in size, as a change within them is not what one sees from the chair.
// All of it, and the sizes here, is an engineering choice.
const (
	columns  = 6    // cells along the panel
	rowSize  = 40.0 // least height of a cell, mm
	mostRows = 16   // and most cells across
	fine     = 3    // samples of a cell along the panel
	sample   = 6.0  // between samples across, mm
)

// profiles holds where the light wood lies on every strip in every state.
type profiles struct {
	e     *engine
	panel *face.Panel
	rows  int
	lie   [][]float64 // by way: [sample across][column], light share
}

// newProfiles looks at the strips of a panel, those that holds says may lie in
// it.
func newProfiles(e *engine, panel *face.Panel, holds func(strip int) bool) *profiles {
	p := &profiles{e: e, panel: panel, rows: max(2, min(mostRows, int(panel.Width/rowSize)))}
	p.lie = make([][]float64, len(e.ways))
	kind, ok := panel.Wanted.Unwanted()
	if !ok {
		kind = face.Sap
	}
	for w := range e.ways {
		i := w / order.States
		if s := e.ways[w]; s.Board != nil && e.may(i, uint8(w%order.States)) && holds(i) {
			s.Board = s.Wood(panel)
			p.lie[w] = light(&s, panel, kind)
		}
	}
	return p
}

// grids returns what tells where the light wood lies in a laying.
func (e *engine) grids() func(laying) []float64 {
	if e.group != nil {
		return e.group.grids()
	}
	return newProfiles(e, &e.panel, func(int) bool { return true }).grid
}

// light samples a strip on its show face, in place coordinates.
func light(s *face.Strip, p *face.Panel, kind face.Kind) []float64 {
	var at func(uv geom.Point) face.Kind
	if s.Planed != nil {
		measured := &face.BoardFace{Base: s.Planed.Base, Zones: s.Planed.Zones}
		own, to := &face.Board{Length: s.L, Width: s.W}, s.FromPlace()
		at = func(uv geom.Point) face.Kind { return measured.At(to.Apply(uv), own) }
	} else {
		f, to := &s.Board.Faces[s.UpFace()-1], s.PlaceToFace(s.UpFace())
		at = func(uv geom.Point) face.Kind { return f.At(to.Apply(uv), s.Board) }
	}
	left := (p.Length-s.L)/2 + s.Shift
	n := samples(s)
	out := make([]float64, n*columns)
	for k := range n {
		v := (float64(k) + 0.5) * s.W / float64(n)
		for c := range columns {
			for x := range fine {
				u := (float64(c*fine+x)+0.5)*p.Length/(columns*fine) - left
				if at(geom.Pt(u, v)) == kind {
					out[k*columns+c] += 1.0 / fine
				}
			}
		}
	}
	return out
}

func samples(s *face.Strip) int { return max(1, int(math.Round(s.W/sample))) }

// grid returns the light wood in the cells of a laying, mm2 over the height of
// a cell's column.
func (p *profiles) grid(l laying) []float64 {
	e := p.e
	out := make([]float64, p.rows*columns)
	total := 0.0
	for _, w := range l {
		total += e.ways[w].W
	}
	y := (p.panel.Width - total) / 2
	for _, w := range l {
		s := &e.ways[w]
		n := samples(s)
		d := s.W / float64(n)
		for k := range len(p.lie[w]) / columns {
			row := int(math.Floor((y + (float64(k)+0.5)*d) / p.panel.Width * float64(p.rows)))
			if row < 0 || row >= p.rows {
				continue
			}
			for c := range columns {
				out[row*columns+c] += d * p.lie[w][k*columns+c]
			}
		}
		y += s.W
	}
	return out
}

// apart returns the share of the light wood that lies elsewhere, 0 to 1: half
// of all differences, over the greater of the sums.
func apart(a, b []float64) float64 {
	diff, sa, sb := 0.0, 0.0, 0.0
	for i := range a {
		diff += math.Abs(a[i] - b[i])
		sa += a[i]
		sb += b[i]
	}
	if most := max(sa, sb); most > 0 {
		// What one has more than the other counts as moved, too.
		return min(1, (diff/2+math.Abs(sa-sb)/2)/most)
	}
	return 0
}

// roundGrid returns the grid of the panel turned round by half a turn.
func roundGrid(g []float64) []float64 {
	out := make([]float64, len(g))
	for i := range g {
		out[len(g)-1-i] = g[i]
	}
	return out
}
