package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Allowances are what working the wood takes, mm.
type Allowances struct {
	Kerf       float64 // width of the saw cut, between blanks
	Rest       float64 // left on each long edge so that the wood can move and be sawn again
	Joint      float64 // taken off each long edge when it is jointed
	Ends       float64 // left at each end of a blank
	FlawMargin float64 // clear distance wanted to a flaw
	Snipe      float64 // length at a board's end that thicknessing may spoil
}

// edge returns what a blank has over the strip at each long edge.
func (a Allowances) edge() float64 { return a.Joint + a.Rest }

// Machines are the limits of the maker's machines, mm; 0 means no limit.
type Machines struct {
	Flatten   float64 // widest piece that can be flattened
	Thickness float64 // widest piece that can be thicknessed
	Shortest  float64 // shortest piece that is safe
	Narrowest float64 // narrowest piece that is safe
}

// slack is how far a size may be off and still be held, mm: far below what a
// saw can do, far above rounding.
const slack = 0.01

// Blank returns what is sawn out for a strip, in face-1 coordinates of its
// board: wider by joint and rest at each long edge, longer by ends at each
// end, turned with the strip. Towards a neighbour of its row there is no more
// than the saw cut between the two leaves. The corners run anticlockwise from
// the one at the strip's own corner: the first edge is the near long edge, the
// third the far one.
func Blank(s *face.Strip, a Allowances) geom.Polygon {
	return s.ToBoard().ApplyTo(BlankRect(s, a).Polygon())
}

// grown returns the strip's rectangle on its board, longer by along at each
// end and wider by across at each long edge.
func grown(s *face.Strip, along, across float64) geom.Polygon {
	return s.ToBoard().ApplyTo(geom.R(-along, -across, s.L+along, s.W+across).Polygon())
}

// BlankSize returns the length and width of what is sawn out for a strip of
// the given size as glued that is cut by itself.
func BlankSize(l, w float64, a Allowances) (length, width float64) {
	return l + 2*a.Ends, w + 2*a.edge()
}

// sound reports whether a strip lies on a board and has a size.
func sound(s *face.Strip) bool {
	if s.Board == nil || !(s.L > 0) || !(s.W > 0) {
		return false
	}
	for _, v := range [...]float64{s.X, s.Y, s.L, s.W, s.Angle, s.Shift} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
