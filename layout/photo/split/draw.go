package split

import "math"

// Weights of the region and of the step along a curve, per 4 mm of it.
// Engineering choices.
const (
	regionWeight = .10
	stepWeight   = 1.1
)

// draw finds the two curves that fit the evidence: llr a cell, and a step
// above or below each edge. It climbs from all heartwood; where that misses
// some, also from heartwood along one line: an island of it in a face of sapwood
// has little to show from outside.
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
	e := &evidence{g: g, reg: reg, above: above, below: below, part: make([]float64, nx*ny), gain: make([]float64, nx*(ny+1))}
	l := &lines{top: filled(nx, 0), bottom: filled(nx, ny)}
	e.lower(l, false)
	e.upper(l, false)
	e.lower(l, false)
	e.upper(l, true)
	e.lower(l, true)
	if e.missed(l) < leastMissed {
		return l
	}
	m := &lines{top: e.spine()}
	e.lower(m, true)
	e.upper(m, true)
	e.lower(m, true)
	if e.worth(m) > e.worth(l) {
		return m
	}
	return l
}

// leastMissed is the share of the face from which heartwood outside the curves
// may be an island. An engineering choice.
const leastMissed = .01

// missed is the share of the face that is heartwood by its colour where the
// curves say sapwood, nothing where heartwood runs from end to end.
func (e *evidence) missed(l *lines) float64 {
	n, through := 0, true
	for i, top := range l.top {
		through = through && top < l.bottom[i]
		for j := range e.g.ny {
			if (j < top || j >= l.bottom[i]) && e.reg[j*e.g.nx+i] < 0 {
				n++
			}
		}
	}
	if through {
		return 0
	}
	return float64(n) / float64(len(e.reg))
}

// evidence is what curves are drawn by, with memory to work in.
type evidence struct {
	g                 *grid
	reg, above, below []float64
	part, gain        []float64
}

// upper draws the top curve where the bottom one holds all below it. With meet
// there is no step to look for where the two meet, for no heartwood lies between:
// so the heartwood may run out anywhere.
func (e *evidence) upper(l *lines, meet bool) {
	nx, ny := e.g.nx, e.g.ny
	for j := range ny {
		for i := range nx {
			at := j*nx + i
			e.part[at] = e.reg[at]
			if j >= l.bottom[i] {
				e.part[at] = 0
			}
		}
	}
	cs := prefix(e.part, nx, ny)
	k := stepWeight * e.g.dx / 4
	for j := range ny + 1 {
		for i := range nx {
			at := j*nx + i
			e.gain[at] = 2 * cs[at]
			if !meet || j < l.bottom[i] {
				e.gain[at] += k * e.above[at]
			}
		}
	}
	l.top, _ = path(e.gain, nx, ny, e.g.dx, e.g.dy)
}

// lower is upper for the bottom curve.
func (e *evidence) lower(l *lines, meet bool) {
	nx, ny := e.g.nx, e.g.ny
	for j := range ny {
		for i := range nx {
			at := j*nx + i
			e.part[at] = e.reg[at]
			if j < l.top[i] {
				e.part[at] = 0
			}
		}
	}
	cs := prefix(e.part, nx, ny)
	k := stepWeight * e.g.dx / 4
	for j := range ny + 1 {
		for i := range nx {
			at := j*nx + i
			e.gain[at] = 2 * (cs[ny*nx+i] - cs[at])
			if !meet || j > l.top[i] {
				e.gain[at] += k * e.below[at]
			}
		}
	}
	l.bottom, _ = path(e.gain, nx, ny, e.g.dx, e.g.dy)
}

// spine is the line with most heartwood on it and near it, straight where there
// is none.
func (e *evidence) spine() []int {
	nx, ny := e.g.nx, e.g.ny
	for i, v := range e.reg {
		e.part[i] = max(-v, 0)
	}
	cs := prefix(e.part, nx, ny)
	h := max(1, int(leastHeart/e.g.dy/2))
	for j := range ny + 1 {
		for i := range nx {
			e.gain[j*nx+i] = cs[min(j+h, ny)*nx+i] - cs[max(j-h, 0)*nx+i]
		}
	}
	y, _ := path(e.gain, nx, ny, e.g.dx, e.g.dy)
	return y
}

// worth is what the curves gain together.
func (e *evidence) worth(l *lines) float64 {
	nx, ny := e.g.nx, e.g.ny
	k := stepWeight * e.g.dx / 4
	sum := 0.0
	for i := range nx {
		for j := range ny {
			if j < l.top[i] || j >= l.bottom[i] {
				sum += 2 * e.reg[j*nx+i]
			}
		}
		if l.top[i] < l.bottom[i] {
			sum += k * (e.above[l.top[i]*nx+i] + e.below[l.bottom[i]*nx+i])
		}
		if i > 0 {
			sum -= bend(float64(l.top[i]-l.top[i-1])*e.g.dy, e.g.dx) + bend(float64(l.bottom[i]-l.bottom[i-1])*e.g.dy, e.g.dx)
		}
	}
	return sum
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
