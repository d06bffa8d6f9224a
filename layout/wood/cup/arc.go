package cup

import (
	"fmt"
	"math"
)

// Rise returns the exact rise of a circle's arc over a chord, mm: rho -
// sqrt(rho^2 - chord^2/4), with the sign of the curvature (1/mm). It is an
// error where the chord is longer than the circle is wide.
func Rise(kappa, chord float64) (float64, error) {
	x := kappa * chord / 2
	if badNumber(kappa, chord) || chord < 0 || math.Abs(x) > 1 {
		return 0, fmt.Errorf("a chord of %g mm in a circle of curvature %g 1/mm: it does not fit", chord, kappa)
	}
	// The same without the difference of two nearly equal numbers.
	return kappa * chord * chord / 4 / (1 + math.Sqrt(1-x*x)), nil
}

// Radius returns the radius of the circle with an arc of this rise over this
// chord, mm: chord^2/(8 rise) + rise/2. It serves for a bent face as for a
// ring on the end of a board.
func Radius(chord, rise float64) (float64, error) {
	if badNumber(chord, rise) || chord <= 0 || rise <= 0 {
		return 0, fmt.Errorf("chord %g mm and rise %g mm: both must be above 0", chord, rise)
	}
	return chord*chord/(8*rise) + rise/2, nil
}
