package unit

import (
	"strconv"
	"strings"
	"unicode"

	"heartside/model/say"
)

// mark is the kind of a token.
type mark int

const (
	end      mark = iota
	number        // digits, perhaps with a decimal point or comma
	fraction      // a single character such as ½
	slash
	dash
	plus
	millimetre
	centimetre
	metre
	inch
	foot
)

// token is a piece of a typed length.
type token struct {
	mark  mark
	value float64 // of a number or fraction
	whole bool    // a number without decimals
	at    int     // its first character, from 1
}

// mmOf is what one of a unit measures, 0 where the mark is no unit.
func (t token) mmOf() float64 {
	switch t.mark {
	case millimetre:
		return 1
	case centimetre:
		return 10
	case metre:
		return 1000
	case inch:
		return InchMM
	case foot:
		return FootMM
	}
	return 0
}

// longest is how many digits a number may have; more is a slip of the hand.
const longest = 15

// scan cuts a text into tokens, an end token last.
func scan(text string) ([]token, *ParseError) {
	rs := []rune(text)
	var out []token
	for i := 0; i < len(rs); {
		t := token{at: i + 1}
		bad := func(what, hint string) ([]token, *ParseError) {
			return nil, &ParseError{text, t.at, what, hint}
		}
		r := rs[i]
		switch {
		case unicode.IsSpace(r):
			i++
			continue
		case r >= '0' && r <= '9', r == '.', r == ',':
			n := 1
			for i+n < len(rs) && (rs[i+n] >= '0' && rs[i+n] <= '9' || rs[i+n] == '.' || rs[i+n] == ',') {
				n++
			}
			what, hint := t.number(string(rs[i : i+n]))
			if what != "" {
				return bad(what, hint)
			}
			i += n
		case unicode.IsLetter(r):
			n := 1
			for i+n < len(rs) && unicode.IsLetter(rs[i+n]) {
				n++
			}
			if t.mark = word(string(rs[i : i+n])); t.mark == end {
				return bad(say.F("%q is no unit of length", string(rs[i:i+n])), hintUnits())
			}
			i += n
			if i < len(rs) && rs[i] == '.' { // "in." and "ft."
				i++
			}
		default:
			n := 1
			t.mark, t.value = symbol(r)
			if t.mark == foot && i+1 < len(rs) {
				if m, _ := symbol(rs[i+1]); m == foot { // two strokes are an inch mark
					t.mark, n = inch, 2
				}
			}
			if t.mark == end {
				return bad(say.F("%q does not belong in a length", r), say.T(`write a length such as 24 mm, 7 3/8" or 1'-2 1/2"`))
			}
			i += n
		}
		out = append(out, t)
	}
	return append(out, token{at: len(rs) + 1}), nil
}

// number reads digits with at most one decimal point or comma.
func (t *token) number(s string) (what, hint string) {
	points := strings.Count(s, ".") + strings.Count(s, ",")
	head, tail, comma := strings.Cut(s, ",")
	switch {
	case points == len(s):
		return say.T("no digits here"), say.T("write a number such as 24 or 2.5")
	case points > 1:
		return say.F("%s has more than one decimal point or comma", s), say.T("write thousands without a mark between them: 1200.5")
	case comma && len(tail) == 3 && strings.Trim(head, "0") != "":
		return say.F("%s may mean %s or %s", s, head+tail, head+"."+tail), say.T("write it without the comma")
	case len(s)-points > longest:
		return say.T("the number has too many digits"), say.T("round it")
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil {
		return say.F("%s is no number", s), say.T("write a number such as 24 or 2.5")
	}
	t.mark, t.value, t.whole = number, v, points == 0
	return "", ""
}

func word(s string) mark {
	switch strings.ToLower(s) {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return millimetre
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return centimetre
	case "m", "metre", "metres", "meter", "meters":
		return metre
	case "in", "inch", "inches":
		return inch
	case "ft", "foot", "feet":
		return foot
	}
	return end
}

func symbol(r rune) (mark, float64) {
	switch r {
	case '/', '⁄', '∕':
		return slash, 0
	case '-', '‐', '‑', '–', '−':
		return dash, 0
	case '+':
		return plus, 0
	case '\'', '′', '’', '‘':
		return foot, 0
	case '"', '″', '”', '“':
		return inch, 0
	}
	parts := map[rune][2]float64{
		'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
		'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
		'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
	}
	if f, ok := parts[r]; ok {
		return fraction, f[0] / f[1]
	}
	return end, 0
}
