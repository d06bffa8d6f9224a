package wane

import "math"

// lane is a picture of costs in which one edge is sought: cost[j*nx+i] of the
// edge of column i running above row j, for rows 0 to last[i].
type lane struct {
	nx, ny int
	cost   []float64
	last   []int
	dx, dy float64 // mm a cell
}

// Engineering choices: how fast an edge may leave its course, mm a mm, and
// what a slope costs, squared, for 4 mm.
const (
	steepest = 1.5
	stiff    = 6.0
)

// path is an edge: the row above which it runs in each column, and how much
// dearer the best other one is that leaves it there by more than a few mm.
type path struct {
	row    []int
	margin []float64
}

// apart is how far another edge must lie to be another one, mm.
const apart = 4.0

// cheapest finds the path of least cost by dynamic programming, both ways, so
// that the cost of the best path through every place is known.
func (l *lane) cheapest() path {
	most := int(math.Ceil(steepest * l.dx / l.dy))
	turn := make([]float64, most+1)
	for k := range turn {
		slope := float64(k) * l.dy / l.dx
		turn[k] = stiff * slope * slope * l.dx / 4
	}
	ahead, back := l.sums(turn, false), l.sums(turn, true)
	p := path{row: make([]int, l.nx), margin: make([]float64, l.nx)}
	// The path itself, from the left.
	at, least := 0, math.Inf(1)
	for j := 0; j <= l.last[0]; j++ {
		if v := back[j*l.nx]; v < least {
			at, least = j, v
		}
	}
	p.row[0] = at
	for i := 1; i < l.nx; i++ {
		next, cost := at, math.Inf(1)
		for j := max(at-most, 0); j <= min(at+most, l.last[i]); j++ {
			if v := back[j*l.nx+i] + turn[max(j-at, at-j)]; v < cost {
				next, cost = j, v
			}
		}
		at = min(next, l.last[i])
		p.row[i] = at
	}
	far := int(math.Ceil(apart / l.dy))
	for i, row := range p.row {
		best, other := math.Inf(1), math.Inf(1)
		for j := 0; j <= l.last[i]; j++ {
			k := j*l.nx + i
			v := ahead[k] + back[k] - l.cost[k]
			if v < best {
				best = v
			}
			if v < other && max(j-row, row-j) >= far {
				other = v
			}
		}
		p.margin[i] = other - best
		if math.IsInf(other, 1) {
			p.margin[i] = 0 // no room for another: nothing is said
		}
	}
	return p
}

// sums returns the cost of the best path to each place from the left, or from
// the right.
func (l *lane) sums(turn []float64, right bool) []float64 {
	out := make([]float64, len(l.cost))
	for n := range l.nx {
		i, from := n, n-1
		if right {
			i, from = l.nx-1-n, l.nx-n
		}
		for j := range l.ny {
			k := j*l.nx + i
			if j > l.last[i] {
				out[k] = math.Inf(1)
				continue
			}
			out[k] = l.cost[k]
			if n == 0 {
				continue
			}
			best := math.Inf(1)
			for s, cost := range turn {
				if j >= s {
					if v := out[(j-s)*l.nx+from] + cost; v < best {
						best = v
					}
				}
				if j+s < l.ny {
					if v := out[(j+s)*l.nx+from] + cost; v < best {
						best = v
					}
				}
			}
			out[k] += best
		}
	}
	return out
}
