package offcut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/stock"
)

// Trial is what is wanted of test pieces for a finish. Sizes are mm.
type Trial struct {
	Length, Width float64 // of a piece, along and across the grain
	Count         int
	Least         float64 // share of the face that each of the two woods has at least
	Ends, Edges   float64 // of Length and Width, what comes off each end and each edge before it is a test piece
}

// UsualTrial is a piece on which a full sequence of a finish can be judged:
// common practice, no source.
var UsualTrial = Trial{Length: 200, Width: 80, Count: 1, Least: 0.25}

// Piece is a test piece on a board.
type Piece struct {
	Board     string
	Place     geom.Rect // face-1 coordinates
	Face      int       // the face to finish, 1 or 2
	Heart     float64   // mm2 of heartwood on it
	Sap       float64
	Offcut    int  // which of the offcuts it lies in, -1 where it lies in what is waste otherwise
	FarFace   bool // the other face holds both woods too
	Thickness float64
}

// gridStep is how finely places are tried, mm, and cell the tables' cells.
// Engineering choices.
const (
	gridStep = 5.0
	cell     = 2.0
)

// Trials finds test pieces on what is left of a board: each with heartwood and
// sapwood on one face, clear of flaws and of wood not seen yet. They are taken
// from waste first and then from the smallest offcut that holds one, so that large
// offcuts stay whole; in one offcut the piece with most of the rarer wood. Fewer
// come back where no more are found. offcuts are those of the board as Of gives
// them, and may be nil.
func Trials(b *face.Board, strips []face.Strip, a cutting.Allowances, offcuts []Offcut, want Trial) ([]Piece, error) {
	if b == nil || !(b.Length > 0) || !(b.Width > 0) || math.IsInf(b.Length, 0) || math.IsInf(b.Width, 0) {
		return nil, fmt.Errorf("no board to have test pieces; give one with length and width over 0")
	}
	for _, v := range [...]float64{want.Length, want.Width} {
		if !(v > 0) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("a test piece of %g x %g mm is no size; give length and width over 0", want.Length, want.Width)
		}
	}
	if want.Ends < 0 || want.Edges < 0 || want.Length <= 2*want.Ends || want.Width <= 2*want.Edges {
		return nil, fmt.Errorf("a test piece of %g x %g mm of which %g and %g mm come off each end and edge is none", want.Length, want.Width, want.Ends, want.Edges)
	}
	if !(want.Least > 0) || want.Least > 0.5 || want.Count < 0 {
		return nil, fmt.Errorf("%d test pieces with at least %g of either wood cannot be; give a count and a share over 0 up to 0.5", want.Count, want.Least)
	}
	t, err := stock.NewTable(b, 0, cell, 0)
	if err != nil {
		return nil, err
	}
	size := Least{want.Length, want.Width}
	rooms := fit(cutting.Free(b, strips, a), size)
	// Waste first: what lies in no offcut.
	waste := rooms
	for i := range offcuts {
		if offcuts[i].Board == b.ID {
			waste = fit(without(waste, offcuts[i].Place.Inset(-a.Kerf)), size)
		}
	}
	type source struct {
		rooms  []geom.Rect
		offcut int
	}
	sources := []source{{waste, -1}}
	for i := len(offcuts) - 1; i >= 0; i-- {
		if offcuts[i].Board == b.ID {
			sources = append(sources, source{fit([]geom.Rect{offcuts[i].Place}, size), i})
		}
	}
	slices.SortStableFunc(sources[1:], func(x, y source) int { return cmp.Compare(offcuts[x.offcut].Area(), offcuts[y.offcut].Area()) })
	var out []Piece
	for _, s := range sources {
		for len(out) < want.Count {
			best, ok := bestTrial(b, t, s.rooms, want)
			if !ok {
				break
			}
			best.Offcut = s.offcut
			out = append(out, best)
			s.rooms = fit(without(s.rooms, best.Place.Inset(-a.Kerf)), size)
		}
	}
	return out, nil
}

// bestTrial returns the place with most of the rarer wood; of equal ones the
// nearest to the marked end, then to the marked edge.
func bestTrial(b *face.Board, t *stock.Table, rooms []geom.Rect, want Trial) (Piece, bool) {
	best, found := Piece{}, false
	area := (want.Length - 2*want.Ends) * (want.Width - 2*want.Edges)
	for _, r := range rooms {
		for _, x := range places(r.Min.X, r.Max.X-want.Length) {
			for _, y := range places(r.Min.Y, r.Max.Y-want.Width) {
				p := geom.R(x, y, x+want.Length, y+want.Width)
				var rare [2]float64
				var wood [2]stock.Wood
				for f := range wood {
					w := t.On(f+1, geom.R(p.Min.X+want.Ends, p.Min.Y+want.Edges, p.Max.X-want.Ends, p.Max.Y-want.Edges))
					if wood[f] = w; w.Flaw+w.Unseen+w.Outside <= 1 {
						rare[f] = math.Min(w.Heart, w.Sap)
					}
				}
				if wood[0].Flaw > 1 || wood[1].Flaw > 1 {
					continue // a knot goes through
				}
				for f := range rare {
					if rare[f] < want.Least*area-1e-6 || found && rare[f] <= math.Min(best.Heart, best.Sap)+1e-6 {
						continue
					}
					best = Piece{Board: b.ID, Place: p, Face: f + 1, Heart: wood[f].Heart, Sap: wood[f].Sap,
						FarFace: rare[1-f] >= want.Least*area-1e-6, Thickness: b.Thickness}
					found = true
				}
			}
		}
	}
	return best, found
}

// places returns where a piece may begin between two places, both counted.
func places(from, to float64) []float64 {
	if to < from-1e-6 {
		return nil
	}
	var out []float64
	for v := from; v < to; v += gridStep {
		out = append(out, v)
	}
	return append(out, math.Max(from, to))
}
