package render

import (
	"math"

	"heartside/layout/geom"
)

// Ring returns the closed path through the points of a polygon.
func Ring(p geom.Polygon) Path { return Path{{Points: p, Closed: true}} }

// Rings returns the path of several polygons, filled even-odd together.
func Rings(ps ...geom.Polygon) Path {
	out := make(Path, 0, len(ps))
	for _, p := range ps {
		out = append(out, Line{Points: p, Closed: true})
	}
	return out
}

// Box returns the closed path round a rectangle.
func Box(r geom.Rect) Path { return Ring(r.Polygon()) }

// Segment returns the open path from a to b.
func Segment(a, b geom.Point) Path { return Path{{Points: []geom.Point{a, b}}} }

// Polyline returns the open path through the points.
func Polyline(pts ...geom.Point) Path { return Path{{Points: pts}} }

// Round returns a circle as a polygon fine enough for radii up to some
// hundred units.
func Round(c geom.Point, r float64) Path {
	const n = 40
	pts := make([]geom.Point, n)
	for i := range pts {
		s, k := math.Sincos(2 * math.Pi * float64(i) / n)
		pts[i] = geom.Pt(c.X+r*k, c.Y+r*s)
	}
	return Path{{Points: pts, Closed: true}}
}

// RoundBox returns a rectangle whose corners are rounded with radius r, cut
// down to half the shorter side where r is more.
func RoundBox(b geom.Rect, r float64) Path {
	r = math.Min(r, math.Min(b.W(), b.H())/2)
	if r <= 0 {
		return Box(b)
	}
	const n = 6 // points on each quarter
	corners := [4]geom.Point{
		{X: b.Max.X - r, Y: b.Max.Y - r}, {X: b.Min.X + r, Y: b.Max.Y - r},
		{X: b.Min.X + r, Y: b.Min.Y + r}, {X: b.Max.X - r, Y: b.Min.Y + r},
	}
	pts := make([]geom.Point, 0, 4*(n+1))
	for q, c := range corners {
		for i := 0; i <= n; i++ {
			s, k := math.Sincos(math.Pi / 2 * (float64(q) + float64(i)/n))
			pts = append(pts, geom.Pt(c.X+r*k, c.Y+r*s))
		}
	}
	return Path{{Points: pts, Closed: true}}
}

// Bounds returns the least rectangle that holds the path.
func (p Path) Bounds() geom.Rect {
	r := geom.Rect{Min: geom.Pt(math.Inf(1), math.Inf(1)), Max: geom.Pt(math.Inf(-1), math.Inf(-1))}
	for _, l := range p {
		for _, q := range l.Points {
			r.Min.X, r.Min.Y = math.Min(r.Min.X, q.X), math.Min(r.Min.Y, q.Y)
			r.Max.X, r.Max.Y = math.Max(r.Max.X, q.X), math.Max(r.Max.Y, q.Y)
		}
	}
	if r.Min.X > r.Max.X {
		return geom.Rect{}
	}
	return r
}

// Map returns the path with every point taken through m.
func (p Path) Map(m geom.Affine) Path {
	out := make(Path, len(p))
	for i, l := range p {
		pts := make([]geom.Point, len(l.Points))
		for k, q := range l.Points {
			pts[k] = m.Apply(q)
		}
		out[i] = Line{Points: pts, Closed: l.Closed}
	}
	return out
}

// asRect returns the rectangle that p is, and false where it is anything
// else.
func (p Path) asRect() (geom.Rect, bool) {
	if len(p) != 1 || len(p[0].Points) != 4 {
		return geom.Rect{}, false
	}
	q := p[0].Points
	across := q[0].Y == q[1].Y && q[1].X == q[2].X && q[2].Y == q[3].Y && q[3].X == q[0].X
	down := q[0].X == q[1].X && q[1].Y == q[2].Y && q[2].X == q[3].X && q[3].Y == q[0].Y
	if !across && !down {
		return geom.Rect{}, false
	}
	return geom.R(q[0].X, q[0].Y, q[2].X, q[2].Y), true
}

// clipRing cuts a ring to r, keeping what lies outside as edges along the
// border, where an even-odd or winding fill of r does not see them.
func clipRing(pts []geom.Point, r geom.Rect) []geom.Point {
	inside := true
	for _, p := range pts {
		if !r.Contains(p) {
			inside = false
			break
		}
	}
	if inside {
		return pts
	}
	for side := 0; side < 4 && len(pts) > 0; side++ {
		pts = clipSide(pts, r, side)
	}
	return pts
}

func clipSide(pts []geom.Point, r geom.Rect, side int) []geom.Point {
	// d is how far a point lies inside the side.
	d := func(p geom.Point) float64 {
		switch side {
		case 0:
			return p.X - r.Min.X
		case 1:
			return r.Max.X - p.X
		case 2:
			return p.Y - r.Min.Y
		}
		return r.Max.Y - p.Y
	}
	out := make([]geom.Point, 0, len(pts)+4)
	a := pts[len(pts)-1]
	da := d(a)
	for _, b := range pts {
		db := d(b)
		if (da >= 0) != (db >= 0) {
			out = append(out, a.Lerp(b, da/(da-db)))
		}
		if db >= 0 {
			out = append(out, b)
		}
		a, da = b, db
	}
	return out
}
