package render

import (
	"fmt"
	"strings"
	"unicode"
)

// Printable returns s as the style can write it, in the order it is drawn from
// the left: white space becomes a plain space, control characters vanish,
// scripts that run to the left are put in order and joined, and a character
// the typeface lacks stands as its number between marks, such as ‹6728›, so
// that two words never look alike. Every backend writes text this way.
func (f *Faces) Printable(s string, st Style) string {
	c := st.cut()
	clean := true
	for _, r := range s {
		if r < ' ' || r == 0x7F || r >= firstRightToLeft || !f.has(c, r) || (unicode.IsSpace(r) && r != ' ') {
			clean = false
			break
		}
	}
	if clean {
		return s
	}
	rs := make([]rune, 0, len(s))
	for _, r := range s {
		switch {
		case unicode.IsSpace(r):
			rs = append(rs, ' ')
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r):
		default:
			rs = append(rs, r)
		}
	}
	var b strings.Builder
	for _, r := range visual(joined(rs, func(r rune) bool { return f.has(c, r) })) {
		if f.has(c, r) {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "‹%X›", r)
		}
	}
	return b.String()
}

// Lacks reports whether some character of s is drawn as its number, in some
// cut of the typeface.
func (f *Faces) Lacks(s string) bool {
	for _, r := range s {
		if unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			continue
		}
		for c := range cuts {
			if !f.has(c, r) {
				return true
			}
		}
	}
	return false
}

// firstRightToLeft is the first letter of a script that runs to the left.
const firstRightToLeft = 0x0590

// way is which way a character runs.
type way uint8

const (
	neutral way = iota
	rightwards
	leftwards
	digit
	mark // takes the way of the letter before it
)

func wayOf(r rune) way {
	switch {
	case unicode.Is(unicode.Mn, r):
		return mark
	case r >= firstRightToLeft && unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko) && unicode.IsLetter(r):
		return leftwards
	case unicode.IsDigit(r):
		return digit
	case unicode.IsLetter(r):
		return rightwards
	}
	return neutral
}

// visual puts a line in the order it is drawn. It follows the Unicode
// bidirectional algorithm (UAX 9) as far as lines without embedding need: the
// line runs as its first letter does, numbers run to the right, and what lies
// between letters that run alike runs with them.
func visual(rs []rune) []rune {
	ways := make([]way, len(rs))
	base, any := neutral, false
	for i, r := range rs {
		ways[i] = wayOf(r)
		if ways[i] == mark && i > 0 {
			ways[i] = ways[i-1]
		}
		if base == neutral && (ways[i] == rightwards || ways[i] == leftwards) {
			base = ways[i]
		}
		any = any || ways[i] == leftwards
	}
	if !any {
		return rs
	}
	level := levels(ways, base == leftwards)
	out := append([]rune(nil), rs...)
	for l := uint8(2); l >= 1; l-- {
		for i := 0; i < len(out); {
			k := i
			for k < len(out) && level[k] >= l {
				k++
			}
			reverse(out[i:k])
			i = max(k, i+1)
		}
	}
	for i, r := range out { // brackets open the other way
		if level[i] == 1 {
			out[i] = mirrored(r)
		}
	}
	return out
}

// levels are how deep each character lies: 0 runs to the right, 1 to the left,
// 2 to the right within that.
func levels(ways []way, left bool) []uint8 {
	level := make([]uint8, len(ways))
	base := rightwards
	if left {
		base = leftwards
	}
	strong := func(i, step int) way {
		for ; i >= 0 && i < len(ways); i += step {
			if ways[i] == rightwards || ways[i] == leftwards {
				return ways[i]
			}
			if ways[i] == digit && step > 0 {
				return leftwards // a number counts as part of what runs to the left
			}
		}
		return base
	}
	for i, w := range ways {
		before := strong(i-1, -1)
		switch w {
		case leftwards:
			level[i] = 1
		case rightwards:
			if left {
				level[i] = 2
			}
		case digit:
			if before == leftwards || left {
				level[i] = 2
			}
		default:
			if left || before == leftwards && strong(i+1, 1) == leftwards {
				level[i] = 1
			}
			if left && before == rightwards && strong(i+1, 1) == rightwards {
				level[i] = 2
			}
			if i > 0 && i+1 < len(ways) && ways[i-1] == digit && ways[i+1] == digit {
				level[i] = level[i-1] // a decimal sign stays in its number
			}
		}
	}
	return level
}

func reverse(rs []rune) {
	for i, k := 0, len(rs)-1; i < k; i, k = i+1, k-1 {
		rs[i], rs[k] = rs[k], rs[i]
	}
}

func mirrored(r rune) rune {
	const pairs = "()[]{}<>«»‹›"
	rs := []rune(pairs)
	for i, p := range rs {
		if p == r {
			return rs[i^1]
		}
	}
	return r
}
