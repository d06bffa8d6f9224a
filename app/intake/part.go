package intake

import (
	"heartside/model/say"
)

// Part is what of a board a photograph shows.
type Part int

// Parts of a board. EndA is the marked end.
const (
	NoPart Part = iota
	Face1
	Face2
	EndA
	EndB
)

// String names the part as the screen does.
func (p Part) String() string {
	switch p {
	case Face1:
		return say.T("face 1")
	case Face2:
		return say.T("face 2")
	case EndA:
		return say.T("marked end")
	case EndB:
		return say.T("other end")
	}
	return say.T("not used")
}

// Face returns the number of the face, 0 for an end.
func (p Part) Face() int {
	switch p {
	case Face1, Face2:
		return int(p)
	}
	return 0
}

// Parts are all parts, faces first.
func Parts() []Part { return []Part{Face1, Face2, EndA, EndB} }

// Place is a part of a board.
type Place struct {
	Board string // "" none
	Part  Part
}

func (p Place) String() string {
	if p.Board == "" {
		return NoPart.String()
	}
	return say.F("board %s, %v", p.Board, p.Part)
}
