package geom

// Tolerances of the package. Shares are of the largest coordinate in hand, so
// that a drawing ten times the size is treated alike; doubles carry about
// 2.2e-16 of it.
const (
	// sameX is the share within which two places along x count as one: above
	// the rounding of a crossing between edges at any useful angle, and
	// 2.4e-9 mm on a board of 2400 mm.
	sameX = 1e-12

	// sameY is the share by which a straight side may bend and a piece may be
	// thick and still be rounding: some fifty units in the last place.
	sameY = 1e-14

	// farthest is the largest coordinate the sweep takes; sums and differences
	// of such numbers stay finite.
	farthest = 1e150

	// sameArea is the share of the surrounding rectangle within which areas
	// count as the same.
	sameArea = 1e-12

	// flatTurn is the sine of the angle under which three corners of a
	// quadrilateral count as lying in line.
	flatTurn = 1e-9
)
