package face

// Kind says what a piece of a face is.
type Kind uint8

// The kinds of wood on a face. Blank is no wood: outside a waney outline or
// where no strip lies; it is outside every area.
const (
	Heart Kind = iota
	Sap
	Flaw // knot, split, wane, bark
	Unseen
	Blank
)

// String returns the name used in files and messages.
func (k Kind) String() string {
	switch k {
	case Heart:
		return "heart"
	case Sap:
		return "sap"
	case Flaw:
		return "flaw"
	case Unseen:
		return "unseen"
	}
	return "blank"
}

// Wanted says which wood a panel is to show; the other is the unwanted kind.
type Wanted uint8

// What may be wanted.
const (
	WantHeart Wanted = iota
	WantSap
	WantBoth
)

// Unwanted returns the kind that w does not want, and false where both are
// welcome.
func (w Wanted) Unwanted() (Kind, bool) {
	switch w {
	case WantHeart:
		return Sap, true
	case WantSap:
		return Heart, true
	}
	return Blank, false
}

// Wood returns the kind that w wants; heart where both are welcome.
func (w Wanted) Wood() Kind {
	if w == WantSap {
		return Sap
	}
	return Heart
}

// Side names one of the six sides of a panel.
type Side uint8

// The sides of a panel. Front is the long edge at Y = 0, Rear the one at
// Y = width, Left the end at X = 0, Right the end at X = length.
const (
	Show Side = iota
	Back
	Front
	Rear
	Left
	Right
)
