package figure

import (
	"errors"
	"math"

	"heartside/layout/geom"
)

// The directions of drawn lines are spread over the face by inverse distance
// weighting (Shepard 1968). Grain changes less along the board than across it,
// so a distance along counts less. Engineering choices.
const (
	alongLess = 3.0   // mm along that count as one across
	hold      = 120.0 // distance at which a line is half as sure as on it, mm
	dab       = 5.0   // between points read on a line, mm
	mostDabs  = 4000
)

// FromLines returns how the grain runs on a face from polylines that a maker
// drew along it, in the face's own coordinates. Coherence falls with the
// distance to the nearest line.
func FromLines(lines [][]geom.Point, length, width, cell float64) (*Map, error) {
	m, err := newMap(length, width, cell)
	if err != nil {
		return nil, err
	}
	marks := dabs(lines)
	if len(marks) == 0 {
		return nil, errors.New("no line shows how the grain runs: draw one along it")
	}
	for j := range m.NY {
		for i := range m.NX {
			p := m.Centre(i, j)
			var v vector
			sum, nearest := 0.0, math.Inf(1)
			for _, d := range marks {
				x, y := (d.at.X-p.X)/alongLess, d.at.Y-p.Y
				q := x*x + y*y + 1
				w := 1 / (q * q)
				v.add(Cell{d.angle, 1}, w)
				sum += w
				nearest = min(nearest, q)
			}
			c := v.cell(sum)
			c.Coherence *= 1 / (1 + nearest/(hold*hold))
			m.Cells[j*m.NX+i] = c
		}
	}
	return m, nil
}

// mark is a point of a drawn line and the direction there.
type mark struct {
	at    geom.Point
	angle float64
}

// dabs reads the lines every few mm.
func dabs(lines [][]geom.Point) []mark {
	total := 0.0
	each := func(f func(a, b geom.Point, d float64)) {
		for _, line := range lines {
			for i := 1; i < len(line); i++ {
				if d := line[i-1].Dist(line[i]); d > 1e-6 && d <= most {
					f(line[i-1], line[i], d)
				}
			}
		}
	}
	each(func(_, _ geom.Point, d float64) { total += d })
	step := max(dab, total/mostDabs)
	var out []mark
	each(func(a, b geom.Point, d float64) {
		n := min(max(1, int(math.Round(d/step))), mostDabs)
		angle := within(math.Atan2(b.Y-a.Y, b.X-a.X) * 180 / math.Pi)
		for k := range n {
			out = append(out, mark{a.Lerp(b, (float64(k)+0.5)/float64(n)), angle})
		}
	})
	if len(out) > 2*mostDabs {
		out = out[:2*mostDabs]
	}
	return out
}
