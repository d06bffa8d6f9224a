package buy

import (
	"fmt"
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// Widths are how wide the sapwood is along one edge of a face: at the marked
// end, in the middle and at the other end, mm.
type Widths [3]float64

// Board is a board on offer.
type Board struct {
	ID                       string
	Length, Width, Thickness float64
	Sap                      [2][2]Widths // of face 1 and 2, along the marked edge and the other edge
	Unseen                   [2]bool      // faces that were not looked at: nothing on them counts as wanted
	Price                    float64      // of the whole board; 0: it is paid already
}

// at returns the sapwood's width at x from the marked end.
func (w Widths) at(x, length float64) float64 {
	u := 2 * math.Max(0, math.Min(1, x/length))
	if u <= 1 {
		return w[0] + (w[1]-w[0])*u
	}
	return w[1] + (w[2]-w[1])*(u-1)
}

// over returns the least and the greatest width between two places.
func (w Widths) over(from, to, length float64) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	see := func(v float64) { least, most = math.Min(least, v), math.Max(most, v) }
	see(w.at(from, length))
	see(w.at(to, length))
	if from < length/2 && to > length/2 {
		see(w[1])
	}
	return least, most
}

func (b *Board) check() error {
	for _, v := range [...]float64{b.Length, b.Width, b.Thickness} {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("board %s: %g x %g x %g mm is no board; give length, width and thickness over 0", b.ID, b.Length, b.Width, b.Thickness)
		}
	}
	if !number(b.Price) {
		return fmt.Errorf("board %s: a price of %g is none; give a number not under 0", b.ID, b.Price)
	}
	for f := range b.Sap {
		for e := range b.Sap[f] {
			for _, v := range b.Sap[f][e] {
				if !number(v) || v > b.Width {
					return fmt.Errorf("board %s, face %d: sapwood %g mm wide on a board of %g mm; give 0 to its width", b.ID, f+1, v, b.Width)
				}
			}
		}
	}
	return nil
}

// number reports whether v is finite and not under 0.
func number(v float64) bool { return v >= 0 && !math.IsInf(v, 0) }

// AsTaped returns the board as the planner's other packages know boards: the
// sapwood as zones between straight lines, a face that was not looked at as
// unseen.
func (b *Board) AsTaped() *face.Board {
	out := &face.Board{ID: b.ID, Length: b.Length, Width: b.Width, Thickness: b.Thickness}
	xs := [3]float64{0, b.Length / 2, b.Length}
	for f := range b.Sap {
		if b.Unseen[f] {
			out.Faces[f].Base = face.Unseen
			continue
		}
		for e := range b.Sap[f] {
			w := b.Sap[f][e]
			if w == (Widths{}) {
				continue
			}
			// On face 2 the marked edge lies at the top.
			low := (e == 0) == (f == 0)
			var p geom.Polygon
			for i, x := range xs {
				if low {
					p = append(p, geom.Pt(x, w[i]))
				} else {
					p = append(p, geom.Pt(x, b.Width-w[i]))
				}
			}
			y := 0.0
			if !low {
				y = b.Width
			}
			p = append(p, geom.Pt(b.Length, y), geom.Pt(0, y))
			out.Faces[f].Zones = append(out.Faces[f].Zones, face.Zone{Kind: face.Sap, Polygon: p})
		}
	}
	return out
}

// Work is what working the wood takes.
type Work struct {
	Allowances cutting.Allowances
	Machines   cutting.Machines
	Plane      float64 // least thickness that planing takes off a board
	Doubt      float64 // by so much a band of sapwood may be wider than it was taped
}

func (w *Work) check() error {
	a, m := w.Allowances, w.Machines
	for _, v := range [...]float64{a.Kerf, a.Rest, a.Joint, a.Ends, a.FlawMargin, a.Snipe, m.Flatten, m.Thickness, m.Shortest, m.Narrowest, w.Plane, w.Doubt} {
		if !number(v) {
			return fmt.Errorf("allowances and machine limits must be numbers not under 0; one is %g", v)
		}
	}
	return nil
}
