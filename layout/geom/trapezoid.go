package geom

// Layer is a labelled polygon; in a list the later layer lies on top.
type Layer struct {
	Label   int
	Polygon Polygon
}

// Trapezoid is a piece of the plane between x = X0 and x = X1, under the line
// from (X0, Hi0) to (X1, Hi1) and over the line from (X0, Lo0) to (X1, Lo1).
type Trapezoid struct {
	X0, X1             float64
	Lo0, Lo1, Hi0, Hi1 float64
	Label              int
}

// Area returns the trapezoid's area in mm2.
func (t Trapezoid) Area() float64 {
	return (t.X1 - t.X0) * ((t.Hi0 - t.Lo0) + (t.Hi1 - t.Lo1)) / 2
}

// Bounds returns the least rectangle that holds the trapezoid.
func (t Trapezoid) Bounds() Rect {
	return Rect{Point{t.X0, min(t.Lo0, t.Lo1)}, Point{t.X1, max(t.Hi0, t.Hi1)}}
}
