// Package geom holds the plane geometry the planner stands on: points,
// rectangles, polygons, affine maps and the exact decomposition of layered
// polygons into trapezoids.
//
// Axes are mathematical: x to the right, y up, angles anticlockwise. Lengths
// are millimetres in float64 unless a name says otherwise. A Polygon is one
// ring, either winding, last point joined to the first; where it crosses
// itself the inside is even-odd. Polygons are values: nothing changes one
// after it has been handed on.
package geom
