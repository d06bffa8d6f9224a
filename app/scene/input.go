package scene

import (
	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Input is all that a scene is made from. Zero values leave things out: no
// panel, no board in hand, no reading yet.
type Input struct {
	Size   geom.Point // of the surface, units
	Panel  Sheet
	Before *face.Panel // shown beside the panel, as it was before the last change
	Back   bool        // the panel is seen from its back, rolled over like a board
	Boards Stack
	Pick   Pick
	Hover  Hit
	Lit    []Light // places of the panel that are pointed out
	Grain  Grain
	Sketch Sketch
	Roll   *Roll
	Depth  Depth
	Views  Views
	Look   Look
	Words  Words
}

// Depth is a view of panel and board in hand with a part of the stock taken
// off. The panel of the Sheet lies on boards as planed so far.
type Depth struct {
	On   bool
	Hand *face.Board // the board in hand as planed so far; nil as it is
	// Panel and Board say what is seen where it is not the finished faces; ""
	// it is, or there is nothing to say.
	Panel, Board string
}

// Sheet is the panel on screen.
type Sheet struct {
	Panel   *face.Panel
	Reading *face.Reading // nil: not read
	// Names of the front edge, the back edge, the left and the right end.
	Front, Back, Left, Right string
}

// Stack is the boards and what lies on them.
type Stack struct {
	All    []*face.Board
	InHand string // id of the board shown unwrapped
	Laid   []Laid
	Blank  Blank
	// Spoiled are the ids of boards that nothing more is cut from: they are
	// crossed out.
	Spoiled []string
}

// Laid is a strip as it lies on its board.
type Laid struct {
	Panel string // id, "" for a spare and for a solid part
	Strip *face.Strip
	Back  bool   // of a panel that is not on screen
	Solid string // what a cutting of a solid part is called; "" a strip
	// Sawn is what is sawn out for it, in its own (s, t); empty: as Stack.Blank
	// says.
	Sawn geom.Rect
}

// Blank is what is sawn round a strip, mm.
type Blank struct {
	Side float64 // wider on each long edge
	End  float64 // longer at each end
	Kerf float64 // of the saw, drawn round the blank
}

// Pick is what is in hand.
type Pick struct {
	Strip string
	Board string // with Face and Zone: a zone
	Face  int
	Zone  int // -1 none
}

// Light is a place pointed out on the panel.
type Light struct {
	Side   face.Side
	Place  geom.Rect // panel mm as seen on that side
	Bright bool      // pointed at; others are only edged
	Severe bool
}

// Sketch is what a tool shows while it works.
type Sketch struct {
	Board   string
	Face    int
	Guides  []Guide      // in face-1 coordinates of Board
	Ring    geom.Polygon // a polygon being drawn, in the face's own coordinates
	Kind    face.Kind    // of the ring or the brush
	Centre  geom.Point   // of the brush, the face's own coordinates
	Radius  float64      // of the brush, mm; 0 none
	Line    []geom.Point // along the grain, being drawn, the face's own coordinates
	Cursor  *geom.Point  // of the keys, on Face
	Carried string       // id of the strip under way
	Swap    string       // id of the strip that would change places with it
	Told    string       // how the strip under way lies, written beside it
}

// Grain is how the grain runs on the faces of the board in hand.
type Grain struct {
	Lines [2][][]geom.Point // drawn by the maker, by face, in its own coordinates
	Read  [2]Along          // how it is taken to run; nil: not shown
	On    bool              // lines are being drawn
	Face  int               // with Line: the line in hand
	Line  int               // -1 none
}

// Along tells how the grain runs at a place of a face, degrees from the length
// anticlockwise, and how sure that is, 0 to 1.
type Along func(p geom.Point) (angle, sure float64)

// Guide is a line that something snapped to.
type Guide struct {
	A, B geom.Point
	Why  string
}

// Roll is a strip of the panel part of the way through being rolled over or
// turned end for end.
type Roll struct {
	Strip string
	Was   face.Strip // as it lay before
	Part  float64    // 0 at the start to 1 at the end
	End   bool       // end for end; otherwise rolled about its long axis
}

// Look is how things are drawn.
type Look struct {
	Theme    Theme
	Text     float64 // size of text, 1 to 2; 0 is 1
	Pixels   float64 // device pixels a unit, for textures; 0 is 1
	Hatch    bool    // zones hatched
	Outlines bool    // zones outlined
	Faces    *render.Faces
	Textures *Textures // nil: flat colours
	// Picture returns the squared photograph of a face, 1 or 2, for drawing at
	// pxPerMM, or a coarser one while that is not there yet; nil where there is
	// none. It is asked while the scene is drawn.
	Picture func(board string, f int, pxPerMM float64) *photo.Squared
	Focus   bool // the surface has the keyboard: a ring is drawn
}

// Words turns numbers into text. What is nil is written in millimetres and
// whole per cent.
type Words struct {
	Len   func(mm float64) string           // with unit
	Short func(mm float64) string           // without unit, for ticks and chalk
	Share func(v float64) string            // 0 to 1, as per cent
	Steps []float64                         // ruler steps in mm, finest first; nil: 1, 2, 5 times powers of ten
	Side  func(b *face.Board, f int) string // such as "bark side"
	Wood  func(species string) string       // what a species is called
	// Number is what is chalked on a strip of a panel, "" for a spare's; nil
	// takes the strip's id.
	Number func(panel, strip string) string
	// Was is the same for the panel before the last change; nil takes Number.
	Was func(panel, strip string) string
	// Before and Now tell what is read of the panel before the last change
	// and of the panel now, where they stand side by side.
	Before, Now string
}
