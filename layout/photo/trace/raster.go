package trace

import (
	"fmt"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Rasterise returns the mask of zones laid one on another over a base, perMM
// cells to a millimetre (see photo.NewMask): a cell is what lies at its
// middle. It fails for sizes that are not more than 0, masks of more than 64 M
// cells, and kinds and places that are none.
func Rasterise(zones []Zone, base photo.Label, length, width, perMM float64) (*photo.Mask, error) {
	if !(length > 0 && width > 0 && perMM > 0 && length < farthest && width < farthest) {
		return nil, fmt.Errorf("mask of zones: %g x %g mm at %g cells a mm cannot be: give numbers over 0", length, width, perMM)
	}
	if math.Max(1, length*perMM)*math.Max(1, width*perMM) > mostCells {
		return nil, fmt.Errorf("mask of zones: %g x %g mm at %g cells a mm are too many cells: ask for fewer", length, width, perMM)
	}
	if base > photo.Unseen {
		return nil, fmt.Errorf("mask of zones: the base %d is no kind of wood", base)
	}
	m := photo.NewMask(length, width, perMM)
	for i := range m.Pix {
		m.Pix[i] = base
	}
	for i, z := range zones {
		if z.Kind > photo.Unseen {
			return nil, fmt.Errorf("mask of zones: zone %d is of kind %d, which is no kind of wood", i+1, z.Kind)
		}
		if err := places(z.Polygon); err != nil {
			return nil, fmt.Errorf("mask of zones: zone %d: %w", i+1, err)
		}
		fill(m, z.Polygon, z.Kind)
	}
	return m, nil
}

// places checks that all points are finite.
func places(p []geom.Point) error {
	for i, q := range p {
		if !(math.Abs(q.X) < farthest && math.Abs(q.Y) < farthest) {
			return fmt.Errorf("point %d (%g, %g) is no place on a board: give numbers in mm", i+1, q.X, q.Y)
		}
	}
	return nil
}

// fill sets the cells whose middle lies inside a ring, even-odd.
func fill(m *photo.Mask, p geom.Polygon, kind photo.Label) {
	spans(m, p, func(j, from, to int, _ int) {
		row := m.Pix[j*m.W:]
		for i := from; i < to; i++ {
			row[i] = kind
		}
	}, false)
}

// spans calls f for each run of cells [from, to) of row j whose middles lie
// inside a ring: by the even-odd rule, or, where turns are asked for, where
// the ring goes round them a number of times other than 0, anticlockwise
// positive.
func spans(m *photo.Mask, p geom.Polygon, f func(j, from, to, turns int), winding bool) {
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	type hit struct {
		x  float64
		up int
	}
	rows := make(map[int][]hit)
	for k, a := range p {
		b := p[(k+1)%len(p)]
		up := 1
		if a.Y > b.Y {
			a, b, up = b, a, -1
		}
		// Rows with middles y in [a.Y, b.Y).
		first := int(math.Max(math.Floor((m.Width-b.Y)/dy-0.5)-1, 0))
		last := int(math.Min(math.Ceil((m.Width-a.Y)/dy-0.5)+1, float64(m.H-1)))
		for j := first; j <= last; j++ {
			y := m.Width - (float64(j)+0.5)*dy
			if y >= a.Y && y < b.Y {
				rows[j] = append(rows[j], hit{a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X), up})
			}
		}
	}
	column := func(x float64) int { // the first whose middle is not left of x
		return int(math.Min(math.Max(math.Ceil(x/dx-0.5), 0), float64(m.W)))
	}
	for j := range m.H {
		hits := rows[j]
		slices.SortFunc(hits, func(s, t hit) int {
			switch {
			case s.x < t.x:
				return -1
			case s.x > t.x:
				return 1
			}
			return 0
		})
		turns := 0
		for k := 0; k+1 < len(hits); k++ {
			// What is left of an anticlockwise ring's downward side is outside it.
			if winding {
				turns -= hits[k].up
			} else {
				turns ^= 1
			}
			if from, to := column(hits[k].x), column(hits[k+1].x); turns != 0 && from < to {
				f(j, from, to, turns)
			}
		}
	}
}
