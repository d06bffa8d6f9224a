package trace

import (
	"math"

	"heartside/layout/geom"
)

// mostLeft bounds how many points one straight piece may stand for, which
// bounds the time.
const mostLeft = 600

// thinOpen returns the fewest points of p, both ends among them, such that
// what is left out lies within most mm of the straight piece that stands for
// it; of equal numbers those with the least sum of squared distances. Least
// paths over all such pieces: Imai and Iri (1988), the pieces found by cones:
// Chan and Chin (1996).
func thinOpen(p []geom.Point, most float64) []geom.Point {
	n := len(p)
	if n < 3 {
		return append([]geom.Point(nil), p...)
	}
	best := make([]step, n)
	sums := prefix(p)
	for i := 1; i < n; i++ {
		best[i].pieces = math.MaxInt32
	}
	for i := 0; i+1 < n; i++ {
		c := cone{at: p[i], most: most}
		for j := i + 1; j < min(n, i+mostLeft+2); j++ {
			if c.holds(p[j]) && (c.far <= p[i].Dist(p[j]) || within(p[i:j+1], most)) {
				s := step{pieces: best[i].pieces + 1, from: i}
				if s.pieces <= best[j].pieces {
					if s.off = best[i].off + sums.off(p, i, j); s.pieces < best[j].pieces || s.off < best[j].off {
						best[j] = s
					}
				}
			}
			if !c.narrow(p[j]) {
				break
			}
		}
	}
	at := make([]int, 0, 8)
	for k := n - 1; k > 0; k = best[k].from {
		at = append(at, k)
	}
	out := append(make([]geom.Point, 0, len(at)+1), p[0])
	for k := len(at) - 1; k >= 0; k-- {
		out = append(out, p[at[k]])
	}
	return out
}

// step is the best way found to a point.
type step struct {
	pieces, from int
	off          float64 // sum of squared distances
}

// cone holds the directions from a point that pass all points seen so far
// within most.
type cone struct {
	at   geom.Point
	most float64
	lo   geom.Point // the clockwise edge
	hi   geom.Point // the anticlockwise edge
	any  bool       // there are edges
	far  float64    // the farthest point seen
}

func (c *cone) holds(q geom.Point) bool {
	d := q.Sub(c.at)
	return !c.any || c.lo.Cross(d) >= 0 && d.Cross(c.hi) >= 0 && c.lo.Dot(d) >= 0
}

// narrow takes a point into account and reports whether any direction is left.
func (c *cone) narrow(q geom.Point) bool {
	d := q.Sub(c.at)
	l := d.Len()
	c.far = math.Max(c.far, l)
	if l <= c.most {
		return true
	}
	s := c.most / l
	k := math.Sqrt(1 - s*s)
	lo := geom.Pt(k*d.X+s*d.Y, k*d.Y-s*d.X)
	hi := geom.Pt(k*d.X-s*d.Y, k*d.Y+s*d.X)
	if !c.any {
		c.lo, c.hi, c.any = lo, hi, true
		return true
	}
	if c.lo.Dot(d) < 0 && c.hi.Dot(d) < 0 {
		return false
	}
	if c.lo.Cross(lo) > 0 {
		c.lo = lo
	}
	if c.hi.Cross(hi) < 0 {
		c.hi = hi
	}
	return c.lo.Cross(c.hi) >= 0
}

// within reports whether the points between the ends of p lie within most of
// the straight piece between those.
func within(p []geom.Point, most float64) bool {
	for _, q := range p[1 : len(p)-1] {
		if geom.SegmentDistance(q, p[0], p[len(p)-1]) > most {
			return false
		}
	}
	return true
}

// moments are running sums over points, measured from the first.
type moments []struct{ x, y, xx, xy, yy float64 }

func prefix(p []geom.Point) moments {
	m := make(moments, len(p)+1)
	for i, q := range p {
		q = q.Sub(p[0])
		m[i+1] = m[i]
		m[i+1].x += q.X
		m[i+1].y += q.Y
		m[i+1].xx += q.X * q.X
		m[i+1].xy += q.X * q.Y
		m[i+1].yy += q.Y * q.Y
	}
	return m
}

// off returns the sum of squared distances of the points between i and j from
// the line through those two.
func (m moments) off(p []geom.Point, i, j int) float64 {
	d, o := p[j].Sub(p[i]), p[i].Sub(p[0])
	l2 := d.Dot(d)
	if l2 == 0 || j-i < 2 {
		return 0
	}
	a, b := &m[i+1], &m[j]
	n := float64(j - i - 1)
	x, y := b.x-a.x, b.y-a.y
	xx := b.xx - a.xx - 2*o.X*x + n*o.X*o.X
	xy := b.xy - a.xy - o.X*y - o.Y*x + n*o.X*o.Y
	yy := b.yy - a.yy - 2*o.Y*y + n*o.Y*o.Y
	return math.Max((d.X*d.X*yy-2*d.X*d.Y*xy+d.Y*d.Y*xx)/l2, 0)
}
