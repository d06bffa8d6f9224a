package sheet

import (
	"fmt"
	"strings"
)

// Pages chooses what a sheet holds. The zero value holds everything.
type Pages struct {
	Panel   bool // a page for every panel
	Boards  bool // a page for every board
	Fit     bool // glue-up and fit of every panel
	Sources bool // where the numbers come from
}

// pageWords are the kinds of pages by the words that choose them.
var pageWords = [...]string{"panel", "boards", "fit", "sources"}

func (p *Pages) of(word string) *bool {
	switch word {
	case "panel":
		return &p.Panel
	case "boards":
		return &p.Boards
	case "fit":
		return &p.Fit
	case "sources":
		return &p.Sources
	}
	return nil
}

// ParsePages reads words such as "panel,boards", in any case; "" is
// everything.
func ParsePages(s string) (Pages, error) {
	var out Pages
	for _, word := range strings.Split(s, ",") {
		word = strings.ToLower(strings.TrimSpace(word))
		if word == "" {
			continue
		}
		at := out.of(word)
		if at == nil {
			return Pages{}, fmt.Errorf("pages %q are not known: use %s", word, strings.Join(pageWords[:], ", "))
		}
		*at = true
	}
	return out.all(), nil
}

// all fills in everything where nothing was chosen.
func (p Pages) all() Pages {
	if p == (Pages{}) {
		return Pages{true, true, true, true}
	}
	return p
}
