package session

import (
	"heartside/layout/face"
	"heartside/model"
)

// Wish is what is asked of the search for arrangements of a panel.
type Wish struct {
	Panel   string
	Look    model.Look // "" is the panel's own
	Spares  bool       // spares may take places
	NoRoll  bool       // no strip shows its other face
	NoTurn  bool       // no strip is turned end for end
	Seed    uint64
	Answers int // 0 is 5

	// Whole asks for all panels of the set that Panel is seen together with, at
	// once. Spares then stay where they are.
	Whole  bool
	Change Change // whether strips may change panels of the set
}

// Change says whether strips may go to another panel of a set, where the sizes
// allow it at all.
type Change uint8

// What may change.
const (
	ChangeAlike Change = iota // where all strips are of one width
	ChangeAny
	ChangeNone
)

// LookScore is what an arrangement has against it for a look.
type LookScore struct {
	Look   model.Look
	Points float64
}

// Reason is one thing against an arrangement.
type Reason struct {
	Text   string
	Points float64
	Strips []string // ids
	Joint  int      // the strip in front of the joint; -1 none
	Panel  string   // of a set: the panel that Joint and all Strips are of; "" for several
}

// Arrangement is one way of laying a panel's strips.
type Arrangement struct {
	Panel   *face.Panel
	Panels  []*face.Panel // of a set: all its panels, in their order; Panel is the one asked about
	Points  float64       // against it for the look asked; 0 is nothing against it
	Looks   []LookScore
	Reasons []Reason // the gravest first
	After   After
	Change  string // what is done to get there, in words
	Edit    model.Edit
}

// Found is what a search has found so far.
type Found struct {
	Look    model.Look
	Now     Arrangement   // as the strips lie
	Answers []Arrangement // best first, clearly different from one another
	Proved  bool          // no arrangement has fewer points in its joints
	Best    bool          // no arrangement has fewer points
	Least   float64       // no arrangement has fewer points than these
	Tried   int           // panels read
}
