package geom

import "math"

// Rect is an axis-aligned rectangle, Min to Max. The zero value is empty.
type Rect struct{ Min, Max Point }

// R returns the rectangle with the two corners in either order.
func R(x0, y0, x1, y1 float64) Rect {
	return Rect{
		Point{math.Min(x0, x1), math.Min(y0, y1)},
		Point{math.Max(x0, x1), math.Max(y0, y1)},
	}
}

// W returns the extent along x.
func (r Rect) W() float64 { return r.Max.X - r.Min.X }

// H returns the extent along y.
func (r Rect) H() float64 { return r.Max.Y - r.Min.Y }

// Empty reports whether r holds no area.
func (r Rect) Empty() bool { return r.Max.X <= r.Min.X || r.Max.Y <= r.Min.Y }

// Centre returns the middle of r.
func (r Rect) Centre() Point { return r.Min.Lerp(r.Max, 0.5) }

// Contains reports whether p lies in r, borders included.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Intersect returns the part common to r and s; it may be Empty.
func (r Rect) Intersect(s Rect) Rect {
	return Rect{
		Point{math.Max(r.Min.X, s.Min.X), math.Max(r.Min.Y, s.Min.Y)},
		Point{math.Min(r.Max.X, s.Max.X), math.Min(r.Max.Y, s.Max.Y)},
	}
}

// Union returns the least rectangle that holds r and s; an empty one adds
// nothing.
func (r Rect) Union(s Rect) Rect {
	if r.Empty() {
		return s
	}
	if s.Empty() {
		return r
	}
	return Rect{
		Point{math.Min(r.Min.X, s.Min.X), math.Min(r.Min.Y, s.Min.Y)},
		Point{math.Max(r.Max.X, s.Max.X), math.Max(r.Max.Y, s.Max.Y)},
	}
}

// Inset returns r moved in by d on every side; negative d grows it.
func (r Rect) Inset(d float64) Rect {
	return Rect{Point{r.Min.X + d, r.Min.Y + d}, Point{r.Max.X - d, r.Max.Y - d}}
}

// Polygon returns the four corners, anticlockwise from Min.
func (r Rect) Polygon() Polygon {
	return Polygon{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}
