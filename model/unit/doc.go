// Package unit parses and prints lengths, thicknesses, areas, board measure,
// shares and money.
//
// Lengths are mm in float64 below the screen. An inch is 25.4 mm exactly (the
// international inch, agreed in 1959); a foot is 12 inches, a board foot 144
// cubic inches. What is printed always carries its unit, and how it is rounded
// is said at each function; halves are rounded away from zero. What is not a
// finite number prints as "not known".
package unit

import "heartside/model/say"

// System is how lengths are shown. The zero value counts as MM.
type System string

// Systems of units.
const (
	MM   System = "mm"
	Inch System = "inch"
)

// Lengths in mm, exact.
const (
	InchMM = 25.4
	FootMM = 12 * InchMM
)

// notKnown stands for what is not a finite number.
func notKnown() string { return say.T("not known") }
