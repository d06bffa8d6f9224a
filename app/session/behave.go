package session

import (
	"heartside/layout/colour"
	"heartside/layout/wood/moisture"
	"heartside/model"
)

// Behaviour is how the wood of a panel will behave, in figures and in words.
// It is made anew on every call and holds for the project as it is then.
type Behaviour struct {
	Panel    *model.Panel
	Air      Section // what the wood meets
	Sections []Section
}

// Section is one matter of a panel's behaviour in words.
type Section struct {
	ID     string // "air", "width", "fit", "joined", "cup", "planing", "ageing", "stack", "flatten"
	Title  string
	Lead   string // what it comes to, in a sentence
	Rows   []Row
	Notes  []string // what to know and to do
	How    moisture.Working
	Tones  []Tones
	EndOn  bool // the end view belongs here
	Strong bool // something is wrong or will be
}

// Row is a line of figures of a section.
type Row struct {
	Name   string
	Values []string
	Head   bool // Values head the columns below
	Quiet  bool
}

// Tones are a colour now, after one year and after ten.
type Tones struct {
	Name  string
	Basis string // what they rest on
	Sap   bool   // sapwood, bare or dyed
	At    [3]colour.Lab
}

// Behaviour works out how the wood of a panel will behave; nil where there is
// no such panel.
func (s *Session) Behaviour(panel string) *Behaviour {
	b := s.behaving(panel)
	if b == nil {
		return nil
	}
	out := &Behaviour{Panel: b.n, Air: b.airSection()}
	for _, make := range []func() (Section, bool){b.widthSection, b.fitSection, b.joinSection, b.cupSection, b.planeSection, b.agesSection, b.dyeSection, b.stackSection, b.flatSection} {
		if sec, ok := make(); ok {
			out.Sections = append(out.Sections, sec)
		}
	}
	return out
}
