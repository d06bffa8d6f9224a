package cutting

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// slabStep is how finely a slanted border is taken in steps along the board,
// mm. Along straight borders free rectangles are exact.
const slabStep = 10.0

// mostSteps bounds the steps along one border; on longer ones they are longer.
const mostSteps = 400

// span is a stretch across the board.
type span struct{ from, to float64 }

// slab is a piece of the board from x0 to x1 with the stretches that are free
// all along it, from the marked edge up.
type slab struct {
	x0, x1 float64
	free   []span
}

// slabsOf cuts what is free of a board into slabs: inside the outlines of both
// faces and outside the obstacles.
func slabsOf(b *face.Board, obstacles []geom.Polygon) []slab {
	const taken, clear = 0, 1
	board := geom.R(0, 0, b.Length, b.Width)
	if board.Empty() || math.IsInf(board.W(), 0) || math.IsInf(board.H(), 0) {
		return nil
	}
	layers := []geom.Layer{{Label: clear, Polygon: board.Inset(-1).Polygon()}}
	for f := 1; f <= 2; f++ {
		if out := outlineOf(b, f); out != nil {
			layers = append(layers, geom.Layer{Label: taken, Polygon: around(board.Union(out.Bounds()).Inset(-2), out)})
		}
	}
	for _, p := range obstacles {
		layers = append(layers, geom.Layer{Label: taken, Polygon: p})
	}
	var open []geom.Trapezoid
	for _, t := range geom.Decompose(nil, board.Polygon(), taken, layers) {
		if t.Label == clear {
			open = append(open, t)
		}
	}
	xs := stationsOf(open)
	var out []slab
	for k := 0; k+1 < len(xs); k++ {
		s := slab{x0: xs[k], x1: xs[k+1]}
		for i := range open {
			t := &open[i]
			if t.X0 > s.x0+1e-9 || t.X1 < s.x1-1e-9 {
				continue
			}
			lo0, hi0 := sidesAt(t, s.x0)
			lo1, hi1 := sidesAt(t, s.x1)
			if lo, hi := math.Max(lo0, lo1), math.Min(hi0, hi1); hi > lo {
				s.free = append(s.free, span{lo, hi})
			}
		}
		slices.SortFunc(s.free, func(a, b span) int { return cmp.Compare(a.from, b.from) })
		out = append(out, s)
	}
	return out
}

// stationsOf returns where slabs begin and end: at every side of a trapezoid,
// and in steps along slanted ones.
func stationsOf(open []geom.Trapezoid) []float64 {
	var xs []float64
	for i := range open {
		t := &open[i]
		xs = append(xs, t.X0, t.X1)
		if math.Abs(t.Lo0-t.Lo1) < slack && math.Abs(t.Hi0-t.Hi1) < slack {
			continue
		}
		n := math.Min(math.Ceil((t.X1-t.X0)/slabStep), mostSteps)
		for k := 1.0; k < n; k++ {
			xs = append(xs, t.X0+(t.X1-t.X0)*k/n)
		}
	}
	slices.Sort(xs)
	out := xs[:0]
	for _, x := range xs {
		if len(out) == 0 || x-out[len(out)-1] > 1e-6 {
			out = append(out, x)
		}
	}
	return out
}

// sidesAt returns where a trapezoid lies at x.
func sidesAt(t *geom.Trapezoid, x float64) (lo, hi float64) {
	k := (x - t.X0) / (t.X1 - t.X0)
	return t.Lo0 + k*(t.Lo1-t.Lo0), t.Hi0 + k*(t.Hi1-t.Hi0)
}

// common returns the stretches that two lists have in common, those thinner
// than least left out.
func common(a, b []span, least float64) []span {
	var out []span
	for i, k := 0, 0; i < len(a) && k < len(b); {
		lo, hi := math.Max(a[i].from, b[k].from), math.Min(a[i].to, b[k].to)
		if hi-lo >= least {
			out = append(out, span{lo, hi})
		}
		if a[i].to < b[k].to {
			i++
		} else {
			k++
		}
	}
	return out
}

// holds reports whether one stretch of the list holds s.
func holds(list []span, s span) bool {
	for _, f := range list {
		if f.from <= s.from+1e-9 && f.to >= s.to-1e-9 {
			return true
		}
	}
	return false
}
