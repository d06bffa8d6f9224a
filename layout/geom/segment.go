package geom

import "math"

// NearestOnSegment returns the point of the segment from a to b nearest to q,
// and its share of the way from a.
func NearestOnSegment(q, a, b Point) (at Point, share float64) {
	d := b.Sub(a)
	l := d.Dot(d)
	if l == 0 {
		return a, 0
	}
	t := min(max(q.Sub(a).Dot(d)/l, 0), 1)
	switch t {
	case 0:
		return a, 0
	case 1:
		return b, 1
	}
	return a.Lerp(b, t), t
}

// SegmentDistance returns the distance in mm from q to the segment from a to b.
func SegmentDistance(q, a, b Point) float64 {
	at, _ := NearestOnSegment(q, a, b)
	return q.Dist(at)
}

// SegmentsMeet returns the point where the segment from a to b meets that from
// c to d, with its share of the way along each, ends included. Parallel
// segments never meet, even where they overlap.
func SegmentsMeet(a, b, c, d Point) (at Point, s, t float64, ok bool) {
	u, v, w := b.Sub(a), d.Sub(c), c.Sub(a)
	den := u.Cross(v)
	if den == 0 {
		return Point{}, 0, 0, false
	}
	s, t = w.Cross(v)/den, w.Cross(u)/den
	if !(s >= 0 && s <= 1 && t >= 0 && t <= 1) {
		return Point{}, 0, 0, false
	}
	return a.Lerp(b, s), s, t, true
}

// crossPoint returns where two segments pass through one another, their ends
// left out.
func crossPoint(a, b, c, d Point) (Point, bool) {
	u, v := b.Sub(a), d.Sub(c)
	c1, d1 := u.Cross(c.Sub(a)), u.Cross(d.Sub(a))
	a1, b1 := v.Cross(a.Sub(c)), v.Cross(b.Sub(c))
	if !opposite(c1, d1) || !opposite(a1, b1) {
		return Point{}, false
	}
	return a.Lerp(b, a1/(a1-b1)), true
}

func opposite(x, y float64) bool { return (x < 0 && y > 0) || (x > 0 && y < 0) }

// Nearest returns the point of the ring nearest to q, the edge it lies on
// (named by the point the edge begins at) and its distance in mm. An empty
// ring gives edge -1 at an infinite distance.
func (p Polygon) Nearest(q Point) (at Point, edge int, distance float64) {
	edge, distance = -1, math.Inf(1)
	for i, a := range p {
		b := p[0]
		if i+1 < len(p) {
			b = p[i+1]
		}
		on, _ := NearestOnSegment(q, a, b)
		if d := q.Dist(on); d < distance {
			at, edge, distance = on, i, d
		}
	}
	return at, edge, distance
}

// SignedDistance returns the distance in mm from q to the ring, positive
// inside by the even-odd rule, negative outside. An empty ring is infinitely
// far outside.
func (p Polygon) SignedDistance(q Point) float64 {
	_, _, d := p.Nearest(q)
	if p.Contains(q) {
		return d
	}
	return -d
}
