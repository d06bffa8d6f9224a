package cost

import (
	"fmt"
	"math"
)

// The international inch (1959) in mm, and the foot; exact.
const (
	inch = 25.4
	foot = 12 * inch
)

// Volumes in mm3, exact by the definition of the inch. A board foot is 144
// cubic inches: a square foot an inch thick.
const (
	BoardFootMM3  = 144 * inch * inch * inch // 2 359 737.216
	CubicFootMM3  = foot * foot * foot       // 28 316 846.592
	CubicMetreMM3 = 1e9
)

// Size is a board or a part, mm. Of stock the thickness is that by which it is
// sold: its sawn thickness, or the nominal one of its quarters.
type Size struct{ Length, Width, Thickness float64 }

// Face returns the area of one face, mm2.
func (s Size) Face() float64 { return s.Length * s.Width }

// Volume returns the volume, mm3.
func (s Size) Volume() float64 { return s.Length * s.Width * s.Thickness }

// check returns an error where a size is none.
func (s Size) check() error {
	for _, v := range [...]float64{s.Length, s.Width, s.Thickness} {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("%g x %g x %g mm is no size; give length, width and thickness over 0", s.Length, s.Width, s.Thickness)
		}
	}
	return nil
}

// BoardFeet returns a volume in mm3 in board feet.
func BoardFeet(mm3 float64) float64 { return mm3 / BoardFootMM3 }

// CubicFeet returns a volume in mm3 in cubic feet.
func CubicFeet(mm3 float64) float64 { return mm3 / CubicFootMM3 }

// CubicMetres returns a volume in mm3 in cubic metres.
func CubicMetres(mm3 float64) float64 { return mm3 / CubicMetreMM3 }

// wholeFoot is how far a length may be under a whole foot and still count as
// that foot, mm: lengths here are to the mm, and 2438 stands for 8 ft. An
// engineering choice.
const wholeFoot = 0.5

// SurfaceMeasure returns the surface measure of a board in whole square feet as
// hardwood is tallied: its width in inches with the fraction, times its length
// rounded down to the whole foot, over 12, rounded to the nearest whole number.
// An exact half goes up where up is set, else down. half tells that it was one.
//
// After glossaries of hardwood grading and a question-and-answer column of the
// trade (secondary); that halves go up and down by turns is from memory.
func SurfaceMeasure(length, width float64, up bool) (feet int, half bool, err error) {
	if err := (Size{length, width, 1}).check(); err != nil {
		return 0, false, fmt.Errorf("surface measure: %g x %g mm is no face; give length and width over 0", length, width)
	}
	sm := width / inch * math.Floor((length+wholeFoot)/foot) / 12
	below := math.Floor(sm)
	switch rest := sm - below; {
	case math.Abs(rest-0.5) < 1e-6:
		if up {
			below++
		}
		return int(below), true, nil
	case rest > 0.5:
		below++
	}
	return int(below), false, nil
}

// Tally adds up boards as a seller of hardwood does. The zero value is ready;
// its first exact half goes up.
type Tally struct {
	Pieces    int
	Surface   int     // surface measure, square feet
	BoardFeet float64 // surface measure times nominal thickness

	halves int
}

// Add counts a board of so many quarters of an inch and returns its surface
// measure. Stock under an inch counts as an inch (glossaries of the trade,
// secondary).
func (t *Tally) Add(length, width float64, quarters int) (int, error) {
	if quarters < 1 {
		return 0, fmt.Errorf("%d quarters of an inch are no thickness; 4/4 is 4", quarters)
	}
	sm, half, err := SurfaceMeasure(length, width, t.halves%2 == 0)
	if err != nil {
		return 0, err
	}
	if half {
		t.halves++
	}
	t.Pieces++
	t.Surface += sm
	t.BoardFeet += float64(sm) * math.Max(1, float64(quarters)/4)
	return sm, nil
}
