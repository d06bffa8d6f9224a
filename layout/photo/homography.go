package photo

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// boardToPicture returns the perspective that takes the face, mm, to pixels:
// the rectangle from (0, 0) to (length, width) to four corners. It takes the
// unit square there first, so that no length is too long or short for it.
func boardToPicture(q [4]geom.Point, length, width float64) (geom.Homography, error) {
	m, err := geom.QuadToQuad([4]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}, q)
	for row := 0; row < len(m); row += 3 {
		m[row] /= length
		m[row+1] /= width
	}
	return m, err
}

// stretch returns how many pixels a mm along x and along y of the face covers
// at a point of it, the longer of across and down for each.
func stretch(m *geom.Homography, at geom.Point) (alongX, alongY float64) {
	w := m[6]*at.X + m[7]*at.Y + m[8]
	p := m.Apply(at)
	ux, vx := (m[0]-p.X*m[6])/w, (m[3]-p.Y*m[6])/w
	uy, vy := (m[1]-p.X*m[7])/w, (m[4]-p.Y*m[7])/w
	return math.Max(math.Abs(ux), math.Abs(vx)), math.Max(math.Abs(uy), math.Abs(vy))
}

// cornerName tells which corner is which in messages.
func cornerName(i int) string {
	switch i {
	case 0:
		return "(0, 0)"
	case 1:
		return "(length, 0)"
	case 2:
		return "(length, width)"
	}
	return "(0, width)"
}

// checkCorners says what is wrong with four corners.
func checkCorners(q [4]geom.Point) error {
	for i, p := range q {
		if math.IsNaN(p.X) || math.IsNaN(p.Y) || math.IsInf(p.X, 0) || math.IsInf(p.Y, 0) || math.Abs(p.X) > 1e6 || math.Abs(p.Y) > 1e6 {
			return fmt.Errorf("corner %s at (%g, %g) is no place of a picture", cornerName(i), p.X, p.Y)
		}
	}
	left, right := 0, 0
	for i := range q {
		a, b, c := q[i], q[(i+1)%4], q[(i+2)%4]
		turn := b.Sub(a).Cross(c.Sub(b))
		// y points down, so anticlockwise as seen turns the other way.
		switch least := 1e-3 * b.Dist(a) * c.Dist(b); {
		case turn < -least:
			left++
		case turn > least:
			right++
		default:
			return fmt.Errorf("corner %s lies in line with its neighbours: give the four corners of the board", cornerName((i+1)%4))
		}
	}
	switch {
	case right == 4:
		return fmt.Errorf("the corners run clockwise: they go anticlockwise as seen, from the marked end at the marked edge (face 1) along that edge")
	case left != 4:
		return fmt.Errorf("the corners cross over or fold in: give them in order round the board, anticlockwise as seen")
	}
	return nil
}
