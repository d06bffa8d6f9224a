package sheet

import (
	"strings"

	"heartside/model/say"
)

// Paper is a size of paper.
type Paper string

// The papers there are.
const (
	A4      Paper = "a4"
	Letter  Paper = "letter"
	A3      Paper = "a3"
	Tabloid Paper = "tabloid"
)

// Papers returns the papers there are.
func Papers() []Paper { return []Paper{A4, Letter, A3, Tabloid} }

// Name is the paper's name as it is said.
func (p Paper) Name() string {
	switch p {
	case Letter, Tabloid:
		return strings.ToUpper(string(p[:1])) + string(p[1:])
	}
	return strings.ToUpper(string(p))
}

// ParsePaper reads a paper's name, in any case; "" is A4.
func ParsePaper(s string) (Paper, error) {
	p := Paper(strings.ToLower(strings.TrimSpace(s)))
	if p == "" {
		return A4, nil
	}
	for _, known := range Papers() {
		if p == known {
			return p, nil
		}
	}
	return "", say.Errorf("paper %q is not known: use a4, letter, a3 or tabloid", s)
}

// size returns width and height in mm, lying or standing. A4 and A3 are ISO
// 216; letter is 8 1/2 by 11 inches, tabloid 11 by 17.
func (p Paper) size(lying bool) (w, h float64) {
	switch p {
	case Letter:
		w, h = 215.9, 279.4
	case A3:
		w, h = 297, 420
	case Tabloid:
		w, h = 279.4, 431.8
	default:
		w, h = 210, 297
	}
	if lying {
		return h, w
	}
	return w, h
}

// margin is left free round every page, mm: what common printers cannot reach
// and a thumb's hold.
const margin = 10
