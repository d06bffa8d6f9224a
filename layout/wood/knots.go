package wood

import (
	"math"

	"heartside/layout/geom"
)

const (
	leastKnot = 8.0 // mm across; smaller flaws are no knots that go through
	// A knot that goes through comes out near where it went in; how near, as
	// a share of the thickness plus the knot itself, and how often. Engineering
	// choices.
	knotLean    = 0.6
	knotThrough = 0.4
)

// knotsOf returns the middles of the flaws of a face that may be knots, in its
// own coordinates: flaws away from its edges, where wane and bark lie.
func knotsOf(f Face, width float64) []geom.Point {
	type blob struct {
		sum  geom.Point
		area float64
		last Span
		n    int
	}
	var open, done []blob
	for _, s := range f {
		var next []blob
		for _, p := range s.Flaw {
			if p.To-p.From < leastKnot/2 || p.From < 2 || p.To > width-2 {
				continue
			}
			w := p.To - p.From
			b := blob{geom.Pt(s.X, (p.From+p.To)/2).Mul(w), w, p, 1}
			for i, o := range open {
				if o.n > 0 && o.last.From < p.To && p.From < o.last.To {
					b = blob{o.sum.Add(b.sum), o.area + b.area, p, o.n + 1}
					open[i].n = 0
					break
				}
			}
			next = append(next, b)
		}
		for _, o := range open {
			if o.n > 0 {
				done = append(done, o)
			}
		}
		open = next
	}
	var out []geom.Point
	for _, b := range append(done, open...) {
		// Long and thin is a split.
		if b.area/float64(b.n) >= leastKnot && float64(b.n)*Step < 8*b.area/float64(b.n) {
			out = append(out, b.sum.Mul(1/b.area))
		}
	}
	return out
}

// knots returns ln of the likelihood of the knots of the second face, given
// those of the first, against knots anywhere.
func knots(first, second Face, f Faces) float64 {
	a, b := knotsOf(first, f.Width), knotsOf(second, f.Width)
	if len(a) == 0 || len(b) == 0 {
		return 0
	}
	s := 10 + knotLean*f.Thickness
	say := 0.0
	for _, q := range b {
		q.Y = f.Width - q.Y
		p := 0.0
		for _, k := range a {
			d := q.Dist(k)
			p += math.Exp(-d*d/(2*s*s)) / (2 * math.Pi * s * s) / float64(len(a))
		}
		say += math.Log(1 - knotThrough + knotThrough*p*f.Length*f.Width)
	}
	return say
}
