package wane

import (
	"math"

	"heartside/layout/geom"
)

// Engineering choices: how far the outline may lie off the edges as they were
// found, mm; the margin at which an edge is as likely to lie elsewhere as not;
// how long a doubtful stretch is told of, mm.
const (
	ringOff    = 0.7
	halfMargin = 6.0
	vagueLong  = 30.0
	sideReach  = 12.0 // how far to either side wood and ground are looked for, mm
)

// found draws the ring and judges it.
func (t *tracer) found(e [2]path, rough *tracer) *Found {
	b := t.heights(e)
	n := t.i1 - t.i0
	x := func(i int) float64 { return (float64(i+t.i0) + 0.5) * t.dx }
	var sides [2]geom.Polygon
	for side, y := range b.y {
		y = evened(evened(y))
		line := geom.Polygon{geom.Pt(t.around.Min.X, y[0])}
		for i := range n {
			if px := x(i); px > t.around.Min.X && px < t.around.Max.X {
				line = append(line, geom.Pt(px, y[i]))
			}
		}
		sides[side] = append(line, geom.Pt(t.around.Max.X, y[n-1]))
	}
	f := &Found{Ring: append(geom.Polygon{}, sides[1]...)}
	for i := len(sides[0]) - 1; i >= 0; i-- {
		f.Ring = append(f.Ring, sides[0][i])
	}
	f.Ring = f.Ring.Simplify(ringOff)
	parts := [2][]float64{rough.parted(0, n), rough.parted(1, n)}
	sum := 0.0
	from := -1
	for i := 0; i <= n; i++ {
		doubt := false
		if i < n {
			s := sureOf(min(e[0].margin[i], rough.margin(0, x(i)), e[1].margin[i], rough.margin(1, x(i)))) * min(parts[0][i], parts[1][i])
			sum += s
			doubt = s < 0.5
		}
		switch {
		case doubt && from < 0:
			from = i
		case !doubt && from >= 0:
			if float64(i-from)*t.dx >= vagueLong {
				f.Vague = append(f.Vague, [2]float64{x(from) - t.dx/2, x(i) - t.dx/2})
			}
			from = -1
		}
	}
	f.Sure = sum / float64(n)
	return f
}

// margin is by how much a coarse edge was cheaper than others at x.
func (t *tracer) margin(side int, x float64) float64 {
	list := t.laid[side].margin
	return list[min(max(int(x/t.dx)-t.i0, 0), len(list)-1)]
}

// parted is how far a coarse edge has wood on its one side and ground on its
// other, 0 to 1, for n columns.
func (t *tracer) parted(side, n int) []float64 {
	reach := int(math.Ceil(sideReach / t.dy))
	rows := t.laid[side].row
	in, out, all := make([]float64, len(rows)), make([]float64, len(rows)), make([]float64, len(rows))
	for i, row := range rows {
		all[i] = 1
		for k := 1; k <= reach; k++ {
			j, o := row+k, row-1-k
			if side == 1 {
				j, o = t.c.ny-1-j, t.c.ny-1-o
			}
			if j >= 0 && j < t.c.ny {
				in[i] += t.of[j*t.c.nx+i+t.i0] / float64(reach)
			}
			if o >= 0 && o < t.c.ny {
				out[i] += t.of[o*t.c.nx+i+t.i0] / float64(reach)
			}
		}
	}
	const about = 3 // columns to either side
	in, out, all = box(in, len(rows), 1, about, 0), box(out, len(rows), 1, about, 0), box(all, len(rows), 1, about, 0)
	p := make([]float64, n)
	for i := range p {
		k := i * len(rows) / n
		p[i] = 1 / (1 + math.Exp(-2*in[k]/all[k])) / (1 + math.Exp(2*out[k]/all[k]))
	}
	return p
}

// sureOf is how sure an edge is that is by margin cheaper than any other.
func sureOf(margin float64) float64 { return 1 - math.Exp2(-margin/halfMargin) }

// evened smooths by the weights 1 2 1.
func evened(y []float64) []float64 {
	out := make([]float64, len(y))
	for i := range y {
		out[i] = (y[max(i-1, 0)] + 2*y[i] + y[min(i+1, len(y)-1)]) / 4
	}
	return out
}

// Widest returns how far a ring reaches across, lowest and highest y, mm.
func Widest(ring geom.Polygon) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		low, high = math.Min(low, p.Y), math.Max(high, p.Y)
	}
	return low, high
}
