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
	"heartside/model/say"
)

// cut is one saw cut from p to q on face 1, the left point first.
type cut struct {
	n          int // in order, from 1; 0 where there is nothing to saw
	what, whom string
	p, q       geom.Point
	rip        bool
	waste      float64 // on which side the waste lies: 1 towards higher x or y, -1 towards lower
}

// across reports whether the cut parts the whole board.
func (c *cut) across() bool { return c.p == c.q }

// What a cut is called.
const (
	cutSquare = "square off past the checks, measure from here"
	cutAcross = "cross-cut the board"
	cutRip    = "rip"
	cutEnd    = "cut end"
	noRip     = "the board's edge, no cut"
	noEnd     = "the board's end, no cut"
)

// name is what the cut is called on paper.
func (c *cut) name() string {
	switch c.what {
	case cutSquare:
		return say.T("square off past the checks, measure from here")
	case cutAcross:
		return say.T("cross-cut the board")
	case cutRip:
		return say.T("rip")
	case cutEnd:
		return say.T("cut end")
	case noRip:
		return say.T("the board's edge, no cut")
	case noEnd:
		return say.T("the board's end, no cut")
	}
	return c.what
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
	list := cutting.Cuts(bd, strips, session.AllowancesOf(a))
	s := section{a: a, bd: bd, of: of, line: cutting.Line(bd)}
	var out []cut
	if len(parts) > 0 {
		s.from = squareAt(a, bd, parts)
		s.fresh = s.from > bd.Cut[0]
		at := geom.Pt(s.from, s.line)
		out = append(out, cut{what: cutSquare, p: at, q: at, waste: -1})
	}
	for len(list) > 0 {
		n := 0
		for n < len(list) && list[n].Section == list[0].Section {
			n++
		}
		_, s.to = bd.Left()
		if x := list[0].CrossAt; x > 0 {
			s.to = x
		}
		out = append(out, s.cuts(list[:n])...)
		s.from, s.fresh = s.to+a.Kerf, true
		list = list[n:]
	}
	next := 1
	for i := range out {
		if out[i].what != noRip && out[i].what != noEnd {
			out[i].n = next
			next++
		}
	}
	return out
}

// squareMost is how much of the marked end is cut off at most so that one cut
// makes the first blanks' ends as well, mm. An engineering choice.
const squareMost = 100

// squareAt is how far from the marked end the board is squared off: where the
// first blank begins, or where that is far off what blanks are longer at an
// end, since that is what checks take; the end itself where there is no wood for a cut.
func squareAt(a model.Allowances, bd *face.Board, parts []place) float64 {
	end, _ := bd.Left()
	first := math.Inf(1)
	for _, p := range parts {
		first = math.Min(first, blankOf(a, p.strip).Bounds().Min.X)
	}
	switch {
	case first < end+a.Kerf || first <= end:
		return end
	case first <= end+squareMost:
		return first
	}
	return end + math.Max(a.Ends, 10)
}

// section is one length of a board, between the cross-cuts that part it off.
type section struct {
	a        model.Allowances
	bd       *face.Board
	of       map[string]place
	line     float64
	from, to float64
	fresh    bool // it begins at a cross-cut, not at the marked end
}

func (s *section) cuts(list []cutting.Cut) []cut {
	var out, rips, ends []cut
	var whom []string
	for _, c := range list {
		p := s.of[c.Strip]
		whom = append(whom, p.label)
		for _, r := range [...]struct {
			at    [2]cutting.Mark
			waste float64
		}{{c.Near, -1}, {c.Far, 1}} {
			p0, p1 := geom.Pt(r.at[0].X, r.at[0].Offset+s.line), geom.Pt(r.at[1].X, r.at[1].Offset+s.line)
			k := newCut(cutRip, p.label, p0, p1, true, r.waste)
			if edgeRoom(s.bd, k) < s.a.Kerf-0.01 {
				k.what = noRip
			}
			rips = append(rips, k)
		}
		q := blankOf(s.a, p.strip)
		ends = s.end(ends, newCut(cutEnd, p.label, q[0], q[3], false, -1))
		ends = s.end(ends, newCut(cutEnd, p.label, q[1], q[2], false, 1))
	}
	if _, end := s.bd.Left(); s.to < end {
		// Across the whole board: the points lie on the line.
		at := geom.Pt(s.to, s.line)
		out = append(out, cut{what: cutAcross, whom: strings.Join(whom, ", "), p: at, q: at, waste: 1})
	}
	sort.SliceStable(rips, func(i, j int) bool { return rips[i].p.Y+rips[i].q.Y < rips[j].p.Y+rips[j].q.Y })
	return append(out, merge(append(rips, ends...), s.a.Kerf)...)
}

// end adds an end cut where there is something to saw: not where a cross-cut
// makes the end, nor where less than a kerf would fall off.
func (s *section) end(list []cut, c cut) []cut {
	room, crossed := math.Max(c.p.X, c.q.X)-s.from, s.fresh
	if c.waste > 0 {
		_, end := s.bd.Left()
		room, crossed = s.to-math.Min(c.p.X, c.q.X), s.to < end
	}
	switch {
	case room >= s.a.Kerf-0.01 && room > 0.01:
		return append(list, c)
	case crossed:
		return list
	}
	c.what = noEnd
	return append(list, c)
}

// edgeRoom is how much wood, at most, lies between a long cut and the edge of
// the board on its waste side, mm.
func edgeRoom(bd *face.Board, c cut) float64 {
	room := math.Inf(-1)
	for f := range bd.Faces {
		out := bd.Faces[f].Outline
		if f == 1 && out != nil {
			out = bd.Other().ApplyTo(out)
		}
		for i := 0; i <= 16; i++ {
			at := c.p.Lerp(c.q, float64(i)/16)
			lo, hi, ok := 0.0, bd.Width, true
			if out != nil {
				lo, hi, ok = extentAt(out, at.X, bd.Length)
			}
			switch {
			case !ok:
			case c.waste < 0:
				room = math.Max(room, at.Y-lo)
			default:
				room = math.Max(room, hi-at.Y)
			}
		}
	}
	return room
}

func newCut(what, whom string, p, q geom.Point, rip bool, waste float64) cut {
	if p.X > q.X || p.X == q.X && p.Y > q.Y {
		p, q = q, p
	}
	return cut{what: what, whom: whom, p: p, q: q, rip: rip, waste: waste}
}

// merge joins cuts that one pass of the saw makes.
func merge(list []cut, kerf float64) []cut {
	var out []cut
	for _, c := range list {
		done := false
		for i := range out {
			o := &out[i]
			if o.what == c.what && o.whom != c.whom && o.pass(c, kerf) {
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

// pass reports whether the kerf of o makes c as well, and draws o out to the
// length of both where it does: c lies along o, in the same line, or where its
// waste lies on the other side no more than a kerf from it.
func (c *cut) pass(o cut, kerf float64) bool {
	d := c.q.Sub(c.p)
	long := math.Hypot(d.X, d.Y)
	if long == 0 {
		return c.p.Dist(o.p) < 0.5 && c.q.Dist(o.q) < 0.5
	}
	d = geom.Pt(d.X/long, d.Y/long)
	off := kerf + 0.05
	if c.waste == o.waste {
		off = 0.5
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range [...]geom.Point{o.p, o.q} {
		v := p.Sub(c.p)
		if math.Abs(v.X*d.Y-v.Y*d.X) > off {
			return false
		}
		s := v.X*d.X + v.Y*d.Y
		lo, hi = math.Min(lo, s), math.Max(hi, s)
	}
	if math.Min(hi, long) <= math.Max(lo, 0)+0.05 {
		return false
	}
	p := c.p
	at := func(s float64) geom.Point { return geom.Pt(p.X+d.X*s, p.Y+d.Y*s) }
	c.p, c.q = at(math.Min(lo, 0)), at(math.Max(hi, long))
	return true
}
