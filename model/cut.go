package model

import (
	"heartside/layout/geom"
	"heartside/model/say"
)

// CutEnd says how much of a board's end is cut off, for a check, a split or rot
// that was found after it was entered. Nothing moves by it: zones, photographs
// and strips stay where they are on the board, and the wood there is gone.
type CutEnd struct {
	Board string
	End   int     // 0 the marked end, 1 the other end
	Off   float64 // mm in all, from where that end was; 0: nothing is cut off
}

// Label implements Edit.
func (e CutEnd) Label() string {
	what := say.F("Cut off %s", EndName(e.End))
	if e.Off == 0 {
		what = say.F("Put back %s", EndName(e.End))
	}
	return say.F("%s of board %s", what, e.Board)
}

// EndName names an end of a board in a sentence.
func EndName(end int) string {
	if end == 0 {
		return say.T("the marked end")
	}
	return say.T("the other end")
}

func (e CutEnd) apply(p *Project) (*Project, error) {
	if e.End != 0 && e.End != 1 {
		return nil, RuleError{Rule: RuleCut, Board: e.Board, Where: "cut", Detail: say.F("end %d is neither the marked end, 0, nor the other end, 1", e.End)}
	}
	if b := p.Board(e.Board); b != nil && b.Cut[e.End] == e.Off {
		return p, nil
	}
	return p.editBoard(e.Board, func(b *Board) error { b.Cut[e.End] = e.Off; return nil })
}

// Left returns where the wood of a board begins and ends, from where the marked
// end was.
func (b *Board) Left() (from, to float64) { return b.Cut[0], b.Length - b.Cut[1] }

// leastLeft is what must be left of a board, mm.
const leastLeft = 1

// cut checks that something is left between the ends cut off, on both faces.
func (c *checker) cut(b *Board) {
	if b.Cut == [2]float64{} {
		return
	}
	at := RuleError{Rule: RuleCut, Board: b.ID, Where: "cut"}
	for i, v := range b.Cut {
		if !within(v, 0, maxSize) {
			e := at
			e.Detail = say.F("%g mm cannot be cut off %s", v, EndName(i))
			c.fail(e)
			return
		}
	}
	from, to := b.Left()
	if to-from < leastLeft {
		at.Detail = say.F("with %g mm cut off %s and %g mm off %s nothing is left of %g mm", b.Cut[0], EndName(0), b.Cut[1], EndName(1), b.Length)
		c.fail(at)
		return
	}
	for i := range b.Faces {
		if o := b.Faces[i].Outline; len(o) > 0 && clippedArea(o, geom.R(from, 0, to, b.Width)) < minArea {
			at.Detail = say.F("nothing is left of the wood of face %d", i+1)
			c.fail(at)
			return
		}
	}
}
