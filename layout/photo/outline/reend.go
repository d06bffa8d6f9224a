package outline

import (
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// mostReended counts the boards whose ends are looked for again, and the boards
// each makes. Engineering choices.
const mostReended, mostRenewed = 4, 5

// reended looks again for the ends of a board whose long sides and bow are
// known by now, and gives the boards they make: on the small picture an end is
// easily missed.
func (s *seeker) reended(c candidate) []candidate {
	long := 0 // the first long side
	if s.width > s.length {
		long = 1
	}
	at := func(k int) geom.Point { return c.c[(long+k)%4].Mul(1 / s.base.factor) }
	p := pair{l: [2]line{through(at(0), at(1)), through(at(3), at(2))}}
	want := &wanted{w: float64(s.src.w), h: float64(s.src.h), length: s.length, width: s.width}
	z := stripOf(s.base, photo.LensOf(s.base.w, s.base.h, c.bow), 1, &p, want)
	ends := z.ends(2 * mostEnds)
	var out []candidate
	for i, e := range ends {
		for _, f := range ends[i+1:] {
			q, ok := order(scaledBy([4]geom.Point{e.a, f.a, f.b, e.b}, s.base.factor), want)
			if !ok {
				continue
			}
			n := candidate{c: q, bow: c.bow, tracks: c.tracks}
			s.rate(&n, fineSpread)
			sides := [4]float64{c.tracks[long].score, c.tracks[long+2].score, e.score, f.score}
			n.score = sidesScore(sides) - misshape(n.shape.cost) - runOn*(e.beyond+f.beyond) -
				s.fills*smallness(longest(q)/want.longer())
			out = append(out, n)
		}
	}
	return best(out, mostRenewed, 2*s.base.factor)
}
