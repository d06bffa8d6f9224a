package model

// Behaviour is how the wood of a job is taken to behave where nothing is
// published that would say it for every board.
type Behaviour struct {
	// SapFactor is how much the sapwood moves against the heartwood, as a
	// factor; 1, and 0 for nothing said: alike. No published pair was found
	// for the usual woods.
	SapFactor float64
	// FaceDifference is how far the two faces of a panel may come apart in
	// moisture content when one dries first, points. An engineering choice.
	FaceDifference float64
}

// Factor returns the factor of the sapwood, 1 where nothing is said.
func (b Behaviour) Factor() float64 {
	if b.SapFactor == 0 {
		return 1
	}
	return b.SapFactor
}

// Held is how a panel is held to what carries it.
type Held string

// Ways to hold a panel; "" is free.
const (
	HeldFree       Held = ""
	HeldSlots      Held = "slots"      // screws in slots, or buttons in a groove of the rail
	HeldGroove     Held = "groove"     // its edges run in a groove
	HeldBreadboard Held = "breadboard" // a breadboard end across each end
)

// FixedLine is the line of a panel that does not move against what carries it.
type FixedLine string

// Fixed lines; "" is the middle.
const (
	LineMiddle FixedLine = ""
	LineFront  FixedLine = "front"
	LineBack   FixedLine = "back"
)

// Fitting is how a panel is built in.
type Fitting struct {
	Held   Held
	Line   FixedLine
	Rows   []float64 // rows of screws, buttons or pins, mm from the front edge
	Groove float64   // depth of the groove, mm; 0: the usual one
}

// ProfileKind is how an edge is worked.
type ProfileKind string

// Profiles; "" is square.
const (
	ProfileSquare ProfileKind = ""
	ProfileBevel  ProfileKind = "bevel"
	ProfileRound  ProfileKind = "round"
)

// Profile is what is taken off an edge of the show face: Across into the face
// and Down into the thickness, mm.
type Profile struct {
	Kind         ProfileKind
	Across, Down float64
}

// Profiles are those of the front and back edge, the left and the right end.
type Profiles [4]Profile

// Any reports whether an edge is worked at all.
func (p Profiles) Any() bool { return p != Profiles{} }
