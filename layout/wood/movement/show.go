package movement

import "heartside/layout/wood/moisture"

func mm(name string, v float64) moisture.Value {
	return moisture.Value{Name: name, Number: v, Unit: "mm"}
}

// Working shows how the strip's width in a season was worked out.
func (m *Moved) Working(season moisture.Season, o Options) moisture.Working {
	w := append(m.Strip.Rings.Working(), m.Strain(season).Working()...)
	s, size := m.Strain(season), m.Width(season)
	values := []moisture.Value{{Name: "f", Number: m.Flat}, {Name: "eT", Number: s.Tangential}, {Name: "eR", Number: s.Radial}}
	formula := "e = f eT + (1-f) eR"
	if k := m.Strip.Wood.Sap(); k != 1 {
		w = append(w, moisture.Step{Formula: "k = 1 + share of sapwood (sapwood factor - 1)", Values: []moisture.Value{{Name: "share of sapwood", Number: m.Strip.SapShare}, {Name: "sapwood factor", Number: k}, {Name: "k", Number: m.sapped()}}, Source: SapText, Flag: moisture.Given})
		formula, values = "e = k (f eT + (1-f) eR)", append(values, moisture.Value{Name: "k", Number: m.sapped()})
	}
	w = append(w, moisture.Step{Formula: formula, Values: append(values, moisture.Value{Name: "e", Number: size.Value/m.Strip.Width - 1}), Source: "strain transform; compare MacLean, FPL Report R1473 (1945)", Flag: moisture.Memory},
		moisture.Step{Formula: "width then = width now (1 + e)", Values: []moisture.Value{mm("width now", m.Strip.Width), mm("width then", size.Value)}, Flag: moisture.Derived})
	if o.Spread > 0 {
		w = append(w, moisture.Step{Formula: "bounds: the movement is more or less by the spread of single boards", Values: []moisture.Value{{Name: "spread", Number: o.Spread}, mm("least", size.Lo), mm("most", size.Hi)}, Flag: moisture.Choice})
	}
	return w
}

// Working shows how the panel's width in a season was worked out: the
// moisture contents, and the sum over the strips. What lies behind a strip's
// width is told by the strip.
func (p *Panel) Working(season moisture.Season) moisture.Working {
	w := append(p.Span.Now.Working(), p.Span.At(season).Working()...)
	size := p.Width(season)
	sum := moisture.Step{Formula: "width then = sum of the strips' widths", Source: "no constraint from neighbours: FPL research paper on flooring (abstract)", Flag: moisture.Read}
	for i := range p.Strips {
		m := &p.Strips[i]
		sum.Values = append(sum.Values, mm("strip "+m.Strip.ID, m.Width(season).Value))
	}
	sum.Values = append(sum.Values, mm("now", p.Now), mm("then", size.Value), mm("least", size.Lo), mm("most", size.Hi))
	return append(w, sum)
}
