package model

import "heartside/layout/geom"

// Board is a board of the stack. It is known by a letter or short id that is
// chalked on its marked end at the corner of the marked edge, on the face-1
// side.
type Board struct {
	ID        string
	Species   string // id in the catalogue
	Length    float64
	Width     float64
	Thickness float64
	Moisture  float64 // per cent; 0 not measured
	Price     *Price
	Bark      Bark
	Pith      []Pith  // one, or several with X where it wanders
	Heart     float64 // radius of the heartwood about the pith, mm; 0 not known
	Planes    Planes
	Log       *Log
	Shape     Shape
	Wanted    Wanted // "" = heart
	Edges     Edges  // "" = sawn
	Faces     [2]Face
	Ends      [2]End // a = marked end, b = other end
	Note      string
	Spoiled   bool // it split, broke or was found rotten: nothing more is cut from it
	// Cut is how much was cut off the marked end and off the other end after the
	// board was entered, mm. Every place on the board is still counted from where
	// the marked end was.
	Cut [2]float64
}

// Face is one face of a board, drawn in its own coordinates: marked end left;
// on face 1 the marked edge is at the bottom, on face 2 at the top.
type Face struct {
	Photo     string         // path relative to the project file, "" none
	Corners   *[4]geom.Point // pixels of the picture for (0,0), (length,0), (length,width), (0,width)
	Bow       float64        // of the lens, see photo.Lens
	White     *[3]float64    // gains of red, green and blue light that make the reference neutral
	Split     *Split         // nil: zones drawn or taped, not split from the photograph
	Tones     []Tone         // colours measured on the zones
	Reference string         // grey or white reference the picture shares with others
	Base      ZoneKind       // "" = heart
	Outline   geom.Polygon   // nil: the whole rectangle
	Zones     []Zone
	Grain     [][]geom.Point // lines along which the grain runs, drawn by the maker
	Known     bool           // the face has been looked at; an unknown face 2 is read as unseen
}

// End is an end of a board. Corners are pixels of its photograph: other edge on
// the face-1 side, marked edge on the face-1 side, marked edge on the face-2
// side, other edge on the face-2 side, the other end as seen through the board.
type End struct {
	Photo   string
	Corners *[4]geom.Point
}

// Bark says which face was nearer the bark.
type Bark string

// Bark sides.
const (
	BarkUnknown Bark = ""
	BarkFace1   Bark = "1"
	BarkFace2   Bark = "2"
	BarkNone    Bark = "none"
)

// Pith is where the pith lies in the section at X.
type Pith struct {
	X      float64 // from the marked end
	HasX   bool
	Across float64 // from the marked edge
	Depth  float64 // below face 1; negative beyond face 1
}

// Planes is the direction in which face 1 planes cleanly.
type Planes string

// Planing directions.
const (
	PlanesUnknown    Planes = ""
	PlanesFromMarked Planes = "from-marked-end"
	PlanesToMarked   Planes = "to-marked-end"
	PlanesMixed      Planes = "mixed"
)

// Wanted is the wood that is to show.
type Wanted string

// What may be wanted. "" takes the default: heart for a board, that of its
// boards for a panel.
const (
	WantDefault Wanted = ""
	WantHeart   Wanted = "heart"
	WantSap     Wanted = "sap"
	WantBoth    Wanted = "both"
)

// Price of a board.
type Price struct {
	Amount float64
	Per    string // board-foot, cubic-foot, cubic-metre or board
}

// Log tells where in which log a board was sawn.
type Log struct {
	Name  string
	Order int
}

// Shape is how far a board is from straight and flat, mm over the whole board.
type Shape struct{ Cup, Bow, Crook, Twist float64 }
