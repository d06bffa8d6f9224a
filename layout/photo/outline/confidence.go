package outline

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Engineering choices: how sure a difference of score makes, the score of a
// picture in which something else was taken for a board, and how far corners
// may lie apart and still say the same, in parts of the board's width.
const (
	sureness  = 2.0
	nothing   = -3.6
	sameShare = 0.02
)

// found turns the best candidate into what the caller wants. Each rival speaks
// for its corners as its score lets it, and so does the chance that none is
// right: a corner is as sure as those that agree on it.
func (s *seeker) found(c candidate, rivals []candidate) *Found {
	f := &Found{View: photo.View{Bow: c.bow}}
	shown := func(c *candidate) (q [4]geom.Point) {
		l := s.lens(c.bow)
		for i := range q {
			q[i] = l.Bowed(c.c[i])
		}
		return q
	}
	f.View.Corners = shown(&c)
	short := min(c.c[0].Dist(c.c[3]), c.c[0].Dist(c.c[1]))
	near := max(sameShare*short, 3*s.finest())
	total := math.Exp(sureness * nothing)
	var agree [4]float64
	whole := 0.0
	for i := range rivals {
		w := math.Exp(sureness * rivals[i].score)
		total += w
		q := shown(&rivals[i])
		for k := range q {
			if q[k].Dist(f.View.Corners[k]) <= near {
				agree[k] += w
			}
		}
		if farthest(q, f.View.Corners) < 5*near {
			whole += w
		}
	}
	if w := math.Exp(sureness * c.score); len(rivals) == 0 {
		total += w
		whole = w
		agree = [4]float64{w, w, w, w}
	}
	f.Whole = whole / total
	for k := range agree {
		// The edges that meet there, over the last two of their stretches.
		in, out := c.tracks[(k+3)%4].edge, c.tracks[k].edge
		a, b := (in[chunks-1]+in[chunks-2])/2, (out[0]+out[1])/2
		e := min(a, b)
		f.Confidence[k] = agree[k] / total * 1.25 * e / (e + 0.25)
	}
	mm := math.Sqrt(s.length * s.width / max(geom.Polygon(c.c[:]).Area(), 1))
	f.Residual = c.rms * mm
	return f
}
