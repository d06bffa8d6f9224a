package moisture

// Flag says how a number was obtained.
type Flag string

// Flags. The first four are those of the tables of woods.
const (
	NoFlag    Flag = ""
	Read      Flag = "R" // read in the publication itself
	Secondary Flag = "S" // read in a text that quotes or reprints it
	Derived   Flag = "C" // worked out here and checked by numbers
	Memory    Flag = "M" // from memory
	Choice    Flag = "E" // engineering choice
	Practice  Flag = "P" // common practice
	Given     Flag = "G" // entered by the maker, or measured
)

// Text returns the flag in words for the screen and for paper.
func (f Flag) Text() string {
	switch f {
	case Read:
		return "read in the source"
	case Secondary:
		return "quoted by another text"
	case Derived:
		return "worked out and checked by numbers"
	case Memory:
		return "from memory, not confirmed"
	case Choice:
		return "engineering choice, no published source"
	case Practice:
		return "common practice, no source"
	case Given:
		return "as entered"
	}
	return "no source"
}

// Value is a named number in a step.
type Value struct {
	Name   string
	Number float64
	Unit   string // "mm", "%", "deg", "C", "1/%", "kg", "MPa" or ""
}

// Step is one line of a calculation.
type Step struct {
	Formula string // in plain signs, or what is done in words
	Values  []Value
	Source  string
	Flag    Flag
}

// Working is how a result was worked out, step by step.
type Working []Step
