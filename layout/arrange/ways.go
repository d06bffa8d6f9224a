package arrange

import (
	"math"
	"slices"

	"heartside/layout/face"
)

// ways returns the ways to change the panel that may end the warning, each
// giving its candidates when asked.
func (h *hunt) ways() []func() []change {
	looks := []func() []change{h.lyings, h.swaps, h.toEdge, h.pairs, h.swapAndLay}
	switch h.w.Kind {
	case face.LoneStreak, face.OneSidedJoint, face.OneSidedEdge, face.Lopsided, face.OverLimit:
		return append(looks, h.across, h.partners, h.narrower, h.spare)
	case face.SliverKind:
		return append([]func() []change{h.lyings, h.across}, h.narrower, h.swaps, h.toEdge, h.spare)
	case face.FlawOnShow, face.FlawInEdge:
		return []func() []change{h.lyings, h.shifts, h.swaps, h.toEdge, h.pastFlaw, h.elsewhere, h.narrower, h.spare}
	case face.PlanesBackwards:
		return []func() []change{h.lyings, h.allLaid, h.pairs}
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

// with returns the panel's strips with some replaced.
func (h *hunt) with(change func(list []face.Strip)) []face.Strip {
	list := slices.Clone(h.f.p.Strips)
	change(list)
	return list
}

func (h *hunt) id(i int) string { return h.f.p.Strips[i].ID }
