package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// straight is the angle within which a sweep is meant along the board, degrees.
const straight = 3.0

// Sweep returns a strip of the given size laid along a sweep over a board, in
// face-1 coordinates: its long centre line begins where the sweep began and
// runs towards where it is now, along the board within 3 degrees of it. Swept
// towards the marked end, the strip ends where the sweep began. A sweep of no
// length lies along the board.
func Sweep(b *face.Board, from, to geom.Point, length, width float64) face.Strip {
	d := to.Sub(from)
	angle := math.Atan2(d.Y, d.X) * 180 / math.Pi
	switch { // above -90 up to 90
	case angle > 90:
		angle -= 180
	case angle <= -90:
		angle += 180
	}
	if math.Abs(angle) <= straight {
		angle = 0
	}
	turn := geom.Rotate(angle)
	if dir := turn.Apply(geom.Pt(1, 0)); d.Dot(dir) < 0 {
		from = from.Sub(dir.Mul(length))
	}
	corner := from.Add(turn.Apply(geom.Pt(0, -width/2)))
	return face.Strip{Board: b, X: corner.X, Y: corner.Y, L: length, W: width, Angle: angle, Up: 1}
}
