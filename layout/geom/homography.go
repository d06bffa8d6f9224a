package geom

import (
	"fmt"
	"math"
)

// Homography is a perspective map of the plane, row by row: (x, y) goes to
// ((H0 x + H1 y + H2) / w, (H3 x + H4 y + H5) / w), w = H6 x + H7 y + H8. Maps
// that differ by a factor are the same.
type Homography [9]float64

// QuadError tells which corner keeps four points from being a rectangle in
// perspective.
type QuadError struct {
	Target bool // among the points mapped to, not those mapped from
	Corner int  // counted from 0
	Folded bool // the corner points inwards; else it lies in line or is not finite
}

// Error says which corner is wrong and why, counting from 1.
func (e *QuadError) Error() string {
	which, why := "mapped from", "lies in line with its neighbours or is not a number"
	if e.Target {
		which = "mapped to"
	}
	if e.Folded {
		why = "folds inwards: give the corners in order round the shape"
	}
	return fmt.Sprintf("corner %d of the four %s %s", e.Corner+1, which, why)
}

// QuadToQuad returns the perspective map that takes each corner of src to that
// of dst. Both go round a convex shape, either way; else the error is a
// *QuadError.
func QuadToQuad(src, dst [4]Point) (Homography, error) {
	if corner, folded := badCorner(src); corner >= 0 {
		return Homography{}, &QuadError{Corner: corner, Folded: folded}
	}
	if corner, folded := badCorner(dst); corner >= 0 {
		return Homography{}, &QuadError{Target: true, Corner: corner, Folded: folded}
	}
	back, _ := fromSquare(src).Inverse()
	return back.Then(fromSquare(dst)), nil
}

// badCorner returns the first corner that does not turn the way most do.
func badCorner(q [4]Point) (corner int, folded bool) {
	var turn [4]float64
	left := 0
	for i := range q {
		u, v := q[i].Sub(q[(i+3)%4]), q[(i+1)%4].Sub(q[i])
		turn[i] = u.Cross(v)
		if !(math.Abs(turn[i]) > flatTurn*u.Len()*v.Len()) || math.IsInf(turn[i], 0) {
			return i, false
		}
		if turn[i] > 0 {
			left++
		}
	}
	if left == 0 || left == 4 {
		return -1, false
	}
	for i := range turn {
		if (turn[i] > 0) != (left >= 2) {
			return i, true
		}
	}
	return 0, true
}

// fromSquare takes (0,0), (1,0), (1,1), (0,1) to q (Heckbert, Fundamentals of
// Texture Mapping and Image Warping, 1989, 2.2.3).
func fromSquare(q [4]Point) Homography {
	s := q[0].Sub(q[1]).Add(q[2]).Sub(q[3])
	d1, d2 := q[1].Sub(q[2]), q[3].Sub(q[2])
	den := d1.Cross(d2)
	g, h := s.Cross(d2)/den, d1.Cross(s)/den
	return Homography{
		q[1].X - q[0].X + g*q[1].X, q[3].X - q[0].X + h*q[3].X, q[0].X,
		q[1].Y - q[0].Y + g*q[1].Y, q[3].Y - q[0].Y + h*q[3].Y, q[0].Y,
		g, h, 1,
	}
}

// Apply returns the image of p; on the vanishing line its coordinates are not
// finite.
func (m Homography) Apply(p Point) Point {
	w := m[6]*p.X + m[7]*p.Y + m[8]
	return Point{(m[0]*p.X + m[1]*p.Y + m[2]) / w, (m[3]*p.X + m[4]*p.Y + m[5]) / w}
}

// Then returns the map that does m first and n after it.
func (m Homography) Then(n Homography) Homography {
	var out Homography
	for r := range 3 {
		for c := range 3 {
			out[3*r+c] = n[3*r]*m[c] + n[3*r+1]*m[3+c] + n[3*r+2]*m[6+c]
		}
	}
	return out
}

// Inverse returns the map that undoes m, and false where m flattens the plane.
func (m Homography) Inverse() (Homography, bool) {
	adj := Homography{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
	det := m[0]*adj[0] + m[1]*adj[3] + m[2]*adj[6]
	if det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return Homography{}, false
	}
	for i := range adj {
		adj[i] /= det
	}
	return adj, true
}
