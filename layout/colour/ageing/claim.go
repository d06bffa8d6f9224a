package ageing

// Flag says how a statement was obtained.
type Flag string

// The flags. The letters are those of the other tables.
const (
	NoFlag       Flag = ""             // nothing was stated
	Read         Flag = "R"            // read in the publication, or in its abstract
	Secondary    Flag = "S"            // read in trade texts
	Memory       Flag = "M"            // from memory
	Practice     Flag = "practice"     // common practice, no source
	Illustration Flag = "illustration" // chosen for drawing
)

// Known reports whether f is one of the flags that stand for a statement.
func (f Flag) Known() bool {
	switch f {
	case Read, Secondary, Memory, Practice, Illustration:
		return true
	}
	return false
}

// Text returns the flag in words for the screen and for paper.
func (f Flag) Text() string {
	switch f {
	case Read:
		return "read in the named publication"
	case Secondary:
		return "trade experience, no measured change"
	case Memory:
		return "from memory: not confirmed"
	case Practice:
		return "common practice, no source"
	case Illustration:
		return "illustration, not measured"
	}
	return NoData
}

// NoData is said wherever nothing is known.
const NoData = "no measured data"

// Claim is a statement with where it comes from.
type Claim struct {
	Text   string
	Flag   Flag
	Source string // id of the source in the tables; "" for none
	Cited  string // the source in words
	Kin    bool   // found on a near relative, not on this wood
}

// Line returns the statement with its source and flag, for "how is this worked
// out".
func (c Claim) Line() string {
	s := c.Text
	if c.Flag == NoFlag {
		return s
	}
	if c.Kin {
		s += " (a near relative of this wood)"
	}
	if c.Cited != "" {
		s += " - " + c.Cited
	}
	return s + "; " + c.Flag.Text()
}

// Turn is one way in which a colour goes with the years.
type Turn string

// The turns, with what they mean in CIELAB.
const (
	Darkens  Turn = "darkens"  // L falls
	Lightens Turn = "lightens" // L rises
	Reddens  Turn = "reddens"  // a rises
	Yellows  Turn = "yellows"  // b rises
	Dulls    Turn = "dulls"    // the colour grows weaker: a, b nearer to grey
	Stays    Turn = "stays"    // less than what the eye calls another colour
)

// Known reports whether t is one of the turns.
func (t Turn) Known() bool {
	switch t {
	case Darkens, Lightens, Reddens, Yellows, Dulls, Stays:
		return true
	}
	return false
}
