package arrange

import (
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
)

// How far strips are moved over a sap line so that none of it is left, and how
// far across their board they are moved at most, mm. Engineering choices.
const (
	beyondLine = 0.5
	farAcross  = 60.0
)

// across moves a strip that is warned of across its board, so that the wood
// drawn on the face just leaves it or runs along its edge.
func (h *hunt) across() []change {
	var out []change
	for _, i := range h.aimed() {
		for _, dt := range h.acrossBy(i) {
			out = h.movedAcross(out, i, dt)
		}
	}
	return out
}

// acrossBy returns the distances across the board that may help.
func (h *hunt) acrossBy(i int) []float64 {
	s := &h.f.p.Strips[i]
	if !cuttable(s) {
		return nil
	}
	var out []float64
	for _, l := range cutting.SapLines(s) {
		d := l.T
		if l.Far {
			d -= s.W
		}
		switch {
		case l.Clear && l.Far:
			d = -tenthUp(beyondLine - d)
		case l.Clear:
			d = tenthUp(d + beyondLine)
		}
		out = append(out, d)
	}
	if h.w.Kind == face.SliverKind {
		wide := tenthUp(h.w.Measure)
		for _, d := range [...]float64{wide + beyondLine, 2 * wide, 3 * wide} {
			out = append(out, d, -d)
		}
	}
	return out
}

// tenthUp rounds up to a tenth of a mm.
func tenthUp(v float64) float64 { return math.Ceil(v*10-1e-6) / 10 }

func (h *hunt) movedAcross(out []change, i int, dt float64) []change {
	s := h.f.p.Strips[i]
	if !cuttable(&s) || math.Abs(dt) < 0.05 || math.Abs(dt) > farAcross {
		return out
	}
	return append(out, change{
		steps:  []Step{{Kind: MoveAcross, Strips: []string{s.ID}, By: dt}},
		strips: h.with(func(list []face.Strip) { list[i] = moved(s, 0, dt) }),
		cost:   ReCut, size: math.Abs(dt),
	})
}

// partners moves a neighbour of the wood warned of across its board, so that
// it carries as wide a band at the edge that meets it.
func (h *hunt) partners() []change {
	if h.w.Kind != face.LoneStreak && h.w.Kind != face.OneSidedJoint {
		return nil
	}
	wide := h.bandWidth()
	if wide <= 0 {
		return nil
	}
	var out []change
	for _, i := range h.aimed() {
		for _, k := range [...]int{i - 1, i + 1} {
			if k < 0 || k >= len(h.f.p.Strips) || !cuttable(&h.f.p.Strips[k]) {
				continue
			}
			s := &h.f.p.Strips[k]
			for _, l := range cutting.SapLines(s) {
				if !l.Clear {
					continue
				}
				d := l.T - wide
				if l.Far {
					d = l.T - s.W + wide
				}
				out = h.movedAcross(out, k, math.Round(d*10)/10)
			}
		}
	}
	return out
}

// bandWidth returns the mean width of the band warned of.
func (h *hunt) bandWidth() float64 {
	f := &h.f.reading.Show
	if h.w.Side == face.Back {
		f = &h.f.reading.Back
	}
	for i := range f.Bands {
		if f.Bands[i].ID == h.w.Band {
			return f.Bands[i].MeanWidth
		}
	}
	return 0
}

// narrower rips the wood warned of off a strip and makes up for it in the
// other strips that are not sawn yet, where the panel would come out too
// narrow.
func (h *hunt) narrower() []change {
	var out []change
	for _, i := range h.aimed() {
		s := h.f.p.Strips[i]
		if !layable(&s) || s.Stage >= face.Jointed {
			continue
		}
		cost := ReCut
		if s.Stage >= face.Sawn {
			cost = CostsWood
		}
		for _, l := range cutting.SapLines(&s) {
			if !l.Clear {
				continue
			}
			d := tenthUp(l.T + beyondLine)
			if l.Far {
				d = tenthUp(s.W - l.T + beyondLine)
			}
			if d < 0.05 || d > s.W/3 {
				continue
			}
			cut := trimmed(s, d, !l.Far)
			c := change{
				steps: []Step{{Kind: Narrow, Strips: []string{s.ID}, By: d}},
				strips: h.with(func(list []face.Strip) {
					list[i] = cut
				}),
				cost: cost, size: d,
			}
			if spare := h.f.p.StripsWidth() - d - h.f.p.Width - 2*h.f.p.PanelEdge; spare < 0 {
				out = h.madeUp(out, c, i, -spare)
				continue
			}
			out = append(out, c)
		}
	}
	return out
}

// madeUp adds c with another strip made wider by what is missing, at either
// edge; of the strips that may be, the three nearest.
func (h *hunt) madeUp(out []change, c change, not int, by float64) []change {
	n := 0
	for _, k := range h.byNearness() {
		s := h.f.p.Strips[k]
		if k == not || !cuttable(&s) {
			continue
		}
		if n++; n > 3 {
			break
		}
		for _, near := range [...]bool{false, true} {
			d := c
			d.steps = append(append([]Step{}, c.steps...), Step{Kind: Widen, Strips: []string{s.ID}, By: by})
			d.strips = append([]face.Strip{}, c.strips...)
			d.strips[k] = trimmed(s, -by, near)
			d.cost = max(c.cost, ReCut)
			d.size += by
			out = append(out, d)
		}
	}
	return out
}
