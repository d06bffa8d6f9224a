package split

import (
	"context"
	"math"

	"heartside/layout/photo"
)

// Weights of what a stroke decides between answers: how well colours alone
// agree with the strokes, what it costs to change the whole face, and what the
// answer before has in hand. Engineering choices.
const (
	agreeWeight  = 3.0
	changeWeight = 6.0
	keepBonus    = 1.0
	changeLost   = 2.0 // where the answer before is not sure, or none
	noneScore    = 4.7 // of no sapwood at all: presence is even there
)

// With splits the face again with all strokes drawn so far, from the result
// before. What lies under a stroke is its kind, the last one's on top. Away
// from them the answer changes only where another is clearly better.
func (f *Face) With(ctx context.Context, prev *Result, strokes []Stroke) (*Result, error) {
	if prev == nil || len(prev.field) != f.g.nx*f.g.ny {
		var err error
		if prev, err = f.Auto(ctx); err != nil {
			return nil, err
		}
	}
	marks := f.marks(f.g, strokes)
	if marks == nil {
		return f.repaint(prev, strokes), ctx.Err()
	}
	few := f.marks(f.c, strokes)
	before := f.shrink(prev.field)
	sapSaid := false
	for _, m := range marks {
		sapSaid = sapSaid || m == markSap
	}
	// A sure answer is mended where the stroke lies; an unsure one may be wrong
	// all over.
	change := changeLost + (changeWeight-changeLost)*prev.Confidence
	agree := agreeWeight * (1 - .9*prev.Confidence)
	if !prev.Present {
		change, agree = changeLost, agreeWeight
	}
	// What the answer before is worth.
	keep := noneScore
	if prev.Present && prev.guess != nil {
		keep = prev.v.score
	}
	keep += keepBonus + agree*agreement(prev.field, marks)
	worth := func(q *guess, z []float64, v verdict) float64 {
		return v.score + agree*agreement(q.llr, few) - change*changed(z, before)
	}
	if agreement(prev.field, marks) < .999 {
		q, v, err := f.best(ctx, few, worth)
		if err != nil {
			return nil, err
		}
		none := math.Inf(-1)
		if !sapSaid {
			none = noneScore + agree - changeWeight*changed(make([]float64, len(before)), before)
		}
		if none > keep && none > v.score {
			r := f.uniform(photo.Heart)
			return f.repaint(r, strokes), ctx.Err()
		}
		if !prev.Present && f.midFace(marks) && noneScore+agree > max(keep, v.score) {
			r := f.uniform(photo.Sap)
			r.told, r.assumed = false, true
			return f.repaint(r, strokes), ctx.Err()
		}
		if q != nil && v.score > keep {
			return f.finish(ctx, q, marks, strokes, sapSaid || prev.Present)
		}
	}
	return f.local(ctx, prev, marks, strokes)
}

// agreement is how much of the marked cells a signed field has right.
func agreement(v []float64, marks []uint8) float64 {
	n, right := 0.0, 0.0
	for i, m := range marks {
		if m == unmarked {
			continue
		}
		n++
		if (v[i] > 0) == (m == markSap) {
			right++
		}
	}
	if n == 0 {
		return 1
	}
	return right / n
}

// midFace tells whether all marks say sapwood and most lie away from the long
// edges by a quarter of the width: on a face of one colour that means sapwood
// all over.
func (f *Face) midFace(marks []uint8) bool {
	n, in := 0, 0
	for at, m := range marks {
		if m == markHeart {
			return false
		}
		if m == markSap {
			n++
			if j := at / f.g.nx; 4*j >= f.g.ny && 4*(j+1) <= 3*f.g.ny {
				in++
			}
		}
	}
	return 2*in > n
}

// changed is the share of cells that differ.
func changed(a, b []float64) float64 {
	n := 0.0
	for i := range a {
		if (a[i] > .5) != (b[i] > .5) {
			n++
		}
	}
	return n / float64(max(len(a), 1))
}

// shrink takes a field to coarse cells, 1 sapwood.
func (f *Face) shrink(field []float64) []float64 {
	sum := make([]float64, f.c.nx*f.c.ny)
	for j := range f.g.ny {
		for i := range f.g.nx {
			at := (j/f.ky)*f.c.nx + i/f.kx
			sum[at] += field[j*f.g.nx+i]
		}
	}
	for i := range sum {
		if sum[i] > 0 {
			sum[i] = 1
		} else {
			sum[i] = 0
		}
	}
	return sum
}

// local keeps the answer before and lets the curves and the field follow the
// strokes where they lie.
func (f *Face) local(ctx context.Context, prev *Result, marks []uint8, strokes []Stroke) (*Result, error) {
	r := *prev
	n := len(prev.field)
	t, c := make([]float64, n), make([]float64, n)
	for at, v := range prev.field {
		t[at] = math.Copysign(1, v)
		c[at] = .10 + .55*math.Min(math.Abs(v), 1)
	}
	if prev.Present && prev.guess != nil {
		above, below := f.gs.of(prev.guess.m.step, lightVaries, mostStep)
		d := draw
		if prev.lines.inner {
			d = drawInner
		}
		r.lines = d(f.g, prev.guess.llr, above, below, marks)
		t, c = f.target(prev.guess, r.lines, marks)
	}
	for at, m := range marks {
		switch m {
		case markHeart:
			t[at], c[at] = -1, 60
		case markSap:
			t[at], c[at] = 1, 60
		}
	}
	r.field = append([]float64(nil), prev.field...)
	f.ties.relax(t, c, r.field, roundsField)
	for _, m := range marks {
		r.Present = r.Present || m == markSap
	}
	f.report(&r, strokes)
	return &r, ctx.Err()
}

// repaint is a result with strokes on it that teach nothing.
func (f *Face) repaint(prev *Result, strokes []Stroke) *Result {
	r := *prev
	f.report(&r, strokes)
	return &r
}

// AllHeart is the face said to be heartwood all over.
func (f *Face) AllHeart() *Result {
	r := f.uniform(photo.Heart)
	return r
}

// AllSap is the face said to be sapwood all over.
func (f *Face) AllSap() *Result { return f.uniform(photo.Sap) }

func (f *Face) uniform(l photo.Label) *Result {
	r := &Result{field: make([]float64, f.g.nx*f.g.ny), told: true, Present: l == photo.Sap}
	v := -1.0
	if r.Present {
		v, r.Presence = 1, 1
	}
	for i := range r.field {
		r.field[i] = v
	}
	f.report(r, nil)
	return r
}
