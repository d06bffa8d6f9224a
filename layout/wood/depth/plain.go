package depth

import (
	"math"
	"slices"

	"heartside/layout/face"
)

// plain reads section i at a share t of the thickness where both faces are
// known and the pith is not: wood is sap where (1 - t) d1 + t d2 > 0, with d1
// and d2 the distances across the board into the sap of face 1 and face 2, each
// held to reach. All of it is straight between kinks, so lines are exact.
func (s *Solid) plain(p *profile, i int, t float64) {
	c := [2]*column{&s.faces[0][i], &s.faces[1][i]}
	y0, y1 := p.y0[i], p.y1[i]
	rule := func(y float64) float64 { return (1-t)*c[0].into(y) + t*c[1].into(y) }
	p.kinks = append(p.kinks[:0], y0, y1)
	for _, c := range c {
		p.kinks = c.kinks(p.kinks, y0, y1)
	}
	slices.Sort(p.kinks)

	kind := func(v float64) face.Kind {
		if v > 0 {
			return face.Sap
		}
		return face.Heart
	}
	es := p.edges[:0]
	begin := func(y float64, k face.Kind) {
		if n := len(es); n == 0 || es[n-1].to != k {
			es = append(es, edge{y, k})
		}
	}
	for j := 1; j < len(p.kinks); j++ {
		a, b := p.kinks[j-1], p.kinks[j]
		if b-a < 1e-9 {
			continue
		}
		now := rule(b)
		// Between kinks the middle tells; a line lies where the sign changes.
		mid := rule((a + b) / 2)
		lo := 2*mid - now // the value at a from within, where into jumps nowhere
		if (lo > 0) != (now > 0) {
			begin(a, kind(lo))
			begin(a+(b-a)*lo/(lo-now), kind(now))
		} else {
			begin(a, kind(mid))
		}
	}
	p.edges = es
	if len(es) == 0 {
		p.bare[i] = true
		return
	}
	es[0].y = y0
	from, to := stretch(es, y1)
	if from < 0 {
		p.bare[i] = true
		p.lo[i], p.hi[i] = (y0+y1)/2, (y0+y1)/2
		return
	}
	// Past the edges the lines go on as the distances say, so that they do not
	// jump from section to section.
	p.lo[i], p.hi[i] = y0-math.Abs(rule(y0)), y1+math.Abs(rule(y1))
	if from > 0 {
		p.lo[i] = es[from].y
	}
	if to < len(es) {
		p.hi[i] = es[to].y
	}
	p.odds = p.odds[:0]
	for j, e := range es {
		end := y1
		if j+1 < len(es) {
			end = es[j+1].y
		}
		if inside := j >= from && j < to; (e.to == face.Heart) != inside {
			p.odds = append(p.odds, span{e.y, end, e.to})
		}
	}
	for j := range p.odds {
		p.join(&p.odds[j], i)
	}
}

// kinks appends where into changes its slope, from y0 to y1.
func (c *column) kinks(to []float64, y0, y1 float64) []float64 {
	add := func(y float64) {
		if y > y0 && y < y1 {
			to = append(to, y)
		}
	}
	var ys [2]float64
	lines := ys[:0]
	if c.odd != nil {
		for _, e := range c.odd {
			add(e.y - reach)
			add(e.y)
			add(e.y + reach)
		}
		for j := 1; j < len(c.odd); j++ {
			add((c.odd[j-1].y + c.odd[j].y) / 2)
		}
		return to
	}
	for b := range 2 {
		if c.line[b] {
			lines = append(lines, c.end[b])
			add(c.end[b] - reach)
			add(c.end[b])
			add(c.end[b] + reach)
		}
	}
	if len(lines) == 2 {
		add((lines[0] + lines[1]) / 2)
	}
	return to
}
