package split

import (
	"context"
	"math"
	"slices"

	"heartside/layout/photo"
)

// Rounds of the fit. Engineering choices: nearly all guesses stand still
// after eight.
const (
	roundsGuess = 8
	roundsFine  = 2
	roundsNear  = 2
	roundsField = 40
)

// Auto splits the face without a word from the maker.
func (f *Face) Auto(ctx context.Context) (*Result, error) {
	q, _, err := f.best(ctx, nil, nil)
	if err != nil {
		return nil, err
	}
	return f.finish(ctx, q, nil, nil, false)
}

// best tries the guesses on coarse cells and returns the best with its
// verdict, still coarse.
func (f *Face) best(ctx context.Context, marks []uint8, worth func(q *guess, z []float64, v verdict) float64) (*guess, verdict, error) {
	tried, err := f.try(ctx, marks)
	if err != nil {
		return nil, verdict{}, err
	}
	all := make([]*guess, 2*len(tried))
	verdicts := make([]verdict, len(all))
	err = photo.Each(ctx, len(all), func(k int) {
		q, d := tried[k/2], draw
		if k%2 == 1 {
			d = drawInner
		}
		above, below := f.cs.of(q.m.step, lightVaries, mostStep)
		l := d(f.c, q.llr, above, below, marks)
		v := judge(f.c, &f.cn, f.cs, q, l, above, below)
		z := l.mask(f.c.nx, f.c.ny)
		if worth != nil {
			v.score = worth(q, z, v)
		}
		all[k], verdicts[k] = &guess{name: q.name, p: z, shade: q.shade, inner: l.inner, margin: v.score}, v
	})
	if err != nil {
		return nil, verdict{}, err
	}
	var out *guess
	var at verdict
	for k, q := range all {
		if out == nil || verdicts[k].score > at.score {
			out, at = q, verdicts[k]
		}
	}
	// How far the next answer lies behind that is truly another.
	next := 0.0
	for _, q := range all {
		if q.margin > next && changed(q.p, out.p) > .03 {
			next = q.margin
		}
	}
	out.margin = at.score - next
	return out, at, nil
}

// try fits all guesses, and drops those that become like another half way.
func (f *Face) try(ctx context.Context, marks []uint8) ([]*guess, error) {
	var out []*guess
	starts := guesses(f.c)
	shades := []float64{0, lightVaries}
	all := make([]*guess, len(shades)*len(starts))
	err := photo.Each(ctx, len(all), func(k int) {
		start := starts[k%len(starts)]
		all[k] = &guess{name: start.name, p: slices.Clone(start.p), shade: shades[k/len(starts)]}
		all[k].improve(f.c, marks, roundsGuess/2)
	})
	if err != nil {
		return nil, err
	}
	for i := range shades {
		var kept []*guess
		for _, q := range all[i*len(starts):][:len(starts)] {
			if !slices.ContainsFunc(kept, func(k *guess) bool { return alike(k.p, q.p) }) {
				kept = append(kept, q)
			}
		}
		out = append(out, kept...)
	}
	return out, photo.Each(ctx, len(out), func(k int) { out[k].improve(f.c, marks, roundsGuess/2) })
}

// alike tells whether two fits have come to the same.
func alike(a, b []float64) bool {
	sum := 0.0
	for i := range a {
		sum += math.Abs(a[i] - b[i])
	}
	return sum < .005*float64(len(a))
}

// refine takes a guess from coarse to fine cells and draws it there.
func (f *Face) refine(q *guess, marks []uint8) (*guess, *lines, verdict) {
	fine := &guess{name: q.name, p: q.p, shade: q.shade, inner: q.inner}
	if len(q.p) != f.g.nx*f.g.ny {
		fine.p = f.enlarge(q.p)
	}
	d := draw
	if q.inner {
		d = drawInner
	}
	fine.improve(f.g, marks, roundsFine)
	above, below := f.gs.of(fine.m.step, lightVaries, mostStep)
	l := d(f.g, fine.llr, above, below, marks)
	v := judge(f.g, &f.gn, f.gs, fine, l, above, below)
	// Light near by is fitted last: it would make any guess look better.
	fine.near = true
	fine.improve(f.g, marks, roundsNear)
	above, below = f.gs.of(fine.m.step, lightVaries, mostStep)
	return fine, d(f.g, fine.llr, above, below, marks), v
}

// enlarge carries values from coarse cells to fine ones.
func (f *Face) enlarge(v []float64) []float64 {
	out := make([]float64, f.g.nx*f.g.ny)
	for j := range f.g.ny {
		for i := range f.g.nx {
			out[j*f.g.nx+i] = v[(j/f.ky)*f.c.nx+i/f.kx]
		}
	}
	return out
}

// target turns curves and colours into what the field is pulled towards, and
// how strongly: the curves rule away from themselves, colour near them.
func (f *Face) target(q *guess, l *lines, marks []uint8) (t, c []float64) {
	g := f.g
	nx, ny := g.nx, g.ny
	n := nx * ny
	t, c = make([]float64, n), make([]float64, n)
	sm := make([]float64, n)
	smoothInto(sm, t, q.llr, nx, ny, 1/g.dy, 6/g.dx)
	topNear, bottomNear := nearSap(l.top, 0, 40/g.dx), nearSap(l.bottom, ny, 40/g.dx)
	for j := range ny {
		for i := range nx {
			at := j*nx + i
			d := -1e3
			if topNear[i] {
				d = math.Max(d, (float64(l.top[i]-j)-.5)*g.dy)
			}
			if bottomNear[i] {
				d = math.Max(d, (float64(j-l.bottom[i])+.5)*g.dy)
			}
			if l.inner {
				d = -d
			}
			u := .75*math.Tanh(d/9) + .30*math.Min(math.Max(sm[at], -3), 3)
			u = math.Min(math.Max(u, -1), 1)
			c[at] = (.10 + .55*math.Abs(u)) * (.15 + .85*g.w[at])
			t[at] = math.Copysign(1, u)
			if marks != nil && marks[at] != 0 {
				c[at] = 60
				t[at] = 2*float64(marks[at]) - 3
			}
		}
	}
	return t, c
}

// nearSap tells which columns lie within reach of one where a curve leaves its
// edge of the face.
func nearSap(y []int, edge int, reach float64) []bool {
	out := make([]bool, len(y))
	r := int(reach)
	last := -1 << 30
	for i, v := range y {
		if v != edge {
			last = i
		}
		out[i] = i-last <= r
	}
	last = 1 << 30
	for i := len(y) - 1; i >= 0; i-- {
		if y[i] != edge {
			last = i
		}
		out[i] = out[i] || last-i <= r
	}
	return out
}
