package photo

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// Residual tells how well a view squares a face: how far, in face mm, places
// of a picture of wide x high pixels that were seen on the face's edges come
// to lie from them, as root mean square and at most. The places are pixels, by
// side: the edge from corner 0 to 1 (y = 0), the end at x = length, the edge at
// y = width, the end at x = 0. It fails for corners that are none and without
// any places.
func Residual(view View, wide, high int, length, width float64, sides [4][]geom.Point) (rms, most float64, err error) {
	if !(length > 0 && width > 0) || math.IsInf(length+width, 0) {
		return 0, 0, fmt.Errorf("residual of squaring: the face is %g x %g mm, want more than 0", length, width)
	}
	m, lens, err := view.FromFace(wide, high, length, width)
	if err != nil {
		return 0, 0, fmt.Errorf("residual of squaring: %w", err)
	}
	back, ok := m.Inverse()
	if !ok {
		return 0, 0, fmt.Errorf("residual of squaring: the corners leave no way back to the face")
	}
	n := 0
	var square float64
	for side, points := range sides {
		for i, p := range points {
			q := back.Apply(lens.Straight(p))
			d := math.Abs([4]float64{q.Y, q.X - length, q.Y - width, q.X}[side])
			if math.IsNaN(d) || math.IsInf(d, 0) {
				return 0, 0, fmt.Errorf("residual of squaring: place %d of side %d (%g, %g) is not on the board's plane", i+1, side+1, p.X, p.Y)
			}
			square += d * d
			most = math.Max(most, d)
			n++
		}
	}
	if n == 0 {
		return 0, 0, fmt.Errorf("residual of squaring: no places on the edges are given")
	}
	return math.Sqrt(square / float64(n)), most, nil
}
