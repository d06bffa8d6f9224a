package split

import (
	"math"
	"slices"

	"heartside/layout/photo"
)

// Levels of the running median; a log-light range of 6 in 256 steps.
const (
	medianLevels = 256
	medianRange  = 10.0
)

// median2 returns the running median of v over 2 ry + 1 rows and 2 rx + 1
// columns, by a sliding histogram (Huang et al. 1979), to 1/40 or so.
func median2(v []float64, nx, ny, rx, ry int) []float64 {
	if len(v) == 0 {
		return nil
	}
	mid := medianOf(v)
	q := make([]uint8, len(v))
	for i, x := range v {
		q[i] = uint8(math.Min(math.Max((x-mid)/medianRange*medianLevels+medianLevels/2, 0), medianLevels-1))
	}
	out := make([]float64, len(v))
	var hist [medianLevels]int
	for j := range ny {
		j0, j1 := max(j-ry, 0), min(j+ry, ny-1)
		clear(hist[:])
		below, at, count := 0, 0, 0 // below: samples under level at
		add := func(i, d int) {
			for b := j0; b <= j1; b++ {
				l := q[b*nx+i]
				hist[l] += d
				if int(l) < at {
					below += d
				}
			}
			count += d * (j1 - j0 + 1)
		}
		for i := 0; i <= min(rx, nx-1); i++ {
			add(i, 1)
		}
		for i := range nx {
			for below > count/2 {
				at--
				below -= hist[at]
			}
			for below+hist[at] <= count/2 {
				below += hist[at]
				at++
			}
			out[j*nx+i] = (float64(at)+0.5-medianLevels/2)*medianRange/medianLevels + mid
			if i+rx+1 < nx {
				add(i+rx+1, 1)
			}
			if i-rx >= 0 {
				add(i-rx, -1)
			}
		}
	}
	return out
}

// medianOf returns the middle of v, 0 of nothing.
func medianOf(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	return photo.Nth(slices.Clone(v), len(v)/2)
}

// spreadOf returns the robust spread of v about nought, as a Gaussian's sigma.
func spreadOf(v []float64) float64 {
	a := make([]float64, len(v))
	for i, x := range v {
		a[i] = math.Abs(x)
	}
	return 1.4826 * medianOf(a)
}

// Windows of the medians, cells to either side. The wide one is for what lies
// in mid-face: lines narrower than half of it are chalk, pencil or a streak, for
// sapwood there is at least as wide.
const (
	medianAlong, medianAcross = 7, 4
	lineAlong, lineAcross     = 3, 8
)

// weigh lowers the weight of cells that are no plain wood: far from the median
// along the grain (knots, pencil, chalk), or much darker than all else (bark).
func weigh(g *grid) {
	b := g.f[0]
	near := residual(b, median2(b, g.nx, g.ny, medianAlong, medianAcross))
	wide := residual(b, median2(b, g.nx, g.ny, lineAlong, lineAcross))
	tn, tw := 3.5*(spreadOf(near)+.02), 5*(spreadOf(wide)+.02)
	dark := medianOf(b) - 2.8
	for i := range b {
		if g.w[i] == 0 {
			continue
		}
		t := near[i] / tn
		g.w[i] = 1 / (1 + t*t)
		if b[i] < dark {
			g.w[i] = 0
		}
		j := i / g.nx
		if j >= 2*lineAcross && j < g.ny-2*lineAcross {
			t = wide[i] / tw
			g.w[i] = math.Min(g.w[i], 1/(1+t*t))
		}
		// The outermost 1.5 mm may show what lies beside the board.
		if y := (float64(j) + .5) * g.dy; g.ny > 8 && min(y, float64(g.ny)*g.dy-y) < 1.5 {
			g.w[i] *= .2
		}
	}
}

func residual(v, from []float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[i] = x - from[i]
	}
	return out
}
