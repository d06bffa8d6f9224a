package arrange

import (
	"heartside/layout/cutting"
	"heartside/layout/face"
)

// Kind names what is done to one strip or two.
type Kind string

// What may be done.
const (
	Turn        Kind = "turn"      // end for end
	RollOver    Kind = "roll-over" // the other face shows
	RollAndTurn Kind = "roll-and-turn"
	Swap        Kind = "swap"         // two strips change places
	MoveToEdge  Kind = "move-to-edge" // to an outside edge of the panel
	Shift       Kind = "shift"        // along the panel
	MoveAcross  Kind = "move-across"  // across its board
	MoveAlong   Kind = "move-along"   // along its board
	MoveOnBoard Kind = "move-on-board"
	Narrow      Kind = "narrow"
	Widen       Kind = "widen"
	Lengthen    Kind = "lengthen"
	TakeSpare   Kind = "take-spare" // a spare takes a strip's place
	TakeOff     Kind = "take-off"   // its stock comes off its faces otherwise
)

// Cost is what a fix takes, in rising order.
type Cost uint8

// Costs.
const (
	Free      Cost = iota // the strips are only laid or planed otherwise
	ReJoint               // edges that fitted must be jointed again
	ReCut                 // strips are cut from other places than planned
	CostsWood             // wood that was good is lost, or more is used
)

// Step is one thing to do.
type Step struct {
	Kind   Kind
	Strips []string  // ids: the one it is done to; both of a swap; strip and spare of a take-spare
	By     float64   // mm: along or across the board or the panel, narrower, wider, longer; off the face that shows
	Edge   face.Side // Front or Rear, of a move to an edge
	Board  string    // id, of a move to another board
}

// After is what the panel would read once the fix is made.
type After struct {
	Light       float64 // light share of the show face, 0 to 1
	Unwanted    float64 // unwanted share of the show face, 0 to 1
	Coverage    float64 // contrast coverage of the show face, 0 to 1
	LoneStreaks int
}

// Fix is a change that ends a warning, tried for real.
type Fix struct {
	Kind   Kind // of the first step
	Cost   Cost
	Steps  []Step // one, or several done together
	Strips []string
	Panel  []face.Strip // the panel's strips as they are then, front to back
	Spares []face.Strip // the spares as they are then; nil where they stay as they are

	// How the wood warned of is excused then, with the strips that it meets or
	// mirrors; empty where none of it is left on that face or none was meant.
	How   face.Excuse
	Meets []string

	Partner bool               // the strips warned of stay as they are
	Makes   []face.WarningKind // milder warnings that begin with it
	Size    float64            // of the change, among those of one cost
	After   After
}

// Options of the search.
type Options struct {
	Allowances cutting.Allowances
	Machines   cutting.Machines
	Others     []face.Strip  // strips of other panels that share boards with this one
	Boards     []*face.Board // to which strips may be moved, beside their own
	Most       int           // fixes wanted for a warning; 0 is 3
	AfterGlue  float64       // taken off both faces alike once the panel is glued up, mm
	Tries      int           // readings to spend, for All on all warnings together; 0 is 160
}

const (
	defaultMost  = 3
	defaultTries = 160
)
