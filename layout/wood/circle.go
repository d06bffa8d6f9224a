package wood

import (
	"fmt"
	"math"
)

// TwoWidths returns the heartwood's radius and how far the pith lies from the
// face with the wider heartwood, beyond it (negative: between the faces), from
// the half-widths of the heartwood on both faces and the thickness, all mm.
// The heartwood is taken for a circle: a^2 + h^2 = R^2 on both faces.
func TwoWidths(wider, narrower, thickness float64) (radius, away float64, err error) {
	if !(wider >= narrower) || !(narrower >= 0) || !(thickness > 0) {
		return 0, 0, fmt.Errorf("half-widths %g and %g mm, thickness %g mm: want the wider first, none negative", wider, narrower, thickness)
	}
	h := (wider*wider - narrower*narrower - thickness*thickness) / (2 * thickness)
	return math.Hypot(h, wider), h, nil
}

// HalfWidth returns half the width of a circle's chord at a distance from its
// middle, 0 beyond it.
func HalfWidth(radius, away float64) float64 {
	return math.Sqrt(math.Max(0, radius*radius-away*away))
}
