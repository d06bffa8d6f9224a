package file

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"heartside/layout/geom"
)

// wrapAt is where lists of points go on in the next line.
const wrapAt = 110

// emitter writes YAML as one would by hand. With exact set, numbers keep all
// their digits.
type emitter struct {
	b     strings.Builder
	exact bool
	in    int // how far everything is indented
}

func (e *emitter) line(indent int, format string, args ...any) {
	e.b.WriteString(strings.Repeat(" ", e.in+indent))
	fmt.Fprintf(&e.b, format, args...)
	e.b.WriteByte('\n')
}

// fixed writes v to so many decimals at most, without trailing zeros.
func (e *emitter) fixed(v float64, decimals int) string {
	if e.exact {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// mm writes a length to 0.001 mm; pixels, per cent and degrees C likewise.
func (e *emitter) mm(v float64) string { return e.fixed(v, 3) }

// fine writes shares, angles and money to six decimals.
func (e *emitter) fine(v float64) string { return e.fixed(v, 6) }

func (e *emitter) mms(list ...float64) string {
	s := make([]string, len(list))
	for i, v := range list {
		s[i] = e.mm(v)
	}
	return "[" + strings.Join(s, ", ") + "]"
}

// points writes a polygon in flow style. Where it grows long it goes on in
// lines indented by indent; column is where it begins.
func (e *emitter) points(p []geom.Point, indent, column int) string {
	var b strings.Builder
	b.WriteByte('[')
	indent, column = e.in+indent, e.in+column
	for i, q := range p {
		s := e.mms(q.X, q.Y)
		if i > 0 {
			b.WriteByte(',')
			if column += len(s) + 2; column > wrapAt {
				b.WriteString("\n" + strings.Repeat(" ", indent))
				column = indent + len(s)
			} else {
				b.WriteByte(' ')
			}
		}
		b.WriteString(s)
	}
	b.WriteByte(']')
	return b.String()
}

var (
	bareWord = regexp.MustCompile(`^[\p{L}\p{N}_](?:[\p{L}\p{N}_./()+-]| [\p{L}\p{N}_./()+-])*$`)
	special  = map[string]bool{"null": true, "true": true, "false": true, "yes": true, "no": true, "on": true, "off": true, "y": true, "n": true}
)

// word writes a string, in quotation marks where it needs them.
func word(s string) string {
	if bareWord.MatchString(s) && !special[strings.ToLower(s)] && printable(s) && len(s) < 200 {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case unicode.IsPrint(r):
			b.WriteRune(r)
		case r < 0x100:
			fmt.Fprintf(&b, `\x%02x`, r)
		case r < 0x10000:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			fmt.Fprintf(&b, `\U%08x`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func printable(s string) bool {
	for _, r := range s {
		if !unicode.IsPrint(r) {
			return false
		}
	}
	return true
}

// flow writes pairs of key and value as {a: b, c: d}.
func flow(pairs ...string) string {
	var b strings.Builder
	b.WriteByte('{')
	for i := 0; i+1 < len(pairs); i += 2 {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(pairs[i] + ": " + pairs[i+1])
	}
	b.WriteByte('}')
	return b.String()
}

func isZero(v ...float64) bool {
	for _, x := range v {
		if x != 0 && !math.IsNaN(x) {
			return false
		}
	}
	return true
}
