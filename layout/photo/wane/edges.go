package wane

import "math"

// Engineering choices: what the cells one above another in a column repeat of
// each other, mm; how far to either side of an edge a step of colour is looked
// for, mm; what a clear one is worth; and the spreads it is measured by.
const (
	repeats   = 2.0
	stepReach = 4.0
	stepWorth = 6.0
)

var stepSpread = [3]float64{0.15, 0.05, 0.05}

// seedReach is half the height of the window that looks for wood along the
// board, as a share of the rectangle's width. An engineering choice.
const seedReach = 0.06

// edges lays the upper and the lower edge between the ends; rows of the lower
// one count from below.
func (t *tracer) edges() [2]path {
	t.seed = t.middle()
	var out [2]path
	steps := t.steps()
	for side := range out {
		out[side] = t.edge(steps, side)
	}
	return out
}

// edge lays one edge; rows count from its own side.
func (t *tracer) edge(steps []float64, side int) path {
	n := t.i1 - t.i0
	l := &lane{nx: n, ny: t.c.ny, cost: make([]float64, n*t.c.ny), last: make([]int, n), dx: t.dx, dy: t.dy}
	row := func(j int) int {
		if side == 1 {
			return t.c.ny - 1 - j
		}
		return j
	}
	for i := range n {
		l.last[i] = row(t.seed[i])
		sum := 0.0
		for j := 0; j <= l.last[i]; j++ {
			cost := 2 * sum * t.dy / repeats
			if j > 0 { // the step lies between this row and the one before
				cost -= stepWorth * steps[max(row(j), row(j-1))*t.c.nx+i+t.i0]
			}
			l.cost[j*n+i] = cost
			sum += t.of[row(j)*t.c.nx+i+t.i0]
		}
	}
	return l.cheapest()
}

// steps is how clear a step of colour there is above each row, 0 to 1.
func (t *tracer) steps() []float64 {
	c := t.c
	r := max(int(math.Round(stepReach/t.dy)), 1)
	out := make([]float64, len(c.f))
	sums := make([][4]float64, c.ny+1)
	for i := t.i0; i < t.i1; i++ {
		for j := range c.ny {
			s := sums[j]
			if k := j*c.nx + i; c.seen[k] {
				for d := range 3 {
					s[d] += c.f[k][d]
				}
				s[3]++
			}
			sums[j+1] = s
		}
		for j := 1; j < c.ny; j++ {
			a, m, b := &sums[max(j-r, 0)], &sums[j], &sums[min(j+r, c.ny)]
			up, down := m[3]-a[3], b[3]-m[3]
			if up == 0 || down == 0 {
				continue
			}
			e := 0.0
			for d := range 3 {
				v := ((m[d]-a[d])/up - (b[d]-m[d])/down) / stepSpread[d]
				e += v * v
			}
			out[j*c.nx+i] = e / (1 + e)
		}
	}
	return out
}

// middle finds a line that runs over wood from end to end.
func (t *tracer) middle() []int {
	n := t.i1 - t.i0
	reach := max(int(t.around.H()*seedReach/t.dy), 1)
	sum := box(t.of, t.c.nx, t.c.ny, 1, reach)
	l := &lane{nx: n, ny: t.c.ny, cost: make([]float64, n*t.c.ny), last: make([]int, n), dx: t.dx, dy: t.dy}
	mid := float64(t.c.ny) - (t.around.Centre().Y)/t.dy
	for i := range n {
		l.last[i] = t.c.ny - 1
		for j := range t.c.ny {
			// The middle of the rectangle, where all is alike.
			off := (float64(j) - mid) * t.dy / t.around.H()
			l.cost[j*n+i] = -sum[j*t.c.nx+i+t.i0]/float64(2*reach+1) + 2*off*off
		}
	}
	p := l.cheapest()
	return p.row
}

// band is where fine edges may lie: about coarse ones.
type band struct {
	t *tracer
	y [2][]float64 // upper and lower edge in each column between the ends, mm

}

// heights turns edges into mm.
func (t *tracer) heights(e [2]path) *band {
	b := &band{t: t}
	for side := range e {
		b.y[side] = make([]float64, len(e[side].row))
		for i, row := range e[side].row {
			b.y[side][i] = t.s.Width - float64(row)*t.dy
			if side == 1 {
				b.y[side][i] = float64(row) * t.dy
			}
		}
	}
	return b
}

// near sets the band to the cells of t, from coarser ones.
func (t *tracer) near(b *band, coarse *tracer) {
	n := t.i1 - t.i0
	for side := range b.y {
		was := b.y[side]
		b.y[side] = make([]float64, n)
		for i := range n {
			x := (float64(i+t.i0)+0.5)*t.dx/coarse.dx - 0.5 - float64(coarse.i0)
			a := min(max(int(math.Floor(x)), 0), len(was)-1)
			c := min(a+1, len(was)-1)
			b.y[side][i] = was[a] + (was[c]-was[a])*math.Min(math.Max(x-float64(a), 0), 1)
		}
	}
	b.t = t
}

// holds reports whether a cell is near an edge.
func (b *band) holds(i, j int) bool {
	i -= b.t.i0
	if i < 0 || i >= len(b.y[0]) {
		return false
	}
	y := b.t.s.Width - (float64(j)+0.5)*b.t.dy
	return math.Abs(y-b.y[0][i]) <= near || math.Abs(y-b.y[1][i]) <= near
}

// side is what a cell away from the edges leans to.
func (b *band) side(i, j int) float64 {
	i = min(max(i-b.t.i0, 0), len(b.y[0])-1)
	y := b.t.s.Width - (float64(j)+0.5)*b.t.dy
	if y < b.y[0][i] && y > b.y[1][i] {
		return mostLean
	}
	return -mostLean
}
