// Package unit parses and prints lengths, thicknesses and board measure.
package unit

// System is how lengths are shown.
type System string

// Systems of units.
const (
	MM   System = "mm"
	Inch System = "inch"
)
