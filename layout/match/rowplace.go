package match

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// mostTries bounds the places across the board that are tried.
const mostTries = 200

// bad is the box of a flaw as the board lies, grown by the margin.
type bad struct {
	box  geom.Rect
	back bool
}

// place returns where the first front's lower left corner lies as seen.
func (w *row) place() geom.Point {
	flaws := w.flaws()
	lo := geom.Pt(w.left, w.below)
	hi := geom.Pt(max(lo.X, w.b.Length-w.left-w.size.X), max(lo.Y, w.b.Width-w.below-w.size.Y))
	// The marked end and edge come first, wherever they lie as seen.
	start := lo
	if w.o.Turned {
		start.X = hi.X
	}
	if w.o.Turned != (w.o.Up == 2) {
		start.Y = hi.Y
	}
	ys := w.starts(flaws, start.Y, lo.Y, hi.Y)
	for _, both := range [2]bool{true, false} {
		for _, y := range ys {
			if x, ok := w.clear(flaws, y, start.X, lo.X, hi.X, both); ok {
				return geom.Pt(x, y)
			}
		}
	}
	best, least := start, math.Inf(1)
	for _, y := range ys {
		for _, x := range w.startsAlong(flaws, start.X, lo.X, hi.X) {
			if c := w.covered(flaws, geom.Pt(x, y)); c < least-1e-6 {
				best, least = geom.Pt(x, y), c
			}
		}
	}
	return best
}

// flaws lists what is flawed or no wood on both faces.
func (w *row) flaws() []bad {
	var out []bad
	board := geom.R(0, 0, w.b.Length, w.b.Width)
	to, _ := w.whole.FromPlace().Inverse()
	for f := 1; f <= 2; f++ {
		back := f != w.o.Up
		if back && w.b.Faces[f-1].Guessed {
			continue
		}
		s := w.whole
		for _, t := range geom.Decompose(nil, board.Polygon(), int(face.Blank), layersOf(&s, f, board)) {
			if k := face.Kind(t.Label); k == face.Flaw || k == face.Blank {
				box := to.ApplyTo(t.Bounds().Polygon()).Bounds().Inset(-w.o.Clear)
				out = append(out, bad{box, back})
			}
		}
	}
	return out
}

// starts lists the places across where a front just clears a flaw, nearest to
// the first choice first.
func (w *row) starts(flaws []bad, first, lo, hi float64) []float64 {
	return nearest(first, lo, hi, func(add func(float64)) {
		for _, f := range flaws {
			for _, b := range w.boxes {
				add(f.box.Max.Y - b.Min.Y)
				add(f.box.Min.Y - b.Max.Y)
			}
		}
	})
}

func (w *row) startsAlong(flaws []bad, first, lo, hi float64) []float64 {
	return nearest(first, lo, hi, func(add func(float64)) {
		for _, f := range flaws {
			for _, b := range w.boxes {
				add(f.box.Max.X - b.Min.X)
				add(f.box.Min.X - b.Max.X)
			}
		}
	})
}

// nearest lists first and what each adds that lies from lo to hi, by distance
// from first.
func nearest(first, lo, hi float64, each func(add func(float64))) []float64 {
	out := []float64{first}
	each(func(v float64) {
		if v >= lo && v <= hi {
			out = append(out, v)
		}
	})
	slices.SortFunc(out, func(a, b float64) int {
		return cmp.Or(cmp.Compare(math.Abs(a-first), math.Abs(b-first)), cmp.Compare(a, b))
	})
	out = slices.Compact(out)
	if len(out) > mostTries {
		// As many, spread evenly over all.
		for i := range mostTries {
			out[i] = out[i*len(out)/mostTries]
		}
		out = out[:mostTries]
	}
	return out
}

// clear returns the place along nearest to first where no front has a flaw,
// with the run at y across.
func (w *row) clear(flaws []bad, y, first, lo, hi float64, both bool) (float64, bool) {
	type span struct{ from, to float64 }
	var shut []span
	for _, f := range flaws {
		if f.back && !both {
			continue
		}
		for _, b := range w.boxes {
			if f.box.Max.Y > y+b.Min.Y+1e-9 && f.box.Min.Y < y+b.Max.Y-1e-9 {
				shut = append(shut, span{f.box.Min.X - b.Max.X, f.box.Max.X - b.Min.X})
			}
		}
	}
	slices.SortFunc(shut, func(a, b span) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	best, found := 0.0, false
	offer := func(from, to float64) { // open from end to end
		if from, to = max(from, lo), min(to, hi); from > to {
			return
		}
		if x := min(max(first, from), to); !found || math.Abs(x-first) < math.Abs(best-first) {
			best, found = x, true
		}
	}
	open := math.Inf(-1)
	for _, s := range shut {
		if s.from >= open {
			offer(open, s.from)
		}
		open = max(open, s.to)
	}
	offer(open, math.Inf(1))
	return best, found
}

// covered returns how much of the fronts the boxes of flaws cover, mm2. One on
// the back counts a tenth: an engineering choice.
func (w *row) covered(flaws []bad, at geom.Point) float64 {
	sum := 0.0
	for _, b := range w.boxes {
		for _, f := range flaws {
			x := min(at.X+b.Max.X, f.box.Max.X) - max(at.X+b.Min.X, f.box.Min.X)
			y := min(at.Y+b.Max.Y, f.box.Max.Y) - max(at.Y+b.Min.Y, f.box.Min.Y)
			if x <= 0 || y <= 0 {
				continue
			}
			if f.back {
				x /= 10
			}
			sum += x * y
		}
	}
	return sum
}
