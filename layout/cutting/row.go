package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Sides of a strip, as of face.Row.Gap.
const (
	atStart = iota // s = 0
	atEnd          // s = L
	atNear         // t = 0
	atFar          // t = W
)

// Gaps returns how much wood lies between a strip and its nearest neighbour on
// each side, of the others of its row that lie square to it: beyond s = 0,
// s = L, t = 0 and t = W, mm, below 0 where two overlap and +Inf where there
// is none. Others that lie on another board, or across a corner, are none.
func Gaps(s *face.Strip, others []face.Strip) [4]float64 {
	inf := math.Inf(1)
	out := [4]float64{inf, inf, inf, inf}
	if !sound(s) {
		return out
	}
	m, ok := s.ToBoard().Inverse()
	if !ok {
		return out
	}
	for i := range others {
		o := &others[i]
		if !sound(o) || o.Board != s.Board && o.Board.ID != s.Board.ID || math.Abs(o.Angle-s.Angle) > 1e-6 {
			continue
		}
		box := o.ToBoard().Then(m).ApplyTo(geom.R(0, 0, o.L, o.W).Polygon()).Bounds()
		side := [4]float64{-box.Max.X, box.Min.X - s.L, -box.Max.Y, box.Min.Y - s.W}
		along, across := atStart, atNear
		if side[atEnd] > side[along] {
			along = atEnd
		}
		if side[atFar] > side[across] {
			across = atFar
		}
		at, other := along, across
		if side[across] > side[along] {
			at, other = across, along
		}
		if side[other] < -slack {
			out[at] = math.Min(out[at], side[at])
		}
	}
	return out
}

// BlankRect returns what is sawn out for a strip, in its own (s, t). The cut
// between two of a row runs midway between them; what it leaves on either side,
// up to the allowance, stays on the blank.
func BlankRect(s *face.Strip, a Allowances) geom.Rect {
	left := [4]float64{a.Ends, a.Ends, a.edge(), a.edge()}
	if gaps, ok := s.RowGaps(); ok {
		for i, g := range gaps {
			left[i] = math.Min(left[i], math.Max(0, (g-a.Kerf)/2))
		}
	}
	return geom.R(-left[atStart], -left[atNear], s.L+left[atEnd], s.W+left[atFar])
}
