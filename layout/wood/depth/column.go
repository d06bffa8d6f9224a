package depth

import (
	"math"
	"slices"

	"heartside/layout/face"
)

// column is what one face shows in one section, in face-1 across.
type column struct {
	seen   bool    // the face tells of wood here
	bare   bool    // no heartwood
	y0, y1 float64 // the wood
	end    [2]float64
	line   [2]bool // the heartwood ends on the face there, not at its edge
	odd    []edge  // all changes of wood, where there are more than one stretch has
	first  face.Kind
}

// edge is where the wood changes, rising along y.
type edge struct {
	y  float64
	to face.Kind // heart or sap: what begins
}

// cross is where a ring crosses a section.
type cross struct {
	y    float64
	ring int32 // 0 the outline, else zone + 1
}

// columns reads a face.
func (s *Solid) columns(k int) []column {
	f := &s.b.Faces[k]
	out := make([]column, len(s.x))
	if !f.Known {
		for i := range out {
			out[i].y1 = s.b.Width
		}
		return out
	}
	at, list := s.crossings(f)
	w := s.b.Width
	var in []bool
	var pieces []edge
	for i := range out {
		cs := list[at[i]:at[i+1]]
		slices.SortFunc(cs, func(a, b cross) int {
			switch {
			case a.y < b.y:
				return -1
			case a.y > b.y:
				return 1
			}
			return int(a.ring - b.ring)
		})
		in = append(in[:0], make([]bool, len(f.Zones)+1)...)
		in[0] = f.Outline == nil
		pieces = pieces[:0]
		last := 0.0
		for j := 0; j <= len(cs); j++ {
			y := w
			if j < len(cs) {
				y = math.Min(math.Max(cs[j].y, 0), w)
			}
			if y > last {
				pieces = append(pieces, edge{last, f.kind(in)})
				last = y
			}
			if j < len(cs) {
				in[cs[j].ring] = !in[cs[j].ring]
			}
		}
		out[i].read(pieces, w)
		if k == 1 {
			out[i].mirror(w)
		}
	}
	return out
}

// crossings lists where rings cross each section, by section: those of section
// i are list[at[i]:at[i+1]].
func (s *Solid) crossings(f *Face) (at []int32, list []cross) {
	n := len(s.x)
	dx := s.b.Length / float64(n-1)
	each := func(visit func(i int, ring int32, y float64)) {
		for r := 0; r <= len(f.Zones); r++ {
			p := f.Outline
			if r > 0 {
				p = f.Zones[r-1].Polygon
			}
			for j, a := range p {
				b := p[(j+1)%len(p)]
				if a.X > b.X {
					a, b = b, a
				}
				if a.X == b.X {
					continue
				}
				// The last section lies a hair inside the board's end.
				i0 := int(math.Max(math.Ceil(a.X/dx-1e-9), 0))
				for i := i0; i < n; i++ {
					x := s.x[i]
					if i == n-1 {
						x -= 1e-3
					} else if i == 0 {
						x += 1e-3
					}
					if x >= b.X {
						break
					}
					if x >= a.X {
						visit(i, int32(r), a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
					}
				}
				if i0 >= n && a.X <= s.b.Length-1e-3 {
					x := s.x[n-1] - 1e-3
					if x < b.X {
						visit(n-1, int32(r), a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
					}
				}
			}
		}
	}
	at = make([]int32, n+1)
	each(func(i int, _ int32, _ float64) { at[i+1]++ })
	for i := range n {
		at[i+1] += at[i]
	}
	list = make([]cross, at[n])
	next := slices.Clone(at)
	each(func(i int, r int32, y float64) {
		list[next[i]] = cross{y, r}
		next[i]++
	})
	return at, list
}

// kind returns the wood where the rings of in lie on one another: heart, sap,
// blank, or Unseen where a flaw or something not seen hides it.
func (f *Face) kind(in []bool) face.Kind {
	if !in[0] {
		return face.Blank
	}
	hidden := false
	for z := len(f.Zones) - 1; z >= 0; z-- {
		if !in[z+1] {
			continue
		}
		if k := f.Zones[z].Kind; k == face.Heart || k == face.Sap {
			return k
		}
		hidden = true
	}
	if hidden || f.Base > face.Sap {
		return face.Unseen
	}
	return f.Base
}

// read finds the stretch of heartwood among pieces, each up to the next and
// the last to w. What is hidden is taken for the wood beside it, by halves.
func (c *column) read(pieces []edge, w float64) {
	c.y0, c.y1 = w/2, w/2
	var es []edge
	wood := false
	hideFrom := math.NaN()
	for i, p := range pieces {
		to := w
		if i+1 < len(pieces) {
			to = pieces[i+1].y
		}
		if p.to == face.Blank {
			continue
		}
		if !wood {
			wood, c.y0 = true, p.y
		}
		c.y1 = to
		if p.to == face.Unseen {
			if math.IsNaN(hideFrom) {
				hideFrom = p.y
			}
			continue
		}
		from := p.y
		if !math.IsNaN(hideFrom) {
			from = (hideFrom + from) / 2
			hideFrom = math.NaN()
		}
		if n := len(es); n == 0 || es[n-1].to != p.to {
			es = append(es, edge{from, p.to})
		}
	}
	if len(es) == 0 {
		return
	}
	c.seen, c.first = true, es[0].to
	es[0].y = c.y0
	from, to := stretch(es, c.y1)
	if from < 0 {
		c.bare = true
		mid := (c.y0 + c.y1) / 2
		c.end = [2]float64{mid, mid}
		return
	}
	c.end = [2]float64{es[from].y, c.y1}
	if to < len(es) {
		c.end[1] = es[to].y
	}
	c.line = [2]bool{c.end[0] > c.y0+thin, c.end[1] < c.y1-thin}
	if from > 1 || to > from+1 || to < len(es)-1 {
		c.odd = slices.Clone(es[1:])
	}
}

// thin is how near the edge of the board a line no longer counts, mm.
const thin = 0.02

// stretch returns the pieces, from up to to, that make the best one stretch of
// heartwood: the greatest sum of heart less sap. from is -1 without heart.
func stretch(es []edge, end float64) (from, to int) {
	best, run, start := 0.0, 0.0, 0
	from = -1
	for i, e := range es {
		y := end
		if i+1 < len(es) {
			y = es[i+1].y
		}
		if run <= 0 {
			run, start = 0, i
		}
		if e.to == face.Sap {
			run -= y - e.y
			continue
		}
		if run += y - e.y; run > best {
			best, from, to = run, start, i+1
		}
	}
	return from, to
}

// mirror turns a column of face 2 into face-1 across.
func (c *column) mirror(w float64) {
	c.y0, c.y1 = w-c.y1, w-c.y0
	c.end = [2]float64{w - c.end[1], w - c.end[0]}
	c.line[0], c.line[1] = c.line[1], c.line[0]
	if c.odd == nil {
		return
	}
	// What begins at an edge is then what ended there.
	out := make([]edge, 0, len(c.odd))
	kinds := []face.Kind{c.first}
	for _, e := range c.odd {
		kinds = append(kinds, e.to)
	}
	for j := len(c.odd) - 1; j >= 0; j-- {
		out = append(out, edge{w - c.odd[j].y, kinds[j]})
	}
	c.first, c.odd = kinds[len(kinds)-1], out
}

// into is how far y lies within the sapwood of a column: negative in
// heartwood, across the board, held to reach.
func (c *column) into(y float64) float64 {
	if !c.seen {
		return 0
	}
	if c.odd == nil {
		if c.bare {
			return reach
		}
		d := reach
		for b, sign := range [2]float64{1, -1} {
			if c.line[b] {
				if e := sign * (c.end[b] - y); e > -d && e < d {
					d = math.Abs(e)
				}
			}
		}
		if (!c.line[0] || y > c.end[0]) && (!c.line[1] || y < c.end[1]) {
			return -d
		}
		return d
	}
	kind, d := c.first, reach
	for _, e := range c.odd {
		d = math.Min(d, math.Abs(y-e.y))
		if e.y <= y {
			kind = e.to
		}
	}
	if kind == face.Heart {
		return -d
	}
	return d
}

// reach is where distances to the sap line are held, mm, as for the edges of a
// panel. An engineering choice.
const reach = 40.0

// half returns half the width of the stretch of one wood that y lies in.
func (c *column) half(y float64) float64 {
	lo, hi := c.y0, c.y1
	for _, e := range c.odd {
		if e.y <= y {
			lo = e.y
		} else {
			hi = e.y
			break
		}
	}
	return (hi - lo) / 2
}
