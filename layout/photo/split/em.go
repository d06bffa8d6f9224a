package split

import "math"

// guess is a state of the fit.
type guess struct {
	name   string
	p      []float64 // share of sapwood a cell
	m      *model
	llr    []float64 // evidence a cell
	inner  bool      // sapwood in mid-face
	margin float64   // of the score over the next other guess
	near   bool      // light near by is fitted too
	shade  float64   // how far light may differ from cell to cell, log
}

// improve runs expectation maximisation from q.p. marks holds what the maker
// says of each cell: 0 nothing, 1 heart, 2 sap; nil where nothing.
func (q *guess) improve(g *grid, marks []uint8, rounds int) {
	n := g.nx * g.ny
	w := g.w
	if marks != nil {
		w = make([]float64, n)
		for i := range w {
			w[i] = g.w[i]
			if marks[i] != 0 {
				w[i] *= 6
			}
		}
	}
	if q.llr == nil {
		q.llr = make([]float64, n)
	}
	sm, tmp := make([]float64, n), make([]float64, n)
	last := typicalStep().scale(.7)
	if q.m != nil {
		last = q.m.step
	}
	// Light reaches over about 14 mm along the grain and 1.6 mm across when
	// neighbours are asked. Engineering choices.
	sx, sy := 14/g.dx, 1.6/g.dy
	for range rounds {
		obey(q.p, marks)
		q.m = fit(g, q.p, w, last)
		q.m.columns(g, q.p, w, 6/g.dx)
		last = q.m.step
		if q.near {
			q.m.noise(g, q.p, w, q.shade)
			q.m.nearLight(g, q.p, w)
		}
		q.m.noise(g, q.p, w, q.shade)
		q.m.evidence(g, g.w, 6, q.llr)
		smoothInto(sm, tmp, q.llr, g.nx, g.ny, sy, sx)
		share, total := 0.0, 1e-9
		for i, v := range q.p {
			share += v * g.w[i]
			total += g.w[i]
		}
		pi := math.Min(math.Max(share/total, .02), .9)
		l0 := .5 * math.Log(pi/(1-pi))
		for i, v := range sm {
			q.p[i] = 1 / (1 + math.Exp(-min(max(3*v+l0, -20), 20)))
		}
	}
	obey(q.p, marks)
}

// plain is the covariance of colours where all is taken for one wood, its
// light fitted.
func plain(g *grid) mat3 {
	p := make([]float64, g.nx*g.ny)
	m := fit(g, p, g.w, typicalStep())
	m.columns(g, p, g.w, 6/g.dx)
	m.noise(g, p, g.w, 0)
	return m.cov
}

func obey(p []float64, marks []uint8) {
	for i, m := range marks {
		switch m {
		case 1:
			p[i] = 0
		case 2:
			p[i] = 1
		}
	}
}
