package sheet

import (
	"fmt"

	"heartside/app/session"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/model/say"
)

// nickOf is how many nicks tell a strip from those like it.
type nickOf map[*face.Strip]int

// allPlaces are the strips of the sheet that lie on a board: panels in their
// order, then spares.
func (in *Input) allPlaces() []place {
	var out []place
	for _, b := range in.Boards {
		out = append(out, in.placesOn(b.ID)...)
	}
	return out
}

// findNicks gives the strips of each set different numbers, from 1.
func (b *builder) findNicks() {
	b.alike = findAlike(stripsOf(b.in.allPlaces()))
	b.nicks = nickOf{}
	for _, a := range b.alike {
		for i, p := range a.parts {
			if b.nickable(p) {
				b.nicks[p.strip] = i + 1
			}
		}
	}
}

// nickable reports whether a strip's blank has waste at its marked end to saw
// nicks into. One cut out of a row has none there.
func (b *builder) nickable(p place) bool {
	return -cutting.BlankRect(p.strip, session.AllowancesOf(b.in.Project.Allowances)).Min.X >= nickRoom
}

// nickText writes a number of nicks: a long one counts five.
func nickText(n int) string {
	switch {
	case n == 0:
		return "–"
	case n < 5:
		return fmt.Sprint(n)
	case n%5 == 0:
		return say.F("%d long", n/5)
	}
	return say.F("%d long + %d", n/5, n%5)
}

// alikeText says which strips of a panel cannot be told apart from others of
// the sheet, or look the same another way round.
func (b *builder) alikeText(panel string) []paragraph {
	var out []paragraph
	var alone []string
	var all []place
	add := func(s string) { out = append(out, paragraph{text: s, bullet: "–"}) }
	for _, a := range b.alike {
		mine := false
		var names []string
		for _, p := range a.parts {
			mine = mine || p.panel != nil && p.panel.ID == panel
			names = append(names, p.label)
		}
		if mine {
			all = append(all, a.parts...)
		}
		switch {
		case !mine:
		case len(names) == 1:
			alone = append(alone, names[0])
		default:
			add(say.F("%s cannot be told apart within %s by width, sapwood and knots, whichever way they lie.", say.List(names), b.say.len(tellApart)))
		}
	}
	if len(alone) > 0 {
		add(say.F("%s: widths, sapwood and knots do not tell which way round.", say.List(alone)))
	}
	if len(out) == 0 {
		return nil
	}
	add(b.nickOrder(all))
	return append([]paragraph{{text: say.T("Cannot be told apart by rule"), bold: true, before: 1.6}}, out...)
}

// nickedText says on a board's page which of its strips need nicks.
func (b *builder) nickedText(parts []place) string {
	var names []string
	var all []place
	for _, p := range parts {
		for _, a := range b.alike {
			for _, q := range a.parts {
				if q.strip == p.strip {
					names, all = append(names, p.label), append(all, p)
				}
			}
		}
	}
	if len(names) == 0 {
		return ""
	}
	return say.F("A rule cannot tell %s from others or which way round. %s", say.List(names), b.nickOrder(all))
}

// nickOrder says how strips that look alike are marked.
func (b *builder) nickOrder(parts []place) string {
	var bare []string
	for _, p := range parts {
		if !b.nickable(p) {
			bare = append(bare, p.label)
		}
	}
	if len(bare) == len(parts) {
		return say.T("The blanks have no waste at the ends to saw nicks into: write number and front edge on the end grain of the marked end before planing.")
	}
	order := say.T("Before planing saw nicks through the thickness into the waste of the marked end, in the half next the front edge, as many as the table says; a long one counts five.")
	switch len(bare) {
	case 0:
	case 1:
		order += say.F(" %s has no waste there: write number and front edge on its end grain.", bare[0])
	default:
		order += say.F(" %s have no waste there: write number and front edge on their end grain.", say.List(bare))
	}
	return order
}

// nickRoom is the least waste at an end to saw nicks into, mm.
const nickRoom = 8
