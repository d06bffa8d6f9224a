package trace

import (
	"fmt"
	"math"
	"slices"

	"heartside/layout/photo"
)

// Smooth returns m with the borders between heart and sap made smooth: what is
// finer than about mm goes, straight borders stay, and heart and sap keep
// their areas to the cell. Flaws, places not seen and places outside stay as
// they are and have no say.
//
// The share of sap about each cell, weighed by a bell of mm / 2 standard
// deviation, is cut at the height that keeps the area: motion by curvature as
// in Merriman, Bence and Osher (1992), keeping the area as in Ruuth and Wetton
// (2003).
func Smooth(m *photo.Mask, mm float64) (*photo.Mask, error) {
	if err := check(m); err != nil {
		return nil, fmt.Errorf("smoothing borders: %w", err)
	}
	if !(mm > 0 && mm < farthest) {
		return nil, fmt.Errorf("smoothing borders: over %g mm cannot be: give more than 0", mm)
	}
	sap, all := make([]float32, len(m.Pix)), make([]float32, len(m.Pix))
	n := 0
	for k, l := range m.Pix {
		switch l {
		case photo.Sap:
			sap[k], all[k] = 1, 1
			n++
		case photo.Heart:
			all[k] = 1
		}
	}
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	for _, v := range [][]float32{sap, all} {
		bell(v, m.W, m.H, mm/2/dx, mm/2/dy)
	}
	type cell struct {
		k     int32
		share float32
	}
	var woods []cell
	for k, l := range m.Pix {
		if l == photo.Sap || l == photo.Heart {
			woods = append(woods, cell{int32(k), sap[k] / all[k]})
		}
	}
	// The n cells with the most sap about them; of equals those that were sap.
	slices.SortFunc(woods, func(a, b cell) int {
		switch {
		case a.share > b.share:
			return -1
		case a.share < b.share:
			return 1
		case m.Pix[a.k] != m.Pix[b.k]:
			return int(m.Pix[b.k]) - int(m.Pix[a.k])
		}
		return int(a.k - b.k)
	})
	out := copyOf(m)
	for i, c := range woods {
		out.Pix[c.k] = photo.Heart
		if i < n {
			out.Pix[c.k] = photo.Sap
		}
	}
	return out, nil
}

// bell blurs v, w x h, with a bell of sx and sy cells standard deviation: three
// runs of a box. Beyond the border is nothing.
func bell(v []float32, w, h int, sx, sy float64) {
	line, sum := make([]float32, max(w, h)), make([]float64, max(w, h)+1)
	for range 3 {
		if r := radius(sx); r > 0 {
			for j := range h {
				box(v[j*w:], 1, w, r, line, sum)
			}
		}
		if r := radius(sy); r > 0 {
			for i := range w {
				box(v[i:], w, h, r, line, sum)
			}
		}
	}
}

// radius returns half the width, less the middle cell, of a box that run three
// times spreads like a bell: three boxes of 2r+1 have a variance of r(r+1).
func radius(sd float64) int { return int(math.Round((math.Sqrt(1+4*sd*sd) - 1) / 2)) }

// box replaces n values, step apart, by the means about them.
func box(v []float32, step, n, r int, line []float32, sum []float64) {
	r = min(r, n)
	for i := range n {
		sum[i+1] = sum[i] + float64(v[i*step])
	}
	for i := range n {
		line[i] = float32((sum[min(i+r+1, n)] - sum[max(i-r, 0)]) / float64(2*r+1))
	}
	for i := range n {
		v[i*step] = line[i]
	}
}
