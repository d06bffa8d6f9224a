package trace

import (
	"fmt"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Brush returns m with kind wherever a cell's middle lies within half of width
// mm of the stroke through points, face mm; one point makes a dot. The cell
// under each point is always painted, so that a fine brush leaves a trace.
func Brush(m *photo.Mask, points []geom.Point, width float64, kind photo.Label) (*photo.Mask, error) {
	if err := checkEdit(m, points, kind); err != nil {
		return nil, fmt.Errorf("brush: %w", err)
	}
	if !(width > 0 && width < farthest) {
		return nil, fmt.Errorf("brush: it is %g mm wide: give more than 0", width)
	}
	if len(points) == 0 {
		return nil, fmt.Errorf("brush: the stroke has no points")
	}
	out := copyOf(m)
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	r := width / 2
	cells := func(lo, hi, size float64, n int) (int, int) {
		return int(math.Min(math.Max(math.Floor(lo/size), 0), float64(n))), int(math.Min(math.Max(math.Ceil(hi/size), 0), float64(n)))
	}
	for k, a := range points {
		b := points[min(k+1, len(points)-1)]
		box := geom.R(a.X, a.Y, b.X, b.Y).Inset(-r)
		i0, i1 := cells(box.Min.X, box.Max.X, dx, m.W)
		j0, j1 := cells(m.Width-box.Max.Y, m.Width-box.Min.Y, dy, m.H)
		for j := j0; j < j1; j++ {
			y := m.Width - (float64(j)+0.5)*dy
			for i := i0; i < i1; i++ {
				if geom.SegmentDistance(geom.Pt((float64(i)+0.5)*dx, y), a, b) <= r {
					out.Pix[j*m.W+i] = kind
				}
			}
		}
		if i, j := int(math.Floor(a.X/dx)), int(math.Floor((m.Width-a.Y)/dy)); i >= 0 && j >= 0 && i < m.W && j < m.H {
			out.Pix[j*m.W+i] = kind
		}
	}
	return out, nil
}

// Fill returns m with kind in each cell whose middle lies inside a ring, face
// mm, even-odd where it crosses itself.
func Fill(m *photo.Mask, ring geom.Polygon, kind photo.Label) (*photo.Mask, error) {
	if err := checkEdit(m, ring, kind); err != nil {
		return nil, fmt.Errorf("fill: %w", err)
	}
	if len(ring) < 3 {
		return nil, fmt.Errorf("fill: the outline has %d points: give 3 or more", len(ring))
	}
	out := copyOf(m)
	fill(out, ring, kind)
	return out, nil
}

func checkEdit(m *photo.Mask, points []geom.Point, kind photo.Label) error {
	if err := check(m); err != nil {
		return err
	}
	if kind > photo.Unseen {
		return fmt.Errorf("%d is no kind of wood", kind)
	}
	return places(points)
}
