package arrange

import (
	"heartside/layout/face"
)

// wider makes strips wider where the panel comes out too narrow: one strip by
// all that is missing, or all that may be by an equal part.
func (h *hunt) wider() []change {
	missing := tenthUp(h.w.Limit - h.w.Measure)
	if h.w.Why == "length" || missing <= 0 {
		return nil
	}
	out := h.madeUp(nil, change{strips: h.f.p.Strips, cost: ReCut}, -1, missing)
	for _, near := range [...]bool{false, true} {
		var open []int
		for i := range h.f.p.Strips {
			if cuttable(&h.f.p.Strips[i]) {
				open = append(open, i)
			}
		}
		if len(open) < 2 {
			break
		}
		part := tenthUp(missing / float64(len(open)))
		c := change{cost: ReCut, size: missing + float64(len(open))}
		c.strips = h.with(func(list []face.Strip) {
			for _, i := range open {
				list[i] = trimmed(list[i], -part, near)
				c.steps = append(c.steps, Step{Kind: Widen, Strips: []string{list[i].ID}, By: part})
			}
		})
		out = append(out, c)
	}
	return out
}

// longer makes a strip longer that does not reach over the panel: at its
// start, its end or both on the board.
func (h *hunt) longer() []change {
	short := tenthUp(-h.w.Measure)
	if h.w.Why != "length" || short <= 0 {
		return nil
	}
	var out []change
	for _, i := range h.aimed() {
		s := h.f.p.Strips[i]
		if !cuttable(&s) {
			continue
		}
		// A strip is centred on the panel, so it gains as much at both ends.
		for _, at := range [...]float64{-short, 0, -2 * short} {
			q := moved(s, at, 0)
			q.L += 2 * short
			out = append(out, change{
				steps:  []Step{{Kind: Lengthen, Strips: []string{s.ID}, By: 2 * short}},
				strips: h.with(func(list []face.Strip) { list[i] = q }),
				cost:   ReCut, size: 2 * short,
			})
		}
	}
	return out
}

// spare lets a spare take the place of a strip that is warned of, laid in any
// way; the strip goes to the spares. Where the panel is too narrow a spare is
// added behind the others too.
func (h *hunt) spare() []change {
	var out []change
	for k := range h.f.spares {
		sp := &h.f.spares[k]
		if !layable(sp) {
			continue
		}
		for _, i := range h.aimed() {
			old := h.f.p.Strips[i]
			if !may(&old) {
				continue
			}
			rest := join(h.f.spares[:k], h.f.spares[k+1:])
			if old.Board != nil {
				rest = append(rest, old)
			}
			out = h.spareLaid(out, *sp, old.ID, rest, func(list []face.Strip, s face.Strip) []face.Strip {
				list[i] = s
				return list
			})
		}
		if h.w.Kind == face.PanelTooSmall && h.w.Why == "width" {
			rest := join(h.f.spares[:k], h.f.spares[k+1:])
			out = h.spareLaid(out, *sp, "", rest, func(list []face.Strip, s face.Strip) []face.Strip {
				return append(list, s)
			})
		}
	}
	return out
}

func (h *hunt) spareLaid(out []change, sp face.Strip, instead string, rest []face.Strip, put func([]face.Strip, face.Strip) []face.Strip) []change {
	step := Step{Kind: TakeSpare, Strips: []string{sp.ID}}
	if instead != "" {
		step.Strips = []string{instead, sp.ID}
	}
	as := append([]lying{{}}, func() []lying { l := lyings(); return l[:] }()...)
	for _, l := range as {
		s := sp
		s.Shift = 0
		lay(&s, l)
		c := change{steps: []Step{step}, spares: rest, cost: CostsWood, size: 1 + l.size}
		if l.kind != "" {
			c.steps = append(c.steps, Step{Kind: l.kind, Strips: []string{sp.ID}})
		}
		c.strips = h.with(func(list []face.Strip) {})
		c.strips = put(c.strips, s)
		out = append(out, c)
	}
	return out
}
