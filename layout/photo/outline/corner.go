package outline

import (
	"math"

	"heartside/layout/geom"
)

// runsOn tells how far the edges of a board run on past its corners, where
// they should end: 0 to 8, one for each side at each end. Edges of a board
// that touches another run on rightly, so it is a hint only.
func (s *seeker) runsOn(r reader, c *candidate, step float64) float64 {
	sum := 0.0
	lens := s.lens(c.bow)
	for i := range c.c {
		p, q := c.c[i], c.c[(i+1)%4]
		sum += ratio(r, lens.Bowed, p, q, step) + ratio(r, lens.Bowed, q, p, step)
	}
	return sum
}

// ratio compares the step of colour across the line from p to q beyond q with
// that before q: 0 where it ends, 1 where it goes on.
func ratio(r reader, bowed func(geom.Point) geom.Point, p, q geom.Point, step float64) float64 {
	d := q.Sub(p)
	long := d.Len()
	if long == 0 {
		return 0
	}
	d = d.Mul(1 / long)
	n := geom.Pt(-d.Y, d.X)
	far := min(max(0.04*long, 8*step), 30*step)
	const looks = 10
	across := func(way float64) (mean, scatter float64) {
		var sum sample
		var sq float32
		for k := 0; k < looks; k++ {
			at := q.Add(d.Mul(way * (2*step + (far-2*step)*(float64(k)+0.5)/looks)))
			var v sample
			for o := 1; o <= 3; o++ {
				off := n.Mul(step * (float64(o) + 0.5))
				a, b := bowed(at.Add(off)), bowed(at.Sub(off))
				v0 := r.at(a.X, a.Y).sub(r.at(b.X, b.Y))
				for ch := range v {
					v[ch] += v0[ch] / 3
				}
			}
			for ch := range v {
				sum[ch] += v[ch]
			}
			sq += v.dot(v)
		}
		mean2 := float64(sum.dot(sum)) / (looks * looks)
		return mean2, max(float64(sq)/looks-mean2, 0) / looks
	}
	in, noise := across(-1)
	out, more := across(1)
	out = max(out-2*more, 0)
	if in+noise+out <= 0 {
		return 0
	}
	return min(math.Sqrt(out/(in+noise+lowStep*lowStep)), 1)
}
