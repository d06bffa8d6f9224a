package arrange

import (
	"math"

	"heartside/layout/face"
)

// lyings lays one strip otherwise.
func (h *hunt) lyings() []change {
	var out []change
	for rank, i := range h.concerned() {
		s := &h.f.p.Strips[i]
		if !layable(s) {
			continue
		}
		for _, l := range lyings() {
			out = append(out, change{
				steps:  []Step{{Kind: l.kind, Strips: []string{s.ID}}},
				strips: h.with(func(list []face.Strip) { lay(&list[i], l) }),
				cost:   layCost(s), size: l.size + float64(rank)/1e3,
			})
		}
	}
	return out
}

// allLaid lays all strips that the warning names otherwise, together.
func (h *hunt) allLaid() []change {
	var out []change
	aimed := h.aimed()
	if len(aimed) < 2 {
		return nil
	}
	for _, l := range lyings() {
		c := change{size: l.size * float64(len(aimed))}
		ok := true
		c.strips = h.with(func(list []face.Strip) {
			for _, i := range aimed {
				ok = ok && layable(&list[i])
				c.cost = max(c.cost, layCost(&list[i]))
				lay(&list[i], l)
				c.steps = append(c.steps, Step{Kind: l.kind, Strips: []string{list[i].ID}})
			}
		})
		if ok {
			out = append(out, c)
		}
	}
	return out
}

// swaps lets two strips change places.
func (h *hunt) swaps() []change {
	var out []change
	order := h.byNearness()
	for a, i := range order {
		for b, k := range order[a+1:] {
			if !h.pairing(i, k) {
				continue
			}
			if c, ok := h.swapped(i, k); ok {
				c.size += float64(a)/1e2 + float64(b)/1e4
				out = append(out, c)
			}
		}
	}
	return out
}

func (h *hunt) swapped(i, k int) (change, bool) {
	x, y := &h.f.p.Strips[i], &h.f.p.Strips[k]
	if !may(x) || !may(y) || x.Board == nil && y.Board == nil {
		return change{}, false
	}
	return change{
		steps:  []Step{{Kind: Swap, Strips: []string{x.ID, y.ID}}},
		strips: h.with(func(list []face.Strip) { list[i], list[k] = list[k], list[i] }),
		cost:   layCost(x, y), size: 2 + 0.1*math.Abs(float64(i-k)),
	}, true
}

// toEdge moves a strip that is warned of to an outside edge, also laid
// otherwise.
func (h *hunt) toEdge() []change {
	var out []change
	for _, i := range h.aimed() {
		s := &h.f.p.Strips[i]
		if !layable(s) {
			continue
		}
		for _, edge := range [...]face.Side{face.Front, face.Rear} {
			to := 0
			if edge == face.Rear {
				to = len(h.f.p.Strips) - 1
			}
			if to == i || !h.mayPass(i, to) {
				continue
			}
			c := change{
				steps: []Step{{Kind: MoveToEdge, Strips: []string{s.ID}, Edge: edge}},
				cost:  layCost(s), size: 2 + 0.1*math.Abs(float64(to-i)),
			}
			c.strips = h.with(func(list []face.Strip) { move(list, i, to) })
			out = append(out, c)
			for _, l := range lyings() {
				d := c
				d.steps = append(append([]Step{}, c.steps...), Step{Kind: l.kind, Strips: []string{s.ID}})
				d.size += l.size
				d.strips = h.with(func(list []face.Strip) {
					move(list, i, to)
					lay(&list[to], l)
				})
				out = append(out, d)
			}
		}
	}
	return out
}

// mayPass reports whether every strip whose number changes when i goes to to
// may be touched.
func (h *hunt) mayPass(i, to int) bool {
	for k := min(i, to); k <= max(i, to); k++ {
		if !may(&h.f.p.Strips[k]) {
			return false
		}
	}
	return true
}

func move(list []face.Strip, from, to int) {
	s := list[from]
	if from < to {
		copy(list[from:to], list[from+1:to+1])
	} else {
		copy(list[to+1:from+1], list[to:from])
	}
	list[to] = s
}

// pairs lays two strips otherwise, one of them warned of. Only sought where
// nothing smaller helps.
func (h *hunt) pairs() []change {
	if h.strict() > 0 {
		return nil
	}
	var out []change
	order := h.byNearness()
	for _, i := range h.aimed() {
		for rank, k := range order {
			x, y := &h.f.p.Strips[i], &h.f.p.Strips[k]
			if i == k || !layable(x) || !layable(y) {
				continue
			}
			for _, a := range lyings() {
				for _, b := range lyings() {
					out = append(out, change{
						steps: []Step{{Kind: a.kind, Strips: []string{x.ID}}, {Kind: b.kind, Strips: []string{y.ID}}},
						strips: h.with(func(list []face.Strip) {
							lay(&list[i], a)
							lay(&list[k], b)
						}),
						cost: layCost(x, y), size: a.size + b.size + float64(rank)/1e2,
					})
				}
			}
		}
	}
	return out
}

// swapAndLay lets two strips change places and lays one of them otherwise:
// one that is warned of, or one that comes to lie beside it. Only sought where
// nothing smaller helps.
func (h *hunt) swapAndLay() []change {
	if h.strict() > 0 {
		return nil
	}
	var out []change
	for _, i := range h.aimed() {
		for k := range h.f.p.Strips {
			if k == i {
				continue
			}
			out = h.swapLaid(out, i, k, i)
			out = h.swapLaid(out, i, k, k)
		}
		for _, beside := range [...]int{i - 1, i + 1} {
			for k := range h.f.p.Strips {
				if beside >= 0 && beside < len(h.f.p.Strips) && k != i && k != beside {
					out = h.swapLaid(out, beside, k, k)
				}
			}
		}
	}
	return out
}

// swapLaid adds swaps of i and k with the strip that was number laid laid
// otherwise.
func (h *hunt) swapLaid(out []change, i, k, laid int) []change {
	c, ok := h.swapped(i, k)
	if !ok || h.f.p.Strips[laid].Board == nil {
		return out
	}
	at := i + k - laid
	for _, l := range lyings() {
		d := c
		d.steps = append(append([]Step{}, c.steps...), Step{Kind: l.kind, Strips: []string{h.id(laid)}})
		d.size += l.size
		d.strips = append([]face.Strip{}, c.strips...)
		lay(&d.strips[at], l)
		out = append(out, d)
	}
	return out
}

// shifts slides a strip along the panel: to the middle, and as far either way
// as its over-length lets it.
func (h *hunt) shifts() []change {
	var out []change
	for _, i := range h.aimed() {
		s := &h.f.p.Strips[i]
		if !layable(s) {
			continue
		}
		room := math.Max(0, (s.L-h.f.p.Length)/2)
		for _, to := range [...]float64{0, -room, room} {
			if by := to - s.Shift; math.Abs(by) > 0.05 {
				out = append(out, change{
					steps:  []Step{{Kind: Shift, Strips: []string{s.ID}, By: by}},
					strips: h.with(func(list []face.Strip) { list[i].Shift = to }),
					size:   1 + math.Abs(by)/1e3,
				})
			}
		}
	}
	return out
}
