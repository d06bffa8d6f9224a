package cutting

import (
	"math"

	"heartside/layout/geom"
)

// body is a connected piece of a decomposition.
type body struct {
	box   geom.Rect
	area  float64
	parts []geom.Trapezoid
}

// bodies joins the trapezoids of one label that touch along an upright side.
// They come in the order of their first trapezoid.
func bodies(list []geom.Trapezoid, label int) []body {
	var own []geom.Trapezoid
	for _, t := range list {
		if t.Label == label && t.X1 > t.X0 {
			own = append(own, t)
		}
	}
	root := make([]int, len(own))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for i := range own {
		for k := range own {
			if i != k && beside(&own[i], &own[k]) {
				a, b := find(i), find(k)
				root[max(a, b)] = min(a, b)
			}
		}
	}
	var out []body
	at := make([]int, len(own))
	for i := range own {
		r := find(i)
		if r == i {
			at[i] = len(out)
			out = append(out, body{})
		}
		b := &out[at[r]]
		b.parts = append(b.parts, own[i])
		b.area += own[i].Area()
		b.box = b.box.Union(own[i].Bounds())
	}
	return out
}

// beside reports whether b begins where a ends and shares some of that side.
func beside(a, b *geom.Trapezoid) bool {
	const eps = 1e-9
	return math.Abs(a.X1-b.X0) <= eps*math.Max(1, math.Abs(a.X1)) &&
		math.Min(a.Hi1, b.Hi0)-math.Max(a.Lo1, b.Lo0) > eps
}
