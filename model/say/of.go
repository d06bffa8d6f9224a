package say

import (
	"regexp"
	"sort"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// Of puts a text that the computations gave into the language in use. They know of
// no language: the text is looked for among those with a translation, whole or by
// the format it was made with. What is not found is said as it stands.
func Of(text string) string {
	m := texts.Load()
	if m == nil || text == "" {
		return text
	}
	if t, ok := m.said[text]; ok {
		return t
	}
	if t := m.formed(text, 3); t != text {
		return t
	}
	// Sentences that were put together, one by one.
	first, rest, more := strings.Cut(text, ". ")
	if !more {
		return text
	}
	if t, ok := m.said[" "+rest]; ok {
		return Of(first+".") + t
	}
	return Of(first+".") + " " + Of(rest)
}

// Err is what an error says, in the language in use.
func Err(err error) string { return Of(err.Error()) }

// heard is an error from elsewhere.
type heard struct{ error }

func (h heard) Error() string { return Of(h.error.Error()) }
func (h heard) Unwrap() error { return h.error }

// language is what is said in a language.
type language struct {
	code    string
	said    map[string]string
	once    sync.Once
	formats []format // the most telling first
}

// format is a text with places for values.
type format struct {
	text       string
	telling    int    // letters that are no value
	head, tail string // before the first value and behind the last: looked at first
	match      *regexp.Regexp
}

var verb = regexp.MustCompile(`%(\[(\d+)\])?[-+# 0]*\d*(\.\d+)?([a-zA-Z%])`)

// number is a value that is no part of a name.
var number = regexp.MustCompile(`^[-+]?\d+\.\d+(e[-+]?\d+)?$`)

// least is how many letters a format must have besides its values: shorter ones
// fit too much.
const least = 8

// forms gathers the formats of a language once something asks for them.
func (l *language) forms() []format {
	l.once.Do(func() {
		for text := range l.said {
			places := verb.FindAllStringSubmatchIndex(text, -1)
			if len(places) == 0 {
				continue
			}
			f := format{text: text, head: text[:places[0][0]], tail: text[places[len(places)-1][1]:]}
			pattern, from := "^", 0
			plain := func(s string) {
				for _, r := range s {
					if unicode.IsLetter(r) {
						f.telling++
					}
				}
				pattern += regexp.QuoteMeta(s)
			}
			for _, p := range places {
				plain(text[from:p[0]])
				from = p[1]
				switch text[p[8]] {
				case '%':
					pattern += "%"
				case 'd':
					pattern += `([-+]?\d+)`
				case 'g', 'f', 'e':
					pattern += `([-+]?(?:[\d.]+(?:e[-+]?\d+)?|Inf)|NaN)`
				default:
					pattern += `(.*?)`
				}
			}
			plain(text[from:])
			if f.telling < least {
				continue
			}
			f.match = regexp.MustCompile("(?s)" + pattern + "$")
			l.formats = append(l.formats, f)
		}
		sort.Slice(l.formats, func(i, k int) bool {
			a, b := &l.formats[i], &l.formats[k]
			if a.telling != b.telling {
				return a.telling > b.telling
			}
			return a.text < b.text
		})
	})
	return l.formats
}

// formed says a text by the most telling format that it can have been made with;
// texts among its values likewise, so many deep.
func (l *language) formed(text string, deep int) string {
	if deep == 0 {
		return text
	}
	for _, f := range l.forms() {
		if len(f.text) > 2*len(text)+64 || !strings.HasPrefix(text, f.head) || !strings.HasSuffix(text, f.tail) {
			continue
		}
		values := f.match.FindStringSubmatch(text)
		if values == nil {
			continue
		}
		values = values[1:]
		for i, v := range values {
			if number.MatchString(v) {
				values[i] = Decimal(v)
			} else if t, ok := l.said[v]; ok {
				values[i] = t
			} else if strings.ContainsRune(v, ' ') {
				values[i] = l.formed(v, deep-1)
			}
		}
		return filled(l.said[f.text], values)
	}
	return text
}

// filled puts values, printed before, into the places of a format.
func filled(format string, values []string) string {
	next := 0
	return verb.ReplaceAllStringFunc(format, func(v string) string {
		p := verb.FindStringSubmatch(v)
		if p[4] == "%" {
			return "%"
		}
		if n, err := strconv.Atoi(p[2]); err == nil {
			next = n - 1
		}
		next++
		if next < 1 || next > len(values) {
			return v
		}
		return values[next-1]
	})
}
