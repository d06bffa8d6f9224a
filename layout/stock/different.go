package stock

import (
	"math"
	"slices"
)

// When two plans are clearly different, see Different. Engineering choices with
// no published source.
const (
	otherWood = 0.20 // share of the wood that comes from other boards
	otherLook = 0.05 // share of unwanted wood on a show face
)

// Different reports whether a maker would call two plans of the same demands
// clearly different. They are where they cut into other boards (boards that are
// alike count as one another), where a panel is glued up of another number of
// strips, where a fifth of the wood that either takes comes from another board
// for the same part, or where the unwanted share on the show face of a part
// differs by five points of a hundred. Other places on the same boards alone
// make no other plan.
func Different(supply Supply, a, b *Result) bool {
	name := alikeNames(&supply)
	if !slices.Equal(cutInto(a, name), cutInto(b, name)) {
		return true
	}
	same, all := 0.0, [2]float64{}
	for k := range a.Parts {
		if k >= len(b.Parts) {
			break
		}
		p, q := &a.Parts[k], &b.Parts[k]
		if len(p.Strips) != len(q.Strips) || math.Abs(p.Unwanted[0]-q.Unwanted[0]) >= otherLook {
			return true
		}
		from, there := woodFrom(p, name), woodFrom(q, name)
		for id, mm2 := range from {
			all[0] += mm2
			same += math.Min(mm2, there[id])
		}
		for _, mm2 := range there {
			all[1] += mm2
		}
	}
	return same < (1-otherWood)*math.Max(all[0], all[1])
}

// cutInto lists the boards that a plan cuts into, under the names of those they
// are like.
func cutInto(r *Result, name map[string]string) []string {
	var out []string
	for _, u := range r.Boards {
		out = append(out, name[u.Board])
	}
	slices.Sort(out)
	return out
}

// woodFrom returns the area of a part's strips by board.
func woodFrom(p *Part, name map[string]string) map[string]float64 {
	out := map[string]float64{}
	for i := range p.Strips {
		s := &p.Strips[i]
		out[name[s.Board.ID]] += s.L * s.W
	}
	return out
}

// alikeNames gives every board the id of the first that is just like it: one
// wood all over, square, of one size and price, nothing taken.
func alikeNames(s *Supply) map[string]string {
	opened := map[string]bool{}
	for i := range s.Taken {
		if b := s.Taken[i].Board; b != nil {
			opened[b.ID] = true
		}
	}
	out := map[string]string{}
	for i := range s.Boards {
		id := s.Boards[i].Board.ID
		out[id] = id
		for k := range i {
			if o := s.Boards[k].Board.ID; out[o] == o && !opened[o] && !opened[id] && justLike(s.Boards[i], s.Boards[k]) {
				out[id] = o
				break
			}
		}
	}
	return out
}

// justLike reports whether it makes no difference which of two boards is cut.
func justLike(a, b Stock) bool {
	x, y := a.Board, b.Board
	for f := range x.Faces {
		p, q := &x.Faces[f], &y.Faces[f]
		if len(p.Zones)+len(q.Zones) > 0 || len(p.Outline)+len(q.Outline) > 0 || p.Base != q.Base {
			return false
		}
	}
	return a.Price == b.Price && x.Length == y.Length && x.Width == y.Width && x.Thickness == y.Thickness
}
