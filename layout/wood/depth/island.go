package depth

import (
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// span is a stretch across a section.
type span struct {
	from, to float64
	kind     face.Kind
}

// chain is an island, section by section.
type chain struct {
	kind   face.Kind
	first  int
	lo, hi []float64
}

// islands adds what differs from the one stretch of heartwood in section i,
// where either face has something of the kind. There the rule of distances
// decides, held to half the island's width: one that the other face does not
// show narrows evenly and ends half way through.
func (s *Solid) islands(p *profile, i int, t float64) {
	c := [2]*column{&s.faces[0][i], &s.faces[1][i]}
	p.odds = p.odds[:0]
	main := func(y float64) face.Kind {
		if p.bare[i] || y < p.lo[i] || y > p.hi[i] {
			return face.Sap
		}
		return face.Heart
	}
	rule := func(y, held float64) float64 {
		hold := func(d float64) float64 { return math.Min(math.Max(d, -held), held) }
		return (1-t)*hold(c[0].into(y)) + t*hold(c[1].into(y))
	}
	within := func(y float64) (held float64) { // half the width of an island of either face
		for k := range c {
			if c[k].odd == nil {
				continue
			}
			heart := !c[k].bare && y >= c[k].end[lower] && y <= c[k].end[upper]
			if (c[k].into(y) < 0) != heart {
				held = math.Max(held, c[k].half(y))
			}
		}
		return math.Min(held, reach)
	}
	var ys []float64
	for k := range c {
		for _, e := range c[k].odd {
			ys = append(ys, e.y)
		}
	}
	slices.Sort(ys)
	from, to := math.Max(ys[0], p.y0[i]), math.Min(ys[len(ys)-1], p.y1[i])
	open := -1
	for y := from + 0.25; y < to; y += 0.5 {
		kind := face.Heart
		held := within(y)
		if rule(y, held) > 0 {
			kind = face.Sap
		}
		if held == 0 || kind == main(y) {
			open = -1
			continue
		}
		if open >= 0 && p.odds[open].kind == kind {
			p.odds[open].to = y + 0.25
			continue
		}
		open = len(p.odds)
		p.odds = append(p.odds, span{y - 0.25, y + 0.25, kind})
	}
	for j := range p.odds {
		p.join(&p.odds[j], i)
	}
}

// join adds a stretch to the island it continues.
func (p *profile) join(o *span, i int) {
	for j := len(p.odd) - 1; j >= 0; j-- {
		c := &p.odd[j]
		last := c.first + len(c.lo) - 1
		if last < i-1 {
			if j < len(p.odd)-64 {
				break
			}
			continue
		}
		if last == i-1 && c.kind == o.kind && c.lo[len(c.lo)-1] < o.to && c.hi[len(c.hi)-1] > o.from {
			c.lo, c.hi = append(c.lo, o.from), append(c.hi, o.to)
			return
		}
	}
	p.odd = append(p.odd, chain{o.kind, i, []float64{o.from}, []float64{o.to}})
}

// speck is the least island that is drawn, mm2. An engineering choice.
const speck = 6.0

// ring returns the island's outline, nil for a speck.
func (c *chain) ring(x []float64) geom.Polygon {
	half := (x[1] - x[0]) / 2
	area := 0.0
	for i := range c.lo {
		area += (c.hi[i] - c.lo[i]) * 2 * half
	}
	if area < speck {
		return nil
	}
	var low, high []geom.Point
	n := len(c.lo)
	add := func(x float64, i int) {
		low, high = append(low, geom.Pt(x, c.lo[i])), append(high, geom.Pt(x, c.hi[i]))
	}
	add(math.Max(x[c.first]-half, x[0]), 0)
	for i := range n {
		add(x[c.first+i], i)
	}
	add(math.Min(x[c.first+n-1]+half, x[len(x)-1]), n-1)
	low, high = thinned(low), thinned(high)
	slices.Reverse(high)
	return append(low, high...)
}
