package figure

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// Cell is how the grain runs in a cell of a face.
type Cell struct {
	Angle     float64 // degrees from the board's length, above -90 up to 90
	Coherence float64 // 0, no direction at all, to 1, one direction only
}

// Map is how the grain runs over a face of a board. It is not changed once
// made.
type Map struct {
	Length, Width float64 // of the face
	NX, NY        int     // cells along and across, all of one size
	Cells         []Cell  // row by row, from y = 0 up: cell (i, j) at j*NX + i
}

// DefaultCell is a size of cells that holds several growth rings, mm.
const DefaultCell = 30.0

// most is the greatest length that is taken for one, mm, and mostCells the most
// cells of a map.
const (
	most      = 1e5
	mostCells = 1 << 18
)

// newMap returns a map without directions, with cells of about the given size.
func newMap(length, width, cell float64) (*Map, error) {
	if !(length > 0) || !(width > 0) || length > most || width > most {
		return nil, fmt.Errorf("a face of %g by %g mm has no grain to find: enter the board's length and width", length, width)
	}
	if !(cell > 0) {
		cell = DefaultCell
	}
	m := &Map{Length: length, Width: width}
	nx, ny := max(1, math.Round(length/cell)), max(1, math.Round(width/cell))
	if nx*ny > mostCells {
		return nil, fmt.Errorf("cells of %g mm are too small for a face of %g by %g mm: about %g will do", cell, length, width, DefaultCell)
	}
	m.NX, m.NY = int(nx), int(ny)
	m.Cells = make([]Cell, m.NX*m.NY)
	return m, nil
}

// Centre returns the middle of cell (i, j).
func (m *Map) Centre(i, j int) geom.Point {
	return geom.Pt((float64(i)+0.5)*m.Length/float64(m.NX), (float64(j)+0.5)*m.Width/float64(m.NY))
}

// At returns how the grain runs at p, between the middles of the cells in
// proportion; beyond them as in the nearest. Outside the face nothing is known.
func (m *Map) At(p geom.Point) Cell {
	if m == nil || len(m.Cells) == 0 || !geom.R(0, 0, m.Length, m.Width).Contains(p) {
		return Cell{}
	}
	i, a := between(p.X/m.Length, m.NX)
	j, b := between(p.Y/m.Width, m.NY)
	i1, j1 := min(i+1, m.NX-1), min(j+1, m.NY-1)
	var v vector
	v.add(m.Cells[j*m.NX+i], (1-a)*(1-b))
	v.add(m.Cells[j*m.NX+i1], a*(1-b))
	v.add(m.Cells[j1*m.NX+i], (1-a)*b)
	v.add(m.Cells[j1*m.NX+i1], a*b)
	return v.cell(1)
}

// between returns the cell of n whose middle lies before a share of the way,
// and how far from there to the next it is.
func between(share float64, n int) (int, float64) {
	p := min(max(share*float64(n)-0.5, 0), float64(n-1))
	i := min(int(p), n-1)
	return i, p - float64(i)
}

// vector is a sum of directions of lines: of half a turn apart they are the
// same, so the doubled angle is summed, as long as the direction is sure.
type vector struct{ c, s float64 }

func (v *vector) add(c Cell, weight float64) {
	sin, cos := math.Sincos(2 * c.Angle * math.Pi / 180)
	v.c += weight * c.Coherence * cos
	v.s += weight * c.Coherence * sin
}

// cell returns the mean of directions of the given summed weight.
func (v vector) cell(weight float64) Cell {
	r := math.Hypot(v.c, v.s)
	if !(r > 1e-12) || !(weight > 0) {
		return Cell{}
	}
	return Cell{v.angle(), min(1, r/weight)}
}

func (v vector) angle() float64 { return within(math.Atan2(v.s, v.c) * 90 / math.Pi) }

// within brings the direction of a line to above -90 up to 90.
func within(degrees float64) float64 {
	d := math.Mod(degrees, 180)
	switch {
	case d > 90:
		d -= 180
	case d <= -90:
		d += 180
	}
	return d
}

// With returns the map with the directions of drawn lines taken where they are
// sure: near a line its direction holds, far from all of them the picture's. A
// map of another size is left as it is.
func (m *Map) With(lines *Map) *Map {
	if m == nil || lines == nil {
		if m == nil {
			return lines
		}
		return m
	}
	out := *m
	out.Cells = make([]Cell, len(m.Cells))
	for j := range m.NY {
		for i := range m.NX {
			k := j*m.NX + i
			drawn := lines.At(m.Centre(i, j))
			var v vector
			v.add(m.Cells[k], 1-drawn.Coherence)
			v.add(drawn, 1)
			out.Cells[k] = v.cell(1)
		}
	}
	return &out
}
