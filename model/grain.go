package model

import (
	"cmp"
	"fmt"
	"slices"

	"heartside/layout/geom"
	"heartside/model/say"
)

// SetGrain replaces the lines that show how the grain runs on a face. They say
// nothing of its heartwood and sapwood: a face that nobody has looked at for
// these stays one.
type SetGrain struct {
	Board string
	Face  int            // 1 or 2
	Grain [][]geom.Point // polylines in the face's coordinates, mm
	Verb  string         // what was done: "Draw grain"; "" for "Change grain lines"
}

// Label implements Edit.
func (e SetGrain) Label() string {
	return say.F("%s on board %s", cmp.Or(e.Verb, say.T("Change grain lines")), e.Board)
}

func (e SetGrain) apply(p *Project) (*Project, error) {
	return p.editFace(e.Board, e.Face, func(f *Face) { f.Grain = cloneLines(e.Grain) })
}

func cloneLines(list [][]geom.Point) [][]geom.Point {
	out := cloneSlice(list)
	for i := range out {
		out[i] = cloneSlice(out[i])
	}
	return out
}

// grain checks the grain lines of a face: each has two points or more, a
// length, and some part on the board.
func (c *checker) grain(at RuleError, lines [][]geom.Point, board geom.Rect) {
	for i, line := range lines {
		e := at
		e.Where = joinWhere(at.Where, fmt.Sprintf("grain line %d", i+1))
		e.Rule = RuleGrain
		switch {
		case len(line) < 2:
			e.Detail = say.F("a line needs two points, it has %d", len(line))
		case len(line) > maxVertices:
			e.Detail = say.F("%d points are more than a line may have", len(line))
		case slices.ContainsFunc(line, func(q geom.Point) bool { return !within(q.X, -maxSize, maxSize) || !within(q.Y, -maxSize, maxSize) }):
			e.Detail = say.T("a point is not a place within 20000 mm")
		case lineLength(line) < minSize:
			e.Detail = say.T("the line has no length")
		case !board.Empty() && !touches(line, board):
			e.Rule, e.Detail = RuleOutsideFace, say.T("it lies entirely beside the board")
		default:
			continue
		}
		c.fail(e)
	}
}

func lineLength(line []geom.Point) float64 {
	var sum float64
	for i := 1; i < len(line); i++ {
		sum += line[i].Sub(line[i-1]).Len()
	}
	return sum
}

// touches reports whether some point of a line lies in r or on its border.
func touches(line []geom.Point, r geom.Rect) bool {
	for i := 1; i < len(line); i++ {
		if enters(line[i-1], line[i], r) {
			return true
		}
	}
	return false
}

// enters clips the stretch from a to b against the two slabs that make r.
func enters(a, b geom.Point, r geom.Rect) bool {
	from, to := 0., 1.
	slab := func(a, d, lo, hi float64) bool {
		if d == 0 {
			return within(a, lo, hi)
		}
		s, t := (lo-a)/d, (hi-a)/d
		from, to = max(from, min(s, t)), min(to, max(s, t))
		return from <= to
	}
	d := b.Sub(a)
	return slab(a.X, d.X, r.Min.X, r.Max.X) && slab(a.Y, d.Y, r.Min.Y, r.Max.Y)
}
