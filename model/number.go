package model

import (
	"slices"
	"strconv"
	"strings"

	"heartside/model/say"
)

// StripNumber returns the number that is chalked on a strip and printed:
// board letter and count. It is the strip's Mark where it has one. Else a strip whose id begins with its board's letter has
// its id as number; one whose id is a plain number has the letter before it;
// any other, or one whose number is taken, gets the next free count. It does
// not depend on the order of strips in their panel. An empty place has its id.
// panel "" looks among the spares.
func StripNumber(p *Project, panel, strip string) string {
	var s Strip
	if n := p.Panel(panel); n != nil {
		s, _ = n.Strip(strip)
	} else if panel == "" {
		s, _ = findStrip(p.Spares, strip)
	}
	if s.Board == "" {
		return strip
	}
	for _, k := range numbersOf(p, s.Board) {
		if k.panel == panel && k.id == strip {
			return k.number
		}
	}
	return strip
}

type numbered struct{ panel, id, mark, number string }

// numbersOf numbers the strips of one board.
func numbersOf(p *Project, board string) []numbered {
	var out []numbered
	add := func(panel string, list []Strip) {
		from := len(out)
		for i := range list {
			if list[i].Board == board {
				out = append(out, numbered{panel: panel, id: list[i].ID, mark: list[i].Mark})
			}
		}
		slices.SortFunc(out[from:], func(a, b numbered) int { return compareIDs(a.id, b.id) })
	}
	for _, n := range p.Panels {
		add(n.ID, n.Strips)
	}
	add("", p.Spares)
	taken := map[string]bool{}
	for i := range out {
		if m := out[i].mark; m != "" && !taken[m] && ownNumber(board, m) {
			out[i].number, taken[m] = m, true
		}
	}
	for i := range out {
		if out[i].number == "" && ownNumber(board, out[i].id) {
			out[i].number = out[i].id
			taken[out[i].id] = true
		}
	}
	for i := range out {
		if out[i].number != "" || !digits(out[i].id) {
			continue
		}
		if c := joinNumber(board, out[i].id); !taken[c] {
			out[i].number = c
			taken[c] = true
		}
	}
	for i := range out {
		for k := 1; out[i].number == ""; k++ {
			if c := joinNumber(board, strconv.Itoa(k)); !taken[c] {
				out[i].number = c
				taken[c] = true
			}
		}
	}
	return out
}

// ownNumber reports whether an id is a board's letter with more behind it
// that is not the rest of another word.
func ownNumber(board, id string) bool {
	rest, ok := strings.CutPrefix(id, board)
	return ok && rest != "" && digits(strings.TrimLeft(rest, "-._ "))
}

// joinNumber keeps letter and count apart where the letter ends in a digit.
func joinNumber(board, count string) string {
	if digits(board[len(board)-1:]) {
		return board + "-" + count
	}
	return board + count
}

func digits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}

// compareIDs puts shorter ids first, so that 9 comes before 10.
func compareIDs(a, b string) int {
	if len(a) != len(b) {
		return len(a) - len(b)
	}
	return strings.Compare(a, b)
}

// sameNumbers finds strips that would carry one chalk number.
func sameNumbers(p *Project) []RuleError {
	var out []RuleError
	for _, b := range p.Boards {
		seen := map[string]string{}
		for _, k := range numbersOf(p, b.ID) {
			if where, twice := seen[k.number]; twice {
				out = append(out, RuleError{Rule: RuleSameNumber, Board: b.ID, Panel: k.panel, Strip: k.id,
					Detail: say.F("the number %s is also that of a strip %s", k.number, where)})
				continue
			}
			seen[k.number] = say.T("among the spares")
			if k.panel != "" {
				seen[k.number] = say.F("of panel %s", k.panel)
			}
		}
	}
	return out
}
