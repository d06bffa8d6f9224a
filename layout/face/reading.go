package face

import "heartside/layout/geom"

// Share is a part of an area, 0 to 1. Lo takes unseen wood hopefully as the
// other kind, Hi as this one; they are equal where nothing is unseen. Value
// counts only what is known.
type Share struct{ Value, Lo, Hi float64 }

// Contrast is the CIEDE2000 difference between the mean colours of sap and
// heart on a face.
type Contrast struct {
	Known   bool // false where the face does not hold both
	DE      float64
	DL      float64 // lightness of sap less that of heart
	Assumed bool    // from the species' drawing colours, not from photographs
	Split   bool    // boards' photographs share no reference: compared board by board only
}

// Excuse says why a band is no lone streak.
type Excuse string

// Excuses.
const (
	NoExcuse      Excuse = ""
	ExcuseEdge    Excuse = "edge"
	ExcuseMirror  Excuse = "mirror"
	ExcuseJoint   Excuse = "joint"
	ExcusePair    Excuse = "pair"
	ExcusePattern Excuse = "pattern"
)

// Band is one piece of unwanted wood on a face, its fragments joined.
type Band struct {
	ID        string
	Strips    []int     // indices into Panel.Strips, front to back
	Place     geom.Rect // panel coordinates as seen on that face
	CentreY   float64   // area-weighted mean Y
	Area      float64   // mm2
	Share     float64   // of the face
	Length    float64   // along X, mm
	MeanWidth float64   // area / wooded length, mm
	MaxWidth  float64
	Front     float64 // share of the panel length along which it lies on the front edge
	Rear      float64 // likewise on the back edge
	Contrast  float64 // against wanted wood within 20 mm, CIEDE2000, greatest of known ages
	Today     float64 // the same today
	Assumed   bool
	Unknown   bool // no colour to judge by: it counts as standing out
	Later     bool // counts only at a later age
	Sliver    bool
	Excuse    Excuse
	Lone      bool // a lone streak
	Hard      bool // bounded along most of its length by a straight glue line
}

// Flawed is a flaw that reaches a face.
type Flawed struct {
	Strip int
	Place geom.Rect
	Area  float64
}

// Face is the reading of the show face or the back.
type Face struct {
	Side       Side
	Area       float64 // wooded area of the face, mm2
	Light      Share   // sapwood
	Unwanted   Share
	UnseenPart float64 // share not seen yet
	Contrast   Contrast
	Coverage   float64 // contrast coverage, 0 to 1
	Bands      []Band
	Specks     int
	Flaws      []Flawed
	Balance    float64 // (balance point of the unwanted wood - centre) / width, -0.5 to 0.5
}

// Widths are the sap widths along one long edge of a strip as it lies, mm: at
// the left end, the middle and the right end.
type Widths [3]float64

// StripReading is what is read of one strip, trimmed to the panel.
type StripReading struct {
	Light, BackLight Share
	Front, Rear      Widths // on the show face, measured from the strip's front and back edge
	BackFront        Widths // on the other face, above the same edges
	BackRear         Widths
	Empty            bool // not placed on a board
	Guessed          bool // a face was not looked at: taken through from the other one
	AsSawn           bool // read on the sawn face though wood is still to come off
}

// JointKind says what meets at a joint along most of its length.
type JointKind string

// Joint kinds.
const (
	HeartHeart JointKind = "heart-heart"
	SapSap     JointKind = "sap-sap"
	SapHeart   JointKind = "sap-heart"
	Unjudged   JointKind = "unjudged" // a place is empty
)

// Joint is the meeting of strips I and I+1 on the show face.
type Joint struct {
	I        int
	Kind     JointKind
	Mismatch float64 // share of its length where sap meets heart
	Step     float64 // mean step in the sap line across the joint, mm
	FrontW   Widths  // light width on the front strip, measured back from the joint
	RearW    Widths  // light width on the rear strip, measured from the joint
}

// Lone counts the bands of the face that stand alone.
func (f *Face) Lone() (n int) {
	for i := range f.Bands {
		if f.Bands[i].Lone {
			n++
		}
	}
	return n
}

// Narrow is the reading of an edge or an end of the panel.
type Narrow struct {
	Side            Side
	Light, Unwanted Share
	Flaws           int
}

// Reading is everything read of a panel. It belongs to the Reader that made
// it and holds until that Reader reads again; Clone keeps it.
type Reading struct {
	Panel     string
	Show      Face
	Back      Face
	Edges     [2]Narrow   // front, back edge
	Ends      [2]Narrow   // left, right
	Profiles  [4]Profiled // front, back, left, right
	Strips    []StripReading
	Joints    []Joint
	Warnings  []Warning // worst first
	Placed    int       // strips that have a board
	SawnFaces bool      // some strip is read on its sawn face though it will be planed
}
