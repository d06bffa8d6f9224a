package photo

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// homography maps the plane of the board, mm, to pixels: x, y to
// (a x + b y + c, d x + e y + f) / (g x + h y + 1).
type homography struct{ a, b, c, d, e, f, g, h float64 }

// boardToPicture returns the perspective that takes the rectangle from (0, 0)
// to (length, width) to four corners. The closed form for a square is that of
// Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), 2.2.3.
func boardToPicture(q [4]geom.Point, length, width float64) homography {
	s := q[0].Sub(q[1]).Add(q[2]).Sub(q[3])
	d1, d2 := q[1].Sub(q[2]), q[3].Sub(q[2])
	den := d1.Cross(d2)
	g, h := s.Cross(d2)/den, d1.Cross(s)/den
	m := homography{
		a: q[1].X - q[0].X + g*q[1].X, b: q[3].X - q[0].X + h*q[3].X, c: q[0].X,
		d: q[1].Y - q[0].Y + g*q[1].Y, e: q[3].Y - q[0].Y + h*q[3].Y, f: q[0].Y,
		g: g, h: h,
	}
	m.a, m.d, m.g = m.a/length, m.d/length, m.g/length
	m.b, m.e, m.h = m.b/width, m.e/width, m.h/width
	return m
}

// at returns the pixel place of a board point.
func (m homography) at(x, y float64) geom.Point {
	w := m.g*x + m.h*y + 1
	return geom.Pt((m.a*x+m.b*y+m.c)/w, (m.d*x+m.e*y+m.f)/w)
}

// stretch returns how many pixels a mm along x and along y covers there, the
// longer of across and down for each.
func (m homography) stretch(x, y float64) (alongX, alongY float64) {
	w := m.g*x + m.h*y + 1
	p := m.at(x, y)
	ux, vx := (m.a-p.X*m.g)/w, (m.d-p.Y*m.g)/w
	uy, vy := (m.b-p.X*m.h)/w, (m.e-p.Y*m.h)/w
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
