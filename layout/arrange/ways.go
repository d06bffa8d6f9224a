package arrange

import (
	"math"
	"slices"

	"heartside/layout/face"
)

// ways returns the ways to change the panel that may end the warning, each
// giving its candidates when asked.
func (h *hunt) ways() []func() []change {
	switch h.w.Kind {
	case face.LoneStreak, face.OverLimit:
		return []func() []change{h.lyings, h.swaps, h.toEdge, h.stocks, h.pairs, h.swapAndLay, h.across, h.partners, h.narrower, h.spare}
	case face.OneSidedJoint, face.OneSidedEdge, face.Lopsided:
		return []func() []change{h.lyings, h.swaps, h.toEdge, h.stocks, h.across, h.partners, h.narrower, h.spare}
	case face.SliverKind:
		return append([]func() []change{h.lyings, h.stocks, h.across}, h.narrower, h.swaps, h.toEdge, h.spare)
	case face.FlawOnShow, face.FlawInEdge:
		return []func() []change{h.lyings, h.shifts, h.toEdge, h.swaps, h.pastFlaw, h.elsewhere, h.narrower, h.spare}
	case face.SapAfterPlaning:
		return []func() []change{h.lyings, h.stocks, h.across, h.elsewhere, h.narrower, h.spare}
	case face.PlanesBackwards, face.StripeRisk:
		return []func() []change{h.lyings, h.allLaid}
	case face.OutsideBoard, face.PartsOverlap:
		return []func() []change{h.clear, h.elsewhere, h.spare}
	case face.PanelTooSmall:
		return []func() []change{h.shifts, h.longer, h.wider, h.spare}
	}
	return nil
}

// aimed returns the indices of the strips that the warning is about; where it
// names none, those that show most of the unwanted wood, at most three.
func (h *hunt) aimed() []int {
	var out []int
	for _, id := range h.w.Strips {
		if i := h.index(id); i >= 0 {
			out = append(out, i)
		}
	}
	if len(h.w.Strips) > 0 {
		return out
	}
	for i := range h.f.p.Strips {
		if h.f.p.Strips[i].Board != nil {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return int(math.Copysign(1, h.unwanted(b)-h.unwanted(a)))
	})
	return out[:min(3, len(out))]
}

// unwanted returns how much of the unwanted wood a strip shows on the side
// warned of, 0 to 1.
func (h *hunt) unwanted(i int) float64 {
	r := &h.f.reading.Strips[i]
	share := r.Light.Value
	if h.w.Side == face.Back {
		share = r.BackLight.Value
	}
	if kind, ok := h.f.p.Wanted.Unwanted(); ok && kind == face.Heart {
		return 1 - share
	}
	return share
}

func (h *hunt) index(id string) int {
	return slices.IndexFunc(h.f.p.Strips, func(s face.Strip) bool { return s.ID == id })
}

// byNearness returns all strips, those warned of first, then those nearest to
// them.
func (h *hunt) byNearness() []int {
	aimed := h.aimed()
	var out []int
	for i := range h.f.p.Strips {
		out = append(out, i)
	}
	far := func(i int) int {
		if k := slices.Index(aimed, i); k >= 0 {
			return k - len(aimed)
		}
		least := len(out)
		for _, k := range aimed {
			least = min(least, max(i-k, k-i))
		}
		return least
	}
	slices.SortStableFunc(out, func(a, b int) int { return far(a) - far(b) })
	return out
}

// concerned returns the strips that can end the warning when they are laid
// otherwise, nearest first: all of them where another may balance the wood
// warned of, those at the outside edges where it is about these, else only the
// strips it names.
func (h *hunt) concerned() []int {
	order := h.byNearness()
	last := len(order) - 1
	aimed := len(h.aimed())
	switch h.w.Kind {
	case face.LoneStreak, face.Lopsided:
		return order
	case face.OneSidedEdge:
		out := order[:aimed:aimed]
		for _, i := range order[aimed:] {
			if i == 0 || i == last {
				out = append(out, i)
			}
		}
		return out
	}
	return order[:aimed]
}

// fewStrips is how many strips a panel may have for every pair of them to be
// tried.
const fewStrips = 6

// pairing reports whether it may help that strips i and k change places: one
// of them is warned of or, to balance a streak, lies beside such a strip or
// opposite it, or at an outside edge.
func (h *hunt) pairing(i, k int) bool {
	n := len(h.f.p.Strips)
	if n <= fewStrips {
		return true
	}
	balance := h.w.Kind == face.LoneStreak || h.w.Kind == face.Lopsided
	for _, a := range h.aimed() {
		for _, j := range [2]int{i, k} {
			if j == a || balance && (j == a-1 || j == a+1 || j == n-1-a) || h.w.Kind == face.OneSidedEdge && (j == 0 || j == n-1) {
				return true
			}
		}
	}
	return false
}

// with returns the panel's strips with some replaced.
func (h *hunt) with(change func(list []face.Strip)) []face.Strip {
	list := slices.Clone(h.f.p.Strips)
	change(list)
	return list
}

func (h *hunt) id(i int) string { return h.f.p.Strips[i].ID }
