package face

import (
	"fmt"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// Planes is the direction a board planes cleanly, on face 1.
type Planes uint8

// Planing directions.
const (
	PlanesUnknown Planes = iota
	PlanesFromMarked
	PlanesToMarked
	PlanesMixed
)

// Zone is a region of a board face, in that face's own coordinates.
type Zone struct {
	Kind    Kind
	Polygon geom.Polygon
}

// BoardFace is one face of a board. Later zones lie on top of earlier ones;
// what none covers inside Outline is Base.
type BoardFace struct {
	Base    Kind
	Outline geom.Polygon // nil: the whole rectangle
	Zones   []Zone

	Heart, Sap *colour.Lab   // mean colours measured on the photograph, nil where none
	Field      *colour.Field // nil without a photograph
	Guessed    bool          // not looked at: taken through from the other face
	Reference  string        // the grey or white reference the photograph shares with others; "" none
}

// Ageing holds measured colours at later ages for a board's wood, where the
// maker has entered them. Nil where not known.
type Ageing struct {
	Heart, Sap []AgedColour
}

// AgedColour is a colour after a number of years.
type AgedColour struct {
	Years float64
	Lab   colour.Lab
}

// Board is a board as the readings see it. Readers know a board by its
// pointer and never look again at one they have read: publish a new Board for
// every change.
type Board struct {
	ID                       string
	Species                  string
	Length, Width, Thickness float64 // mm
	Faces                    [2]BoardFace
	Planes                   Planes
	BarkFace                 int     // 1, 2, or 0 for none or not known
	Moisture                 float64 // per cent, 0 not known
	// Cut is what was cut off the marked end and off the other end, mm. Places are
	// counted from where the marked end was; the outlines of both faces end where
	// the wood ends now.
	Cut [2]float64

	// Colours to draw and judge with where no photograph is: an illustration,
	// marked assumed in every reading made from it.
	AssumedHeart, AssumedSap colour.Lab
	Ageing                   *Ageing

	Deep Deep   // nil: the sawn faces are all that is known
	Sawn *Board // the board this one was planed from; nil: it is as sawn
}

// Left returns where the wood begins and ends along the board.
func (b *Board) Left() (from, to float64) { return b.Cut[0], b.Length - b.Cut[1] }

// Root returns the board as sawn.
func (b *Board) Root() *Board {
	if b.Sawn != nil {
		return b.Sawn
	}
	return b
}

// SideName names face f, 1 or 2, by the side it is of the log: "bark side" or
// "heart side", and "face 1" or "face 2" where that is not known.
func (b *Board) SideName(f int) string {
	switch b.BarkFace {
	case f:
		return "bark side"
	case 3 - f:
		return "heart side"
	}
	return fmt.Sprintf("face %d", f)
}
