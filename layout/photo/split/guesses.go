package split

import (
	"fmt"
	"slices"
)

// guesses are the starts the fit is tried from.
func guesses(g *grid) []*guess {
	var out []*guess
	nx, ny := g.nx, g.ny
	band := func(name string, in func(t float64) bool) {
		p := make([]float64, nx*ny)
		for j := range ny {
			if in((float64(j) + .5) / float64(ny)) {
				for i := range nx {
					p[j*nx+i] = 1
				}
			}
		}
		out = append(out, &guess{name: name, p: p})
	}
	for _, k := range []float64{.12, .35, .65} {
		band(fmt.Sprint("top", k), func(t float64) bool { return t < k })
		band(fmt.Sprint("bottom", k), func(t float64) bool { return t > 1-k })
	}
	for _, k := range []float64{.12, .3} {
		band(fmt.Sprint("both", k), func(t float64) bool { return t < k || t > 1-k })
	}
	band("both.42", func(t float64) bool { return t < .42 || t > .58 })
	for _, k := range []float64{.12, .3} {
		band(fmt.Sprint("inner", k), func(t float64) bool { return t > .5-k && t < .5+k })
	}
	// By colour: what lies furthest along the typical step once the light is
	// taken off, and by hue also as it is, for light that may change along the
	// board would take for its own what an end of sapwood adds.
	above := func(name string, r []float64, shares ...float64) {
		r = smooth(r, nx, ny, 3/g.dy, 24/g.dx)
		sorted := slices.Clone(r)
		slices.Sort(sorted)
		for _, q := range shares {
			at := sorted[min(int(q*float64(len(sorted))), len(sorted)-1)]
			p := make([]float64, nx*ny)
			for i, v := range r {
				if v > at {
					p[i] = 1
				}
			}
			out = append(out, &guess{name: fmt.Sprint(name, q), p: p})
		}
	}
	m := fit(g, make([]float64, nx*ny), g.w, typicalStep().scale(.7))
	left := func(v vec3) []float64 {
		r := make([]float64, nx*ny)
		for j := range ny {
			y := up(j, ny)
			for i := range nx {
				at := j*nx + i
				for c := range v {
					r[at] += v[c] * (g.f[c][at] - m.lit[c][i] - y*m.tilt[c][i])
				}
			}
		}
		return r
	}
	above("light", left(typicalStep()), .9, .7, .45, .2)
	above("hue", left(vec3{0, 1, 0}), .9)
	above("raw", g.f[1], .7, .45, .2)
	return out
}
