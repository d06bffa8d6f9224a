package catalog

import "heartside/model/say"

// Flag says how a value was obtained.
type Flag string

// The flags of the table.
const (
	NoFlag    Flag = ""  // no value
	Read      Flag = "R" // read in the publication itself
	Secondary Flag = "S" // read in a text that quotes or reprints it
	Computed  Flag = "C" // computed from other values
	Memory    Flag = "M" // from memory
)

// Text returns the flag in words for the screen and for paper.
func (f Flag) Text() string {
	switch f {
	case Read:
		return say.T("read in the named publication")
	case Secondary:
		return say.T("read in a text that quotes the named publication")
	case Computed:
		return say.T("computed from other values")
	case Memory:
		return say.T("from memory: not confirmed")
	}
	return say.T("not known")
}

// Value is a number of the table. Where OK is false the table has none and
// Value is 0.
type Value struct {
	Value  float64
	OK     bool
	Flag   Flag
	Source string // id of the Source
}

// Text says where the value comes from: publication, place, and how it was
// obtained.
func (v Value) Text() string {
	if !v.OK {
		return Flag("").Text()
	}
	s := SourceOf(v.Source)
	return s.Title + ", " + s.Where + "; " + v.Flag.Text()
}

// Source is a publication, or a computation, that values come from.
type Source struct {
	ID      string   `yaml:"id"`
	Title   string   `yaml:"title"`
	Where   string   `yaml:"where"`   // table or formula
	Columns []string `yaml:"columns"` // headings of species.csv
	About   string   `yaml:"about"`
}
