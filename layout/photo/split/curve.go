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

// Weights of the region and of the step along a curve, per 4 mm of it.
// Engineering choices.
const (
	regionWeight = .10
	stepWeight   = 1.1
)

// draw finds the two curves that fit the evidence: llr a cell, and a step
// above or below each edge.
func draw(g *grid, llr, above, below []float64, marks []uint8) *lines {
	nx, ny := g.nx, g.ny
	run := g.dx / 4
	reg := make([]float64, nx*ny)
	for i, v := range llr {
		reg[i] = regionWeight * g.dy * run * math.Min(math.Max(v, -3), 3)
		if marks != nil {
			switch marks[i] {
			case 1:
				reg[i] = -30
			case 2:
				reg[i] = 30
			}
		}
	}
	l := &lines{}
	gain := make([]float64, nx*(ny+1))
	l.bottom = filled(nx, ny)
	l.top = filled(nx, 0)
	part := make([]float64, nx*ny)
	for round := range 3 {
		// The top curve, with what the bottom one holds left out; then the
		// other way round.
		for j := range ny {
			for i := range nx {
				at := j*nx + i
				part[at] = reg[at]
				if round > 0 && j >= l.bottom[i] {
					part[at] = 0
				}
			}
		}
		if round > 0 {
			cs := prefix(part, nx, ny)
			for j := range ny + 1 {
				for i := range nx {
					at := j*nx + i
					gain[at] = 2*cs[at] + stepWeight*run*above[at]
				}
			}
			l.top, _ = path(gain, nx, ny, g.dx, g.dy)
		}
		for j := range ny {
			for i := range nx {
				at := j*nx + i
				part[at] = reg[at]
				if j < l.top[i] {
					part[at] = 0
				}
			}
		}
		cs := prefix(part, nx, ny)
		for j := range ny + 1 {
			for i := range nx {
				at := j*nx + i
				gain[at] = 2*(cs[ny*nx+i]-cs[at]) + stepWeight*run*below[at]
			}
		}
		l.bottom, _ = path(gain, nx, ny, g.dx, g.dy)
	}
	return l
}

func filled(n, v int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// drawInner is draw for sapwood in mid-face, with heartwood above and below.
func drawInner(g *grid, llr, above, below []float64, marks []uint8) *lines {
	not := make([]float64, len(llr))
	for i, v := range llr {
		not[i] = -v
	}
	var other []uint8
	if marks != nil {
		other = make([]uint8, len(marks))
		for i, m := range marks {
			if m != 0 {
				other[i] = 3 - m
			}
		}
	}
	l := draw(g, not, below, above, other)
	l.inner = true
	return l
}

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
