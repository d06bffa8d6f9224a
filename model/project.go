package model

import (
	"cmp"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/model/unit"
)

// Project is the whole job.
type Project struct {
	Name       string
	Units      unit.System // how lengths are shown
	Currency   string      // code of ISO 4217 that amounts are in, "" not said
	Climate    Climate
	Limits     Limits
	Allowances Allowances
	Machines   Machines
	Behaviour  Behaviour
	Boards     []*Board
	Panels     []*Panel
	Spares     []Strip // strips in no panel
	Joined     []Joined
	Kept       []Kept
	Colours    []Colours
	Sets       []Set         // panels judged as one face
	Parts      []Part        // solid parts from the same boards
	Printed    []PrintedPage // of the layout sheet, as they lie in the workshop
	Yard       *Yard         // nil: nothing was recorded at a yard
	Record     []FinishStep  // colour and finish, in their order
	Clear      *ClearStock   // nil: nothing was said of it
}

// Air is a state of the air around the work.
type Air struct {
	RH   float64 // relative humidity, per cent
	Temp float64 // degrees C
	MC   float64 // moisture content read on the wood, per cent; 0: what the air gives
}

// Climate is the air now and in the driest and dampest season.
type Climate struct{ Now, Dry, Wet Air }

// Limits of the warnings. Engineering choices with no published source.
type Limits struct {
	Streak float64    // share 0 to 1
	Mix    [2]float64 // shares 0 to 1
	Cup    float64    // bow of a free panel, mm for each m of its width; 0 = the usual
	Apart  float64    // difference in movement along a fixed joint, mm; 0 = the usual
	Planed float64    // unwanted wood that planing brings to the show face, mm wide; 0 = the usual
	Turns  int        // changes of the planing direction from front to back; 0 = the usual
}

// Usual limits of behaviour, all engineering choices.
const (
	usualCup    = 4.0
	usualApart  = 2.0
	usualPlaned = 3.0
	usualTurns  = 2
)

// CupLimit returns the bow that is warned of, mm for each m of width.
func (l Limits) CupLimit() float64 { return cmp.Or(l.Cup, usualCup) }

// ApartLimit returns the difference in movement that is warned of, mm.
func (l Limits) ApartLimit() float64 { return cmp.Or(l.Apart, usualApart) }

// PlanedLimit returns how wide unwanted wood that planing brings up may be, mm.
func (l Limits) PlanedLimit() float64 { return cmp.Or(l.Planed, usualPlaned) }

// TurnsLimit returns how many changes of the planing direction are warned of.
func (l Limits) TurnsLimit() int { return cmp.Or(l.Turns, usualTurns) }

// Allowances for working the wood, mm.
type Allowances struct {
	Kerf       float64 // width of the saw cut
	Rest       float64 // left on each long edge of a blank so that it can move and be sawn again
	Joint      float64 // taken off each long edge when it is jointed
	Ends       float64 // left at each end of a blank
	PanelEdge  float64 // least excess at each long edge of a panel before trimming
	AfterGlue  float64 // thickness taken off the panel after glue-up
	Snipe      float64 // length at a board's end that thicknessing may spoil
	FlawMargin float64 // clear distance to a flaw
}

// Machines are the limits of the maker's machines, mm; 0 means no limit.
type Machines struct {
	Flatten   float64 // widest piece that can be flattened
	Thickness float64 // widest piece that can be thicknessed
	Shortest  float64 // shortest piece that is safe
	Narrowest float64 // narrowest piece that is safe
}

// Joined says that two panels are fixed to each other.
type Joined struct {
	Panels [2]string
	How    string // fixed or free
	Edges  [2]string
}

// Kept is a named arrangement of a panel.
type Kept struct {
	Panel, Name string
	Strips      []Strip
}

// Colours are colours measured by the maker for a species at an age.
type Colours struct {
	Species    string
	Years      float64
	Heart, Sap *colour.Lab // nil where not measured
}

// ZoneKind is what a zone of a face is.
type ZoneKind string

// Zone kinds.
const (
	Heart  ZoneKind = "heart"
	Sap    ZoneKind = "sap"
	Flaw   ZoneKind = "flaw"
	Unseen ZoneKind = "unseen"
)

// Zone is a region of a face in that face's own coordinates.
type Zone struct {
	Kind    ZoneKind
	Polygon geom.Polygon
}

// Tape holds sap widths measured with a tape along one edge of a face, mm: at
// the marked end, the middle and the other end.
type Tape [3]float64
