package cutting

import (
	"math"

	"heartside/layout/geom"
)

// Clearance returns the distance between two convex rings, mm. Where they
// overlap it is negative: the least distance by which one must move to be
// clear of the other.
func Clearance(a, b geom.Polygon) float64 {
	apart := math.Max(separation(a, b), separation(b, a))
	if apart <= 0 {
		return apart
	}
	return math.Min(reach(a, b), reach(b, a))
}

// separation returns the greatest distance between two convex rings along the
// outward normals of a, negative where they overlap along all of them.
func separation(a, b geom.Polygon) float64 {
	turn := 1.0
	if a.SignedArea() < 0 {
		turn = -1
	}
	most := math.Inf(-1)
	for i, p := range a {
		n, ok := outward(p, a[(i+1)%len(a)], turn)
		if !ok {
			continue
		}
		least := math.Inf(1)
		for _, q := range b {
			least = math.Min(least, q.Sub(p).Dot(n))
		}
		most = math.Max(most, least)
	}
	return most
}

// outward returns the unit normal that points out of an edge of an
// anticlockwise ring; turn is -1 for a clockwise one.
func outward(p, q geom.Point, turn float64) (geom.Point, bool) {
	d := q.Sub(p)
	l := d.Len()
	if l == 0 {
		return geom.Point{}, false
	}
	return geom.Pt(d.Y, -d.X).Mul(turn / l), true
}

// reach returns the least distance from a corner of a to an edge of b.
func reach(a, b geom.Polygon) float64 {
	least := math.Inf(1)
	for _, p := range a {
		for i, q := range b {
			least = math.Min(least, geom.SegmentDistance(p, q, b[(i+1)%len(b)]))
		}
	}
	return least
}

// around returns a ring that holds, by the even-odd rule, what lies in box and
// outside p. p must lie inside box.
func around(box geom.Rect, p geom.Polygon) geom.Polygon {
	out := append(geom.Polygon{}, box.Polygon()...)
	out = append(out, box.Min)
	out = append(out, p...)
	return append(out, p[0])
}

// corners returns the corners of a trapezoid, anticlockwise.
func corners(t *geom.Trapezoid) geom.Polygon {
	return geom.Polygon{{X: t.X0, Y: t.Lo0}, {X: t.X1, Y: t.Lo1}, {X: t.X1, Y: t.Hi1}, {X: t.X0, Y: t.Hi0}}
}
