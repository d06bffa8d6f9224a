package model

import (
	"heartside/layout/geom"
	"heartside/model/say"
)

// Panel is a glued-up panel by its finished size.
type Panel struct {
	ID            string
	Role          Role
	Length        float64 // along the grain
	Width         float64
	Thickness     float64
	Shape         ShapeKind
	Points        geom.Polygon // of a polygon shape
	Hidden        []geom.Polygon
	BothShow      bool
	Look          Look
	Rings         Rings
	Wanted        Wanted
	UnwantedLimit [2]float64 // face, back; shares 0 to 1, 1 = any
	FrontNamed    bool       // the maker has said which side is the front
	Fitting       *Fitting   // nil: nothing said
	Profiles      Profiles
	Strips        []Strip // front to back
}

// Role names a panel's edges and ends on screen and paper.
type Role string

// Roles.
const (
	RoleTop         Role = "top"
	RoleSide        Role = "side"
	RoleDoor        Role = "door"
	RoleDrawerFront Role = "drawer-front"
	RoleShelf       Role = "shelf"
	RoleOther       Role = "other"
)

// ShapeKind is the finished outline.
type ShapeKind string

// Shapes.
const (
	Rectangle ShapeKind = "rectangle"
	Ellipse   ShapeKind = "ellipse"
	Poly      ShapeKind = "polygon"
)

// Look is what the maker asks of a panel.
type Look string

// Looks.
const (
	AsLaid    Look = "as-laid"
	HeartOnly Look = "heart-only"
	SapOut    Look = "sap-out"
	SapIn     Look = "sap-in"
	SapToSap  Look = "sap-to-sap"
	EvenMix   Look = "even-mix"
)

// Looks lists them all.
func Looks() []Look { return []Look{AsLaid, HeartOnly, SapOut, SapIn, SapToSap, EvenMix} }

// Rings is how the growth rings of a panel's strips should lie.
type Rings string

// Ring directions.
const (
	RingsAny       Rings = ""          // as it suits the look
	RingsAlternate Rings = "alternate" // bark side up and down by turns
	RingsBarkUp    Rings = "bark-up"   // the bark side shows
	RingsHeartUp   Rings = "heart-up"  // the heart side shows
)

// Strip is a rectangle cut from a board, in face-1 coordinates; L and W are
// as glued. Board "" is an empty place.
type Strip struct {
	ID     string
	Board  string
	X, Y   float64
	L, W   float64
	Angle  float64
	Up     int // 1 or 2
	Turned bool
	Shift  float64
	Pinned bool
	Stage  Stage
	Off    *[2]float64 // stock taken off face 1 and face 2, mm; nil = halves
	Mark   string      // the number chalked on it, settled when it comes to its board
	Planed *PlanedSap  // sap widths measured after planing, nil where not yet
	Row    string      // of the strips laid with it to be cut in one go; "" it is cut by itself
}

// PlanedSap are the sap widths a maker measured on the planed strip, in the
// strip's own coordinates: along t = 0 and t = W, each at s = 0, L/2 and L.
type PlanedSap struct {
	Near, Far Tape
	Face      int // the face measured, 1 or 2; 0 is the one that shows
}

// Stage is how far the making of a strip has come.
type Stage string

// Stages in their order; "" is planned.
const (
	Planned Stage = "planned"
	Sawn    Stage = "sawn"
	Planed  Stage = "planed"
	Jointed Stage = "jointed"
	Glued   Stage = "glued"
)

// Words says a stage.
func (s Stage) Words() string {
	switch s {
	case "", Planned:
		return say.T("planned")
	case Sawn:
		return say.T("sawn")
	case Planed:
		return say.T("planed")
	case Jointed:
		return say.T("jointed")
	case Glued:
		return say.T("glued")
	}
	return string(s)
}
