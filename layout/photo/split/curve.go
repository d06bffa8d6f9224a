package split

import "math"

// bend is what a curve pays for a change of height of d mm within run mm.
// Engineering choices: a sap line wanders, and seldom by more than 1 in 2.
func bend(d, run float64) float64 {
	per := math.Abs(d) * 4 / run
	return run / 4 * (.45*per + .16*per*per)
}

// climb is the most rows a curve may change from column to column.
const climb = 4

// path returns the edge in each column, 0 to ny, that gains most: gain holds
// ny + 1 rows of nx. Viterbi's method.
func path(gain []float64, nx, ny int, dx, dy float64) (y []int, best float64) {
	n := ny + 1
	var pen [2*climb + 1]float64
	for k := range pen {
		pen[k] = bend(float64(k-climb)*dy, dx)
	}
	from := make([]int8, nx*n)
	cur, next := make([]float64, n+2*climb), make([]float64, n+2*climb)
	for k := range climb {
		cur[k], cur[n+climb+k] = math.Inf(-1), math.Inf(-1)
		next[k], next[n+climb+k] = math.Inf(-1), math.Inf(-1)
	}
	for j := range n {
		cur[climb+j] = gain[j*nx]
	}
	for i := 1; i < nx; i++ {
		for j := range n {
			b, bk := math.Inf(-1), 0
			for k, p := range pen {
				if v := cur[j+k] - p; v > b {
					b, bk = v, k
				}
			}
			next[climb+j] = b + gain[j*nx+i]
			from[i*n+j] = int8(bk - climb)
		}
		cur, next = next, cur
	}
	y = make([]int, nx)
	best = math.Inf(-1)
	for j := range n {
		if cur[climb+j] > best {
			best = cur[climb+j]
			y[nx-1] = j
		}
	}
	for i := nx - 1; i > 0; i-- {
		y[i-1] = y[i] + int(from[i*n+y[i]])
	}
	return y, best
}

// lines are the curves of a face: sapwood lies above top and below bottom, or
// between them where inner is set.
type lines struct {
	top, bottom []int // edges, 0 to ny, per column
	inner       bool
}

// sap tells whether row j of column i is sapwood.
func (l *lines) sap(i, j int) bool { return (j < l.top[i] || j >= l.bottom[i]) != l.inner }

// mask returns 1 where the curves say sapwood, else 0.
func (l *lines) mask(nx, ny int) []float64 {
	out := make([]float64, nx*ny)
	for j := range ny {
		for i := range nx {
			if l.sap(i, j) {
				out[j*nx+i] = 1
			}
		}
	}
	return out
}

// wander is how far the curves stray from straight between points about 100 mm
// apart, mm, root mean square: shadows of edges do not.
func (l *lines) wander(g *grid) float64 {
	h := max(1, int(50/g.dx))
	sum, n := 0.0, 0.0
	for _, y := range [2][]int{l.top, l.bottom} {
		// Means of five columns leave little of the steps between rows.
		mean := make([]float64, len(y))
		for i := range y {
			for k := i - 2; k <= i+2; k++ {
				v := y[min(max(k, 0), len(y)-1)]
				if v <= 0 || v >= g.ny {
					mean[i] = math.NaN()
				}
				mean[i] += float64(v) / 5
			}
		}
		for i := h; i+h < len(y); i++ {
			if d := (mean[i] - (mean[i-h]+mean[i+h])/2) * g.dy; d == d {
				sum += d * d
				n++
			}
		}
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(sum / n)
}
