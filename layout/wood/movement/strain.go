package movement

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Form is the formula a movement was worked out with.
type Form string

// Forms.
const (
	Still       Form = "still"       // no change of moisture below saturation
	Coefficient Form = "coefficient" // eq. 13-2
	Shrinkage   Form = "shrinkage"   // eq. 13-3
)

// The limits of eq. 13-2, in per cent MC (R).
const (
	CoefficientFrom = 6.0
	CoefficientTo   = 14.0
)

// Strain is the change of size of a wood between two moisture contents, as a
// share of the size at the first.
type Strain struct {
	From, To           float64 // MC, % as used
	Tangential, Radial float64
	Form               Form
	// Clamped is true where a moisture content lay above saturation and was
	// brought down to it: wetter wood does not move.
	Clamped bool

	wood Wood
}

// Strain returns the change between two moisture contents: by eq. 13-2 of the
// Wood Handbook, dD = D C (MF - MI), where both lie from 6 to 14 %; otherwise
// by eq. 13-3, dD = D (MF - MI) / (FSP*100/S - FSP + MI), no moisture content
// above FSP.
func (w Wood) Strain(from, to float64) (Strain, error) {
	if err := w.Check(); err != nil {
		return Strain{}, err
	}
	if !finite(from, to) || from < 0 || to < 0 {
		return Strain{}, fmt.Errorf("%s: moisture content %g to %g %%: want 0 or more", w.name(), from, to)
	}
	fsp := w.fsp()
	s := Strain{From: math.Min(from, fsp), To: math.Min(to, fsp), Clamped: from > fsp || to > fsp, Form: Still, wood: w}
	if s.From == s.To {
		return s, nil
	}
	t, r := w.tangential(), w.radial()
	if within(from) && within(to) {
		s.Form = Coefficient
		s.Tangential, s.Radial = t.c.Value*(to-from), r.c.Value*(to-from)
		return s, nil
	}
	s.Form = Shrinkage
	one := func(shrink float64) float64 { return (s.To - s.From) / (fsp*100/shrink - fsp + s.From) }
	s.Tangential, s.Radial = one(t.s.Value), one(r.s.Value)
	return s, nil
}

func within(mc float64) bool { return mc >= CoefficientFrom && mc <= CoefficientTo }

// At returns the strain across a face whose rings lie flat to the share given:
// the square of the cosine of the angle between face and rings, 1 flat-sawn
// and 0 quarter-sawn. This is the plain strain transform in the plane of the
// section (from memory; MacLean, FPL Report R1473, 1945, treats the same).
func (s Strain) At(flat float64) float64 { return flat*s.Tangential + (1-flat)*s.Radial }

// Working shows how the strain was worked out.
func (s Strain) Working() moisture.Working {
	mcs := []moisture.Value{{Name: "MI", Number: s.From, Unit: "%"}, {Name: "MF", Number: s.To, Unit: "%"}}
	fsp := moisture.Value{Name: "FSP", Number: s.wood.fsp(), Unit: "%"}
	var w moisture.Working
	if s.Clamped {
		w = append(w, moisture.Step{Formula: "wood wetter than FSP does not move: MC taken as FSP", Values: []moisture.Value{fsp}, Source: eq133, Flag: moisture.Read})
	}
	if s.Form == Still {
		return append(w, moisture.Step{Formula: "no change of moisture, no movement", Values: mcs, Flag: moisture.Derived})
	}
	for _, way := range []struct {
		sign string
		dir  direction
		got  float64
	}{{"T", s.wood.tangential(), s.Tangential}, {"R", s.wood.radial(), s.Radial}} {
		got := moisture.Value{Name: "e" + way.sign, Number: way.got}
		name, n, table := "C"+way.sign, way.dir.c, tableC
		if s.Form == Shrinkage {
			name, n, table = "S"+way.sign, way.dir.s, tableS
		}
		switch {
		case way.dir.beside && s.Form == Shrinkage:
			table = "the shrinkage that goes with the coefficient of Table 13-5, which is of a group or another wood and greater than the shrinkage of Tables 4-3 and 4-4"
		case n.Flag == moisture.Derived && s.Form == Shrinkage:
			table = "S = FSP*100 / (1/C + FSP - 10), from " + tableC
		case n.Flag == moisture.Derived:
			table = "C = 1 / (FSP*100/S - FSP + 10), from " + tableS
		}
		if s.Form == Coefficient {
			w = append(w,
				moisture.Step{Formula: name, Values: []moisture.Value{{Name: name, Number: n.Value, Unit: "1/%"}}, Source: table, Flag: n.Flag},
				moisture.Step{Formula: fmt.Sprintf("%s = %s (MF - MI), both between 6 and 14 %%", got.Name, name), Values: append(mcs[:2:2], got), Source: eq132, Flag: moisture.Read})
			continue
		}
		w = append(w,
			moisture.Step{Formula: name, Values: []moisture.Value{{Name: name, Number: n.Value, Unit: "%"}}, Source: table, Flag: n.Flag},
			moisture.Step{Formula: fmt.Sprintf("%s = (MF - MI) / (FSP*100/%s - FSP + MI), not both between 6 and 14 %%", got.Name, name), Values: append(mcs[:2:2], fsp, got), Source: eq133, Flag: moisture.Secondary})
	}
	return w
}

// Lengthwise returns the least and the greatest change of a length along the
// grain, mm: from green to ovendry it is 0.1 to 0.2 % (S), spread evenly from
// 30 % MC down.
func Lengthwise(length, from, to float64) Size {
	d := length * (math.Min(to, 30) - math.Min(from, 30)) / 30
	a, b := d*0.001, d*0.002
	return Size{Value: (a + b) / 2, Lo: math.Min(a, b), Hi: math.Max(a, b)}
}

// LengthText is said of movement along the grain.
const LengthText = "Along the grain wood hardly moves: 0.1 to 0.2 % of its length from green to ovendry, a tenth of that or so through the year. Wood from near the pith, or from a leaning tree, may move more."
