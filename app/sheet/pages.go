package sheet

import (
	"strings"

	"heartside/model/say"
)

// Kind is what a page is for.
type Kind string

// The kinds of pages, by the words that choose them.
const (
	KindPanel   Kind = "panel"   // how the strips of a panel lie
	KindBoards  Kind = "boards"  // what is cut from a board
	KindFit     Kind = "fit"     // gluing up and building in
	KindLabels  Kind = "labels"  // to cut out, for the ends of strips and boards
	KindClient  Kind = "client"  // what a client sees and signs
	KindYard    Kind = "yard"    // a tally to fill in where boards are bought
	KindJoints  Kind = "joints"  // strips of full size along the joints
	KindRecord  Kind = "record"  // which board and face went where, and the finish
	KindSources Kind = "sources" // where the numbers come from
)

// Kinds returns the kinds of pages in the order they are named.
func Kinds() []Kind {
	return []Kind{KindPanel, KindBoards, KindFit, KindLabels, KindClient, KindYard, KindJoints, KindRecord, KindSources}
}

// Pages chooses what a sheet holds. The zero value is the sheet for the bench:
// panels, boards, glue-up and fit, sources.
type Pages struct {
	Panel   bool // a page for every panel
	Boards  bool // a page for every board
	Fit     bool // glue-up and fit of every panel
	Sources bool // where the numbers come from
	Labels  bool // for ends, to cut out
	Client  bool // a page for a client for every panel
	Yard    bool // a tally for the yard
	Joints  bool // the joints in full size
	Record  bool // which board and face went where, and the finish
}

// Of returns where the choice of a kind is kept, nil for an unknown one.
func (p *Pages) Of(k Kind) *bool {
	switch k {
	case KindPanel:
		return &p.Panel
	case KindBoards:
		return &p.Boards
	case KindFit:
		return &p.Fit
	case KindSources:
		return &p.Sources
	case KindLabels:
		return &p.Labels
	case KindClient:
		return &p.Client
	case KindYard:
		return &p.Yard
	case KindJoints:
		return &p.Joints
	case KindRecord:
		return &p.Record
	}
	return nil
}

// ParsePages reads words such as "panel,boards", in any case; "" is the sheet
// for the bench, "all" everything there is.
func ParsePages(s string) (Pages, error) {
	var out Pages
	for _, word := range strings.Split(s, ",") {
		word = strings.ToLower(strings.TrimSpace(word))
		if word == "" {
			continue
		}
		if word == "all" {
			for _, k := range Kinds() {
				*out.Of(k) = true
			}
			continue
		}
		at := out.Of(Kind(word))
		if at == nil {
			return Pages{}, say.Errorf("pages %q are not known: use all or %s", word, kindWords())
		}
		*at = true
	}
	return out.all(), nil
}

func kindWords() string {
	var list []string
	for _, k := range Kinds() {
		list = append(list, string(k))
	}
	return strings.Join(list, ", ")
}

// all fills in the sheet for the bench where nothing was chosen.
func (p Pages) all() Pages {
	if p == (Pages{}) {
		return Pages{Panel: true, Boards: true, Fit: true, Sources: true}
	}
	return p
}
