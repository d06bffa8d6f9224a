package model

import (
	"slices"

	"heartside/model/say"
)

// Part is solid parts of one kind that take their wood from the same boards
// as the panels: four legs, a rail, the breadboard ends of a top.
type Part struct {
	ID        string // none that a panel has
	Kind      PartKind
	Count     int // how many are made
	Length    float64
	Width     float64
	Thickness float64     // finished; may be more than the board's where the part is laminated
	Wanted    Wanted      // "" = what its boards want
	Places    []PartPlace // where they are cut; fewer or more than Count while planned or laminated
}

// PartKind is what a part is.
type PartKind string

// Kinds of parts; "" is other.
const (
	Leg           PartKind = "leg"
	Rail          PartKind = "rail"
	BreadboardEnd PartKind = "breadboard-end"
	OtherPart     PartKind = "other"
	TestPiece     PartKind = "test-piece" // for trying a finish: it is in no furniture
)

// Noun is the kind within a sentence, in the language in use.
func (k PartKind) Noun() string {
	switch k {
	case Leg:
		return say.T("leg")
	case Rail:
		return say.T("rail")
	case BreadboardEnd:
		return say.T("breadboard end")
	case TestPiece:
		return say.T("test piece")
	}
	return say.T("part")
}

// PartPlace is a cutting for a part: a rectangle on a board in face-1
// coordinates, its corner at (X, Y), turned by Angle degrees. L and W are, like
// a strip's, those of the piece once it is jointed.
type PartPlace struct {
	Board string
	X, Y  float64
	L, W  float64
	Angle float64
	Stage Stage
}

// mostParts bounds the count of a part; more than any one job holds.
const mostParts = 1000

// NewPart returns a part of a finished size in mm that is not laid on boards
// yet.
func NewPart(id string, kind PartKind, count int, length, width, thickness float64) Part {
	return Part{ID: id, Kind: kind, Count: count, Length: length, Width: width, Thickness: thickness}
}

// Part returns the part with the id and whether there is one. Its list of
// places is not to be changed.
func (p *Project) Part(id string) (Part, bool) {
	if i := p.partIndex(id); i >= 0 {
		return p.Parts[i], true
	}
	return Part{}, false
}

// Cut reports whether the cutting has been sawn out of its board.
func (c PartPlace) Cut() bool { return c.Stage.cut() }

func (p *Project) partIndex(id string) int {
	return slices.IndexFunc(p.Parts, func(n Part) bool { return n.ID == id })
}

func clonePart(n Part) Part {
	if n.Kind == "" {
		n.Kind = OtherPart
	}
	n.Places = clonePlaces(n.Places)
	return n
}

func clonePlaces(list []PartPlace) []PartPlace {
	out := cloneSlice(list)
	for i := range out {
		if out[i].Stage == "" {
			out[i].Stage = Planned
		}
	}
	return out
}

func (c *checker) parts(p *Project, panels map[string]bool) {
	seen := map[string]bool{}
	for i := range p.Parts {
		n := &p.Parts[i]
		at := RuleError{Part: n.ID}
		c.id(at, n.ID)
		switch {
		case seen[n.ID]:
			at.Rule, at.Detail = RuleDuplicateID, say.T("two parts have this id")
			c.fail(at)
		case panels[n.ID]:
			at.Rule, at.Detail = RuleDuplicateID, say.T("a panel has this id")
			c.fail(at)
		}
		seen[n.ID] = true
		c.part(n)
	}
}

func (c *checker) part(n *Part) {
	at := RuleError{Part: n.ID}
	c.word(at, "kind", string(n.Kind), "", string(Leg), string(Rail), string(BreadboardEnd), string(OtherPart), string(TestPiece))
	if n.Count < 1 || n.Count > mostParts {
		c.fail(RuleError{Rule: RuleCount, Part: n.ID, Where: "count", Detail: say.F("%d of them cannot be made", n.Count)})
	}
	c.size(at, "length", n.Length)
	c.size(at, "width", n.Width)
	c.size(at, "thickness", n.Thickness)
	c.word(at, "wanted", string(n.Wanted), "", string(WantHeart), string(WantSap), string(WantBoth))
	for i, k := range n.Places {
		c.place(RuleError{Part: n.ID, Board: k.Board, Where: cutting(i)}, k)
	}
}

// cutting names a cutting of a part, counted from 1.
func cutting(i int) string { return say.F("cutting %d", i+1) }

func (c *checker) place(at RuleError, k PartPlace) {
	fail := func(r Rule, where, detail string) {
		e := at
		e.Rule, e.Where, e.Detail = r, joinWhere(at.Where, where), detail
		c.fail(e)
	}
	switch {
	case k.Board == "":
		fail(RuleMissing, "board", say.T("it does not say from which board; give the board, or take the cutting away"))
	case c.boards[k.Board] == nil:
		fail(RuleUnknownBoard, "board", say.T("it is to come from a board that does not exist"))
	}
	c.size(at, "length", k.L)
	c.size(at, "width", k.W)
	if !within(k.X, -maxSize, maxSize) || !within(k.Y, -maxSize, maxSize) {
		fail(RulePlace, "x", say.F("it lies at (%g, %g)", k.X, k.Y))
	}
	if !(k.Angle > -90 && k.Angle <= 90) {
		fail(RuleAngle, "angle", say.F("an angle of %g degrees cannot be", k.Angle))
	}
	c.word(at, joinWhere(at.Where, "stage"), string(k.Stage), "", string(Planned), string(Sawn), string(Planed), string(Jointed), string(Glued))
}
