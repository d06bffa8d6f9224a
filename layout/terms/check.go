package terms

import (
	"fmt"
	"math"

	"heartside/layout/face"
)

// Keeps says whether terms are kept.
type Keeps string

// Answers.
const (
	Yes    Keeps = "yes"
	No     Keeps = "no"
	Unsure Keeps = "unsure" // wood that was not seen decides
)

// slack is how far a share may be off by rounding.
const slack = 1e-9

// Finding is how a piece stands to the terms.
type Finding struct {
	Piece
	Keeps  Keeps
	Better int // the better face, 1 or 2: the one with more of the wood ordered

	// Share is that of the wood ordered on the better face and on the other, as
	// far as it was seen; Lo and Hi are the range that wood not seen leaves.
	Share, Lo, Hi [2]float64

	// Short is by how much the shares are too small; WideBy the same as a width of
	// the wood not ordered, mm on the mean along the piece, that is too much.
	Short  [2]float64
	WideBy [2]float64
}

// Lot is how pieces stand to the terms together.
type Lot struct {
	Pieces []Finding
	Keeps  Keeps
	Kept   float64    // share of the lot that keeps the terms for certain, by area or number
	Most   float64    // and that may keep them
	Wanted float64    // of the lot
	Share  [2]float64 // of the wood ordered on all better faces together, and on all the others, seen
}

// Rack holds boards against terms: as bought, or after ripping by the strips that
// lie on them. Of a board without strips nothing is then in the lot.
func Rack(boards []*face.Board, strips []face.Strip, t Terms) (Lot, error) {
	var list []Piece
	for _, b := range boards {
		if t.When == AfterRipping {
			ripped, err := Ripped(b, strips)
			if err != nil {
				return Lot{}, err
			}
			list = append(list, ripped...)
			continue
		}
		p, err := Whole(b)
		if err != nil {
			return Lot{}, err
		}
		list = append(list, p)
	}
	return Check(list, t)
}

// Check holds pieces against terms. Each keeps them where its better face and its
// other face do; the lot where enough of it does. A lot of nothing keeps them.
func Check(list []Piece, t Terms) (Lot, error) {
	if err := t.check(); err != nil {
		return Lot{}, err
	}
	out := Lot{Kept: 1, Most: 1, Wanted: t.Of}
	if t.Of == 0 {
		out.Wanted = 1
	}
	var all, yes, may float64
	var have, seen [2]float64
	for _, p := range list {
		if !(p.Length > 0) || !(p.Width > 0) {
			return Lot{}, fmt.Errorf("piece %s: %g x %g mm is no size; give length and width over 0", p.ID, p.Length, p.Width)
		}
		f := find(p, t)
		out.Pieces = append(out.Pieces, f)
		size := 1.0
		if t.By != ByCount {
			size = p.Length * p.Width
		}
		all += size
		if f.Keeps == Yes {
			yes += size
		}
		if f.Keeps != No {
			may += size
		}
		for k, g := range [2]int{f.Better - 1, 2 - f.Better} {
			w := p.Face[g]
			seen[k] += w.Heart + w.Sap
			have[k] += f.Share[k] * (w.Heart + w.Sap)
		}
	}
	if all > 0 {
		out.Kept, out.Most = yes/all, may/all
	}
	for k := range have {
		if seen[k] > 0 {
			out.Share[k] = have[k] / seen[k]
		}
	}
	switch {
	case out.Kept >= out.Wanted-slack:
		out.Keeps = Yes
	case out.Most >= out.Wanted-slack:
		out.Keeps = Unsure
	default:
		out.Keeps = No
	}
	return out, nil
}

// find holds a piece against terms.
func find(p Piece, t Terms) Finding {
	least := [2]float64{t.Better, t.Other}
	var lo, hi, seen [2]float64
	for f, w := range p.Face {
		lo[f], hi[f] = w.share(t.Wood)
		if w.Unseen = 0; w != (Wood{}) {
			seen[f], _ = w.share(t.Wood)
		}
	}
	out := Finding{Piece: p, Better: 1, Keeps: No}
	if seen[1] > seen[0]+slack || math.Abs(seen[1]-seen[0]) <= slack && lo[1] > lo[0]+slack {
		out.Better = 2
	}
	b, o := out.Better-1, 2-out.Better
	for k, f := range [2]int{b, o} {
		out.Share[k], out.Lo[k], out.Hi[k] = seen[f], lo[f], hi[f]
		if d := least[k] - seen[f]; d > slack {
			out.Short[k], out.WideBy[k] = d, d*p.Width
		}
	}
	// Wood that was not seen may make the other face the better one.
	for _, up := range [2][2]int{{b, o}, {o, b}} {
		switch {
		case lo[up[0]] >= t.Better-slack && lo[up[1]] >= t.Other-slack:
			out.Keeps = Yes
		case out.Keeps == No && hi[up[0]] >= t.Better-slack && hi[up[1]] >= t.Other-slack:
			out.Keeps = Unsure
		}
	}
	return out
}
