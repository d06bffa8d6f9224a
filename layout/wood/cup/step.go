package cup

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Step is one step of a working.
type Step = moisture.Step

// Value is a named number of a step.
type Value = moisture.Value

const (
	perMM = "1/mm"
	mm    = "mm"
)

func badNumber(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return true
		}
	}
	return false
}

// Range is a best guess between a least and a greatest value.
type Range struct{ Lo, Best, Hi float64 }

// Strains are the changes of length along the rings (T) and across them (R),
// parts of the length before: negative when the wood dries.
type Strains struct{ R, T float64 }

// most is the greatest strain that is still wood.
const most = 0.5

// Check refuses strains no wood has.
func (s Strains) Check() error {
	if badNumber(s.R, s.T) || math.Abs(s.R) > most || math.Abs(s.T) > most {
		return fmt.Errorf("strains %g across and %g along the rings: want parts between -%g and %g, not per cent", s.R, s.T, most, most)
	}
	return nil
}

// ByCoefficient returns the strains of a change of moisture by points per
// cent, from the coefficients of dimensional change per 1 % (Wood Handbook
// 2010, equation 13-2: good between 6 and 14 % moisture).
func ByCoefficient(radial, tangential, points float64) Strains {
	return Strains{R: radial * points, T: tangential * points}
}

// ByShrinkage returns the strains between two moisture contents from the
// shrinkages green to ovendry in per cent (Wood Handbook 2010, equation 13-3).
// Moisture above 30 % counts as 30. It is an error where a shrinkage is not
// above 0.
func ByShrinkage(radial, tangential, from, to float64) (Strains, error) {
	if badNumber(radial, tangential, from, to) || radial <= 0 || tangential <= 0 || from < 0 || to < 0 || radial > 30 || tangential > 30 {
		return Strains{}, fmt.Errorf("shrinkage %g and %g %%, moisture %g to %g %%: want shrinkage above 0 and moisture from 0", radial, tangential, from, to)
	}
	from, to = math.Min(from, 30), math.Min(to, 30)
	part := func(s float64) float64 { return (to - from) / (30*100/s - 30 + from) }
	return Strains{part(radial), part(tangential)}, nil
}
