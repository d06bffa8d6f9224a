package sheet

import (
	"math"
	"sort"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// snapped is the line cuts are measured from, on face 1: straight along the
// board at a distance y from the marked edge's own line.
type snapped struct {
	y        float64
	near     [2]float64 // from the wood's edge up to the line, at the marked and the other end
	straight bool       // along the marked edge itself, corner to corner
}

// snapLine chooses the line: along a square marked edge from corner to
// corner, else through the wood midway between the edges of a waney outline.
func snapLine(bd *face.Board) snapped {
	out := bd.Faces[0].Outline
	if out == nil {
		return snapped{straight: true}
	}
	var lo, hi [2]float64
	var ok [2]bool
	for i, x := range [2]float64{0, bd.Length} {
		lo[i], hi[i], ok[i] = extentAt(out, x, bd.Length)
	}
	if !ok[0] || !ok[1] {
		return snapped{straight: true}
	}
	l := snapped{y: math.Round((math.Max(lo[0], lo[1]) + math.Min(hi[0], hi[1])) / 2)}
	l.near = [2]float64{l.y - lo[0], l.y - lo[1]}
	return l
}

// extentAt returns between which heights the wood lies at x, looking a little
// further in where an end is not square.
func extentAt(p geom.Polygon, x, length float64) (lo, hi float64, ok bool) {
	step := length / 1000
	if x > length/2 {
		step = -step
	}
	for n := 0; n < 100; n++ {
		at := x + step*(float64(n)+0.5)
		lo, hi = math.Inf(1), math.Inf(-1)
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.X > at) != (b.X > at) {
				y := a.Y + (at-a.X)/(b.X-a.X)*(b.Y-a.Y)
				lo, hi = math.Min(lo, y), math.Max(hi, y)
			}
		}
		if lo < hi {
			return lo, hi, true
		}
	}
	return 0, 0, false
}

// describe says how the line is found on the board.
func (l snapped) describe(w words) string {
	if l.straight {
		return "along the marked edge, from corner to corner"
	}
	if math.Abs(l.near[0]-l.near[1]) < 0.5 {
		return "from end to end, " + w.len(l.near[0]) + " in from the wood's edge on the marked side at both ends"
	}
	return "from end to end: in from the wood's edge on the marked side " + w.len(l.near[0]) + " at the marked end, " + w.len(l.near[1]) + " at the other"
}

func (l snapped) signed() bool { return !l.straight }

// offset writes how far p lies off the line.
func (l snapped) offset(w words, p geom.Point) string {
	v := p.Y - l.y
	switch {
	case v < -0.05 && l.signed():
		return "−" + w.bare(-v)
	case l.signed():
		return "+" + w.bare(math.Max(v, 0))
	case v < 0:
		return "−" + w.bare(-v)
	}
	return w.bare(v)
}

// cut is one saw cut from p to q on face 1, the left point first.
type cut struct {
	what, whom string
	p, q       geom.Point
	rip        bool
}

// blankOf returns the corners of what is sawn out for a strip, on face 1:
// marked end near the strip's own corner, then anticlockwise.
func blankOf(a model.Allowances, s *face.Strip) geom.Polygon {
	edge := a.Joint + a.Rest
	return s.ToBoard().ApplyTo(geom.R(-a.Ends, -edge, s.L+a.Ends, s.W+edge).Polygon())
}

// cutList puts the cuts of a board in order: stretches of the board from the
// marked end, each cut off from the next; in each the long cuts from the line
// outwards, then the ends.
func cutList(a model.Allowances, l snapped, parts []place) []cut {
	var out []cut
	stretches := inStretches(a, parts)
	for i, list := range stretches {
		if i+1 < len(stretches) {
			x := reach(a, list).Max.X
			if free := reach(a, stretches[i+1]).Min.X - x; free > a.Kerf+0.05 {
				x += (free - a.Kerf) / 2
			}
			// Across the whole board: the points lie on the line.
			p := geom.Pt(x, l.y)
			out = append(out, cut{what: "cross-cut the board", whom: numbersOf(list), p: p, q: p})
		}
		var rips, ends []cut
		for _, p := range list {
			c := blankOf(a, p.strip)
			rips = append(rips, newCut("rip", p.label, c[0], c[1], true), newCut("rip", p.label, c[3], c[2], true))
			ends = append(ends, newCut("cut end", p.label, c[0], c[3], false), newCut("cut end", p.label, c[1], c[2], false))
		}
		sort.SliceStable(rips, func(i, j int) bool {
			return rips[i].p.Y+rips[i].q.Y < rips[j].p.Y+rips[j].q.Y
		})
		out = append(out, merge(append(rips, ends...), a.Kerf)...)
	}
	return out
}

func newCut(what, whom string, p, q geom.Point, rip bool) cut {
	if p.X > q.X || p.X == q.X && p.Y > q.Y {
		p, q = q, p
	}
	return cut{what: what, whom: whom, p: p, q: q, rip: rip}
}

// merge joins cuts that one pass of the saw makes: alike, and no more than a
// kerf apart.
func merge(list []cut, kerf float64) []cut {
	var out []cut
	for _, c := range list {
		done := false
		for i := range out {
			o := &out[i]
			if o.rip == c.rip && o.whom != c.whom && o.p.Dist(c.p) <= kerf+0.05 && o.q.Dist(c.q) <= kerf+0.05 {
				o.whom += ", " + c.whom
				done = true
				break
			}
		}
		if !done {
			out = append(out, c)
		}
	}
	return out
}

// inStretches parts the board where a straight cross-cut touches no blank.
func inStretches(a model.Allowances, parts []place) [][]place {
	list := append([]place(nil), parts...)
	sort.SliceStable(list, func(i, j int) bool {
		return reach(a, list[i:i+1]).Min.X < reach(a, list[j:j+1]).Min.X
	})
	var out [][]place
	end := math.Inf(-1)
	for _, p := range list {
		r := reach(a, []place{p})
		if len(out) == 0 || r.Min.X < end+a.Kerf-0.05 {
			if len(out) == 0 {
				out = append(out, nil)
			}
			out[len(out)-1] = append(out[len(out)-1], p)
		} else {
			out = append(out, []place{p})
		}
		end = math.Max(end, r.Max.X)
	}
	return out
}

// reach holds the blanks of the parts, on face 1.
func reach(a model.Allowances, list []place) geom.Rect {
	r := geom.R(math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1))
	for i, p := range list {
		q := blankOf(a, p.strip).Bounds()
		if i == 0 {
			r = q
		}
		r = r.Union(q)
	}
	return r
}

func numbersOf(list []place) string {
	s := ""
	for i, p := range list {
		if i > 0 {
			s += ", "
		}
		s += p.label
	}
	return s
}
