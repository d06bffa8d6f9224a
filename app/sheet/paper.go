package sheet

import (
	"fmt"
	"strings"
)

// Paper is a size of paper.
type Paper string

// The papers there are.
const (
	A4     Paper = "a4"
	Letter Paper = "letter"
)

// ParsePaper reads a paper's name, in any case; "" is A4.
func ParsePaper(s string) (Paper, error) {
	switch p := Paper(strings.ToLower(strings.TrimSpace(s))); p {
	case "":
		return A4, nil
	case A4, Letter:
		return p, nil
	}
	return "", fmt.Errorf("paper %q is not known: use a4 or letter", s)
}

// size returns width and height in mm, lying or standing. A4 is ISO 216,
// letter 8 1/2 by 11 inches.
func (p Paper) size(lying bool) (w, h float64) {
	w, h = 210, 297
	if p == Letter {
		w, h = 215.9, 279.4
	}
	if lying {
		return h, w
	}
	return w, h
}

// margin is left free round every page, mm: what common printers cannot reach
// and a thumb's hold.
const margin = 10
