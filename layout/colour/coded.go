package colour

import "math"

// Coded is a colour in steps of 1/256, a quarter of the room a Lab takes: of
// use where a photograph has many, as no reading tells such steps apart.
type Coded [3]int16

// codedStep is how many steps a unit has, and mostCoded the largest part.
const codedStep, mostCoded = 256, 127

// Code returns a colour as it is kept, parts beyond 127 either way as 127.
func (c Lab) Code() Coded {
	if !c.Known() {
		return Coded{math.MinInt16}
	}
	part := func(v float64) int16 { return int16(math.Round(min(max(v, -mostCoded), mostCoded) * codedStep)) }
	return Coded{part(c.L), part(c.A), part(c.B)}
}

// Known reports whether c is a colour.
func (c Coded) Known() bool { return c[0] != math.MinInt16 }

// Lab returns the colour; its L is NaN where it is not known.
func (c Coded) Lab() Lab {
	if !c.Known() {
		return Lab{L: math.NaN()}
	}
	return Lab{float64(c[0]) / codedStep, float64(c[1]) / codedStep, float64(c[2]) / codedStep}
}
