package grain

import (
	"math"
	"sort"

	"heartside/layout/geom"
)

// blank marks a pixel outside the board.
const blank = 255

// labels paints the zones into a grid of nx x ny pixels, row 0 at y = width.
func (s *Spec) labels(nx, ny int) []uint8 {
	out := make([]uint8, nx*ny)
	base := uint8(s.Base)
	if s.Outline == nil {
		for i := range out {
			out[i] = base
		}
	} else {
		for i := range out {
			out[i] = blank
		}
		s.paint(out, nx, ny, s.Outline, func(p *uint8) { *p = base })
	}
	for _, z := range s.Zones {
		label := uint8(z.Label)
		s.paint(out, nx, ny, z.Polygon, func(p *uint8) {
			if *p != blank {
				*p = label
			}
		})
	}
	return out
}

// paint visits the pixels whose middle lies inside p, even-odd.
func (s *Spec) paint(out []uint8, nx, ny int, p geom.Polygon, set func(*uint8)) {
	var xs []float64
	sx := float64(nx) / s.Length
	for j := 0; j < ny; j++ {
		y := s.Width - (float64(j)+0.5)*s.Width/float64(ny)
		xs = xs[:0]
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.Y > y) != (b.Y > y) {
				xs = append(xs, (a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))*sx-0.5)
			}
		}
		sort.Float64s(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			i0 := int(math.Ceil(math.Max(xs[k], 0)))
			i1 := int(math.Ceil(math.Min(xs[k+1], float64(nx))))
			for i := i0; i < i1 && i < nx; i++ {
				set(&out[j*nx+i])
			}
		}
	}
}

// soften returns how much of the wood about each pixel has a label, 0 to 1,
// over rx pixels to each side and ry up and down; twice, so that no edge of
// the window shows. Pixels outside the board do not count.
func soften(labels []uint8, nx, ny int, label uint8, rx, ry int) []float32 {
	v := make([]float32, len(labels))
	for i, l := range labels {
		if l == label {
			v[i] = 1
		}
	}
	tmp := make([]float32, max(nx, ny)+1)
	for pass := 0; pass < 2; pass++ {
		for j := 0; j < ny; j++ {
			boxBlur(v[j*nx:], nx, 1, rx, tmp)
		}
		for i := 0; i < nx; i++ {
			boxBlur(v[i:], ny, nx, ry, tmp)
		}
	}
	return v
}

// boxBlur averages n values a step apart over r to each side, the border
// value standing for what lies beyond.
func boxBlur(v []float32, n, step, r int, tmp []float32) {
	if r <= 0 {
		return
	}
	sum := float32(0)
	for i := 0; i < n; i++ {
		tmp[i] = v[i*step]
	}
	at := func(i int) float32 { return tmp[min(max(i, 0), n-1)] }
	for i := -r; i <= r; i++ {
		sum += at(i)
	}
	k := 1 / float32(2*r+1)
	for i := 0; i < n; i++ {
		v[i*step] = sum * k
		sum += at(i+r+1) - at(i-r)
	}
}

// knot is a branch cut by the face: an ellipse the grain runs round.
type knot struct {
	c    geom.Point
	a, b float64 // half lengths along and across, mm
	n    noise
}

// knots returns the flaws that look like knots: about as long as wide and
// inside the board. Others are splits, bark or wane.
func (s *Spec) knots() []knot {
	var out []knot
	for i, z := range s.Zones {
		if z.Label != Flaw || len(z.Polygon) < 3 {
			continue
		}
		r := z.Polygon.Bounds()
		if r.W() <= 0 || r.H() <= 0 || r.W() > 5*r.H() || r.H() > 3*r.W() {
			continue
		}
		out = append(out, knot{r.Centre(), r.W() / 2, r.H() / 2, noise{mixBits(s.Seed + uint64(i)*31 + 5)}})
	}
	return out
}

// deflect returns the place whose grain shows at p: lines part before a knot
// and close behind it.
func (k *knot) deflect(p geom.Point) geom.Point {
	dx, dy := (p.X-k.c.X)/(3.2*k.a), (p.Y-k.c.Y)/(2.2*k.b)
	q := dx*dx + dy*dy
	if q > 6 {
		return p
	}
	p.Y = k.c.Y + (p.Y-k.c.Y)*(1-0.92*math.Exp(-q))
	return p
}

// depth returns how deep p lies in the knot: 1 at its rim, 0 in its middle.
func (k *knot) depth(p geom.Point) float64 {
	return math.Hypot((p.X-k.c.X)/k.a, (p.Y-k.c.Y)/k.b)
}
