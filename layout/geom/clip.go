package geom

// ClipRect returns the part of p inside r. Parts that fall apart stay one
// ring, joined by edges that run out and back along the border and enclose
// nothing. The result has no points where nothing is left.
func (p Polygon) ClipRect(r Rect) Polygon {
	if r.Empty() {
		return nil
	}
	for i, side := range [...]struct {
		limit float64
		sign  float64
	}{{r.Min.X, 1}, {r.Max.X, -1}, {r.Min.Y, 1}, {r.Max.Y, -1}} {
		upright := i < 2
		p = p.clip(func(q Point) float64 {
			if upright {
				return (q.X - side.limit) * side.sign
			}
			return (q.Y - side.limit) * side.sign
		}, func(q Point) Point { // a cut lies on the border to the last digit
			if upright {
				return Point{side.limit, q.Y}
			}
			return Point{q.X, side.limit}
		})
	}
	return p
}

// ClipConvex returns the part of p inside a convex ring of either winding, in
// the form that ClipRect describes.
func (p Polygon) ClipConvex(convex Polygon) Polygon {
	area := convex.LocalArea()
	if len(convex) < 3 || area == 0 {
		return nil
	}
	for i, a := range convex {
		b := convex[(i+1)%len(convex)]
		d := b.Sub(a)
		if d == (Point{}) {
			continue
		}
		if area < 0 {
			d = d.Mul(-1)
		}
		p = p.clip(func(q Point) float64 { return d.Cross(q.Sub(a)) }, func(q Point) Point { return q })
	}
	return p
}

// clip keeps what lies on the side where depth is not negative (Sutherland and
// Hodgman, Reentrant polygon clipping, 1974).
func (p Polygon) clip(depth func(Point) float64, settle func(Point) Point) Polygon {
	var out Polygon
	for i, a := range p {
		b := p[(i+1)%len(p)]
		da, db := depth(a), depth(b)
		if da >= 0 {
			out = append(out, a)
		}
		if opposite(da, db) {
			out = append(out, settle(a.Lerp(b, da/(da-db))))
		}
	}
	if len(out) < 3 {
		return nil
	}
	return out
}
