package match

import "math"

// search holds buffers that are used again.
type search struct {
	moving, fixed []float64
	sum, change   []float64 // running sums of moving and of its steps
	blocks        []float64
}

// block is how many places the bound takes together. Any number gives the same
// slide; this one is fast.
const block = 8

// slide finds by how much, in whole mm from lo to hi along the board, side x
// has to slide so that the mean difference to y is least, and that mean. Of
// equally good ones it is the least slide. Where none comes under limit the
// mean is infinite. Places of x are read at u + ux and of y at u + uy.
//
// The mean difference is no less than that of the sums of blocks of places
// (Li and Salari 1995, successive elimination), and between two steps it
// changes by no more than the widths themselves do: most slides are ruled out
// by these without a look at every place.
func (w *search) slide(j joint, x, y side, ux, uy, lo, hi, limit float64) (d, mean float64) {
	none := math.Inf(1)
	if x.turned {
		lo, hi = -hi, -lo
	}
	low, high := int(math.Ceil(lo-1e-9)), int(math.Floor(hi+1e-9))
	if low == 0 && high == 0 {
		return 0, none
	}
	j0, j1 := int(math.Floor(float64(low)/Step)), int(math.Ceil(float64(high)/Step))
	w.fill(j, x, y, ux, uy, j0, j1)
	n := float64(j.n)
	best := limit * n
	found, at := false, 0
	for k := 0; k <= max(-j0, j1); k++ {
		for _, c := range [2]int{k, -k} {
			if c < j0 || c > j1 || (k == 0 && c != k) {
				continue
			}
			o := c - j0
			// What the mean may lose within half a step either way.
			slack := w.changeAt(o, j.n) / 2
			if w.bound(o, j.n)-slack >= best || w.differ(o, 0, j.n)-slack >= best {
				continue
			}
			for i := 0; i <= Step/2; i++ {
				for _, e := range [2]int{i, -i} {
					mm := c*int(Step) + e
					if mm < low || mm > high || (i == 0 && e != i) {
						continue
					}
					v := w.differ(o, float64(e)/Step, j.n)
					if v < best-1e-9*n || found && v <= best+1e-9*n && abs(mm) < abs(at) {
						best, at, found = v, mm, true
					}
				}
			}
		}
	}
	if !found {
		return 0, none
	}
	return x.along(float64(at)), best / n
}

// fill reads both sides, x from one step before its first slide to one after
// its last.
func (w *search) fill(j joint, x, y side, ux, uy float64, j0, j1 int) {
	w.moving, w.fixed, w.blocks = w.moving[:0], w.fixed[:0], w.blocks[:0]
	w.sum, w.change = append(w.sum[:0], 0), append(w.change[:0], 0)
	for k := j0 - 1; k < j.n+j1+1; k++ {
		v := x.at(j.first + ux + Step*float64(k))
		step := 0.0
		if i := len(w.moving); i > 0 {
			step = math.Abs(v - w.moving[i-1])
		}
		w.moving = append(w.moving, v)
		w.sum = append(w.sum, w.sum[len(w.sum)-1]+v)
		w.change = append(w.change, w.change[len(w.change)-1]+step)
	}
	for k := range j.n {
		v := y.at(j.first + uy + Step*float64(k))
		if k%block == 0 {
			w.blocks = append(w.blocks, 0)
		}
		w.fixed = append(w.fixed, v)
		w.blocks[len(w.blocks)-1] += v
	}
}

// bound returns what the sum of the differences at slide o is at least.
func (w *search) bound(o, n int) float64 {
	total := 0.0
	for b, v := range w.blocks {
		i, k := o+1+b*block, o+1+min(n, (b+1)*block)
		total += math.Abs(w.sum[k] - w.sum[i] - v)
	}
	return total
}

// changeAt returns what the sum of the differences at slide o changes by, at
// most, over a whole step either way.
func (w *search) changeAt(o, n int) float64 {
	// change[i+1] - change[i] is the step from place i-1 to i.
	return max(w.change[o+n+2]-w.change[o+2], w.change[o+n+1]-w.change[o+1])
}

// differ returns the sum of the differences at slide o and a part of a step
// more.
func (w *search) differ(o int, part float64, n int) float64 {
	m := w.moving[o+1 : o+1+n]
	total := 0.0
	switch {
	case part == 0:
		for k, v := range w.fixed {
			total += math.Abs(m[k] - v)
		}
	case part > 0:
		next := w.moving[o+2 : o+2+n]
		for k, v := range w.fixed {
			total += math.Abs(m[k] + part*(next[k]-m[k]) - v)
		}
	default:
		next := w.moving[o : o+n]
		for k, v := range w.fixed {
			total += math.Abs(m[k] - part*(next[k]-m[k]) - v)
		}
	}
	return total
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
