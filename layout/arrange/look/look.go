package look

import (
	"heartside/layout/face"
	"heartside/layout/figure"
)

// Name is the name of a look, as in the project file.
type Name string

// Looks.
const (
	AsLaid    Name = "as-laid"    // the maker's order, only judged
	HeartOnly Name = "heart-only" // no unwanted wood on show
	SapOut    Name = "sap-out"    // to both outside edges
	SapIn     Name = "sap-in"     // to the middle
	SapToSap  Name = "sap-to-sap" // like meets like at every joint
	EvenMix   Name = "even-mix"   // a share within limits, evenly spread
)

// All lists the looks.
var All = [...]Name{AsLaid, HeartOnly, SapOut, SapIn, SapToSap, EvenMix}

// Rings says how the growth rings of neighbours are to lie.
type Rings uint8

// Ring preferences. Which is better is argued about; common practice, no
// source, so none is the default.
const (
	AnyRings  Rings = iota
	Alternate       // bark side up and down in turns
	BarkUp
	HeartUp
)

// Rules are the weights of the terms, in points, and what they are held
// against. All are engineering choices with no published source.
type Rules struct {
	Rings Rings

	// Along a joint.
	Least      float64 // mm of unwanted wood at a joint that count
	Border     float64 // all of a joint has unwanted wood on one side only: a straight hard border
	Step       float64 // both sides carry it, one as good as none of the other's width
	LikeToLike float64 // factor on both of them, and on light outside edges, where sap-to-sap is asked
	Colour     float64 // neighbours' wanted wood differs by ColourFull
	ColourFrom float64 // CIEDE2000 that is not seen over a joint
	ColourFull float64 // CIEDE2000
	Planing    float64 // neighbours plane opposite ways
	RingsWrong float64 // a pair, or a strip, against the ring preference
	Moisture   float64 // neighbours differ by more than MoistureMost
	// MoistureMost is in per cent, as for the warning.
	MoistureMost float64

	// Grain tells of boards how their grain runs and where in which log they
	// were sawn; what is not known speaks against nothing. Figure are the
	// weights of what meets at a joint.
	Grain  map[*face.Board]Grain
	Figure figure.Rules

	// Of the whole face. Shares are of its area.
	OnShow  float64 // heart-only: all of the face is unwanted wood
	Astray  float64 // sap-out, sap-in: all of it lies where it should not
	Bare    float64 // sap-out: an outside edge without it; sap-to-sap: one with it; sap-in: half of a bare middle
	Away    float64 // sap-out, sap-in: mean distance from where it should be is half the panel
	Mirror  float64 // nothing mirrors it about the long centre line
	Uneven  float64 // even-mix: all of it at one edge
	OffMix  float64 // even-mix: share outside the mix asked, by all of the face
	Stripes float64 // stripes as regular as a pole's
	Few     float64 // share under which mirror and distance count less; sap-in: under which the middle is bare

	// Warnings of the reading, each; those under another count half.
	Streak        float64 // a lone streak: more than a whole joint gone wrong, whatever the look
	Sliver        float64 // a sliver is mended by ripping 2 mm more
	OneSidedJoint float64 // the joint's border counts besides
	OneSidedEdge  float64 // milder than a streak, as an edge is an excuse
	Lopsided      float64 // most of the unwanted wood lies to one side
	Over          float64 // over the limit at all
	OverShare     float64 // over it by all of the face
	FlawOnShow    float64 // each flaw
	FlawInEdge    float64 // each; an edge is seen less
	TooSmall      float64 // the strips do not make the panel: above all else
}

// Grain is how the grain of a board runs on its faces, nil where not known, and
// its place in the log.
type Grain struct {
	Maps  [2]*figure.Map
	Log   string
	Order int
}

// DefaultRules are used where nothing else is said.
var DefaultRules = Rules{
	Least: 3, Border: 4, Step: 1.5, LikeToLike: 2.5,
	Colour: 2, ColourFrom: 2, ColourFull: 12, // classes of difference on wood, see face.Contrast
	Figure:  figure.DefaultRules,
	Planing: 0.4, RingsWrong: 0.6, Moisture: 1, MoistureMost: 2,
	OnShow: 60, Astray: 60, Bare: 2, Away: 10, Mirror: 5, Uneven: 20, OffMix: 60, Stripes: 1.5, Few: 0.05,
	Streak: 12, Sliver: 2, OneSidedJoint: 1, OneSidedEdge: 1.5, Lopsided: 3,
	Over: 5, OverShare: 40, FlawOnShow: 4, FlawInEdge: 1.5, TooSmall: 50,
}
