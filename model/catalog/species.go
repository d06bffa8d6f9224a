package catalog

import "heartside/layout/colour"

// Species is a wood of the table. The zero value, with an id only, stands for
// a wood that is not in it.
type Species struct {
	ID    string // "walnut-black"
	Name  string // "Walnut, black"; "" where the wood is not in the table
	Latin string

	Shrink    Shrink
	Move      Move
	MoveCheck string // how Move compares with Shrink: "ok", or the value computed from it
	Ratio     Value  // tangential to radial shrinkage
	SG12      Value  // specific gravity at 12 per cent moisture content
	Stiff     Stiff
	Green     Green

	swatch swatch
}

// Shrink is the shrinkage from green to ovendry, per cent of the green size.
type Shrink struct{ Radial, Tangential, Volume Value }

// Move is the change of size per 1 per cent of moisture content, as a share of
// the size at 10 per cent; good between 6 and 14 per cent.
type Move struct{ Radial, Tangential Value }

// Stiff is the stiffness at 12 per cent moisture content.
type Stiff struct {
	Bending, BendingGPa          Value // million psi; GPa
	RadialRatio, TangentialRatio Value // across the grain against along it
	RadialMPa, TangentialMPa     Value // across the grain
}

// Green is the moisture content of the living tree, per cent.
type Green struct{ Heart, Sap Value }

type swatch struct{ heart, sap colour.Lab }

// Known reports whether the wood is in the table.
func (s Species) Known() bool { return s.Name != "" }

// HeartSwatch returns the colour to draw heartwood with where there is no
// photograph. It is an illustration, not a measurement: no published pair of
// heartwood and sapwood colours was found. A wood not in the table gets a
// plain brown.
func (s Species) HeartSwatch() colour.Lab {
	if s.swatch == (swatch{}) {
		return colour.Lab{L: 50, A: 10, B: 24}
	}
	return s.swatch.heart
}

// SapSwatch returns the colour to draw sapwood with, an illustration like
// HeartSwatch.
func (s Species) SapSwatch() colour.Lab {
	if s.swatch == (swatch{}) {
		return colour.Lab{L: 82, A: 3, B: 20}
	}
	return s.swatch.sap
}

// SwatchText is said wherever a swatch stands for a measured colour.
const SwatchText = "illustration: no measured colours of this wood"
