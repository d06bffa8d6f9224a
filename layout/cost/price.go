package cost

import (
	"fmt"
	"math"
)

// Per is the unit that a price is for; the names are those of project files.
type Per string

// Units of prices.
const (
	PerBoardFoot  Per = "board-foot"
	PerCubicFoot  Per = "cubic-foot"
	PerCubicMetre Per = "cubic-metre"
	PerBoard      Per = "board"
)

// Volume returns the unit in mm3, and false for what is sold by the board or
// not known.
func (p Per) Volume() (float64, bool) {
	switch p {
	case PerBoardFoot:
		return BoardFootMM3, true
	case PerCubicFoot:
		return CubicFootMM3, true
	case PerCubicMetre:
		return CubicMetreMM3, true
	}
	return 0, false
}

// Rate is a price per unit.
type Rate struct {
	Amount float64
	Per    Per
}

func (r Rate) check() error {
	if _, ok := r.Per.Volume(); !ok && r.Per != PerBoard {
		return fmt.Errorf("a price per %q is not known; board-foot, cubic-foot, cubic-metre or board", r.Per)
	}
	if !(r.Amount >= 0) || math.IsInf(r.Amount, 0) {
		return fmt.Errorf("a price of %g is none; give a number not under 0", r.Amount)
	}
	return nil
}

// Of returns what one board of a size costs, by its volume as measured.
func (r Rate) Of(s Size) (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	if err := s.check(); err != nil {
		return 0, err
	}
	if unit, ok := r.Per.Volume(); ok {
		return r.Amount * s.Volume() / unit, nil
	}
	return r.Amount, nil
}

// OfTally returns what a tally of boards costs: by its board feet, which are
// rounded board by board and so are not those of the volume.
func (r Rate) OfTally(t *Tally) (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	switch unit, ok := r.Per.Volume(); {
	case !ok:
		return r.Amount * float64(t.Pieces), nil
	default:
		return r.Amount * t.BoardFeet * BoardFootMM3 / unit, nil
	}
}

// ByArea returns the price for a mm2 of face of stock of a thickness, and the
// price for a whole board; one of them is 0.
func (r Rate) ByArea(thickness float64) (perArea, whole float64, err error) {
	if err := r.check(); err != nil {
		return 0, 0, err
	}
	unit, ok := r.Per.Volume()
	if !ok {
		return 0, r.Amount, nil
	}
	if !(thickness > 0) || math.IsInf(thickness, 0) {
		return 0, 0, fmt.Errorf("a thickness of %g mm is none; stock sold by volume needs one", thickness)
	}
	return r.Amount * thickness / unit, 0, nil
}

// In returns the rate told for another unit of volume. What is sold by the board
// has no rate by volume.
func (r Rate) In(per Per) (Rate, error) {
	if err := r.check(); err != nil {
		return Rate{}, err
	}
	from, ok := r.Per.Volume()
	to, known := per.Volume()
	switch {
	case r.Per == per:
		return r, nil
	case !ok || !known:
		return Rate{}, fmt.Errorf("a price per %s cannot be told per %s without the board", r.Per, per)
	}
	return Rate{r.Amount * to / from, per}, nil
}
