package sheet

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"heartside/app/session"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// snapped is the line cuts are measured from, on face 1: straight along the
// board at a distance y from the marked edge's own line.
type snapped struct {
	y        float64
	near     [2]float64 // from the wood's edge in to the line, at the marked and the other end
	straight bool       // along the marked edge itself, corner to corner
}

// snapLine is the line of the cutting rules: along a square marked edge from
// corner to corner, else along the wane, where all of it lies on wood.
func snapLine(bd *face.Board) snapped {
	l := snapped{y: cutting.Line(bd)}
	out := bd.Faces[0].Outline
	if out == nil {
		l.straight = true
		return l
	}
	for i, x := range [2]float64{0, bd.Length} {
		if lo, _, ok := extentAt(out, x, bd.Length); ok {
			l.near[i] = math.Max(l.y-lo, 0)
		}
	}
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
	return cutting.Blank(s, session.AllowancesOf(a))
}

// cutList puts the cuts of a board in order: lengths of the board from the
// marked end, each cut off from the next; in each the long cuts from the line
// outwards, then the ends.
func cutList(a model.Allowances, bd *face.Board, parts []place) []cut {
	// Known by their place in the list: two panels may have strips of one id.
	strips := make([]face.Strip, len(parts))
	of := map[string]place{}
	for i, p := range parts {
		strips[i] = *p.strip
		strips[i].ID = fmt.Sprintf("%06d", i)
		of[strips[i].ID] = p
	}
	line := cutting.Line(bd)
	list := cutting.Cuts(bd, strips, session.AllowancesOf(a))
	var out []cut
	for len(list) > 0 {
		n := 0
		for n < len(list) && list[n].Section == list[0].Section {
			n++
		}
		out = append(out, sectionCuts(a, list[:n], of, line)...)
		list = list[n:]
	}
	return out
}

// sectionCuts are the cuts of one length of a board.
func sectionCuts(a model.Allowances, list []cutting.Cut, of map[string]place, line float64) []cut {
	var out, rips, ends []cut
	var whom []string
	for _, c := range list {
		p := of[c.Strip]
		whom = append(whom, p.label)
		on := func(m cutting.Mark) geom.Point { return geom.Pt(m.X, m.Offset+line) }
		rips = append(rips, newCut("rip", p.label, on(c.Near[0]), on(c.Near[1]), true), newCut("rip", p.label, on(c.Far[0]), on(c.Far[1]), true))
		q := blankOf(a, p.strip)
		ends = append(ends, newCut("cut end", p.label, q[0], q[3], false), newCut("cut end", p.label, q[1], q[2], false))
	}
	if x := list[0].CrossAt; x > 0 {
		// Across the whole board: the points lie on the line.
		at := geom.Pt(x, line)
		out = append(out, cut{what: "cross-cut the board", whom: strings.Join(whom, ", "), p: at, q: at})
	}
	sort.SliceStable(rips, func(i, j int) bool { return rips[i].p.Y+rips[i].q.Y < rips[j].p.Y+rips[j].q.Y })
	return append(out, merge(append(rips, ends...), a.Kerf)...)
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
