// Package say puts what is said to the maker into the maker's language. A text is
// its own key: what stands in the program is English, and what no translation is
// known of is said as it stands. Formats are those of package fmt; a translation
// may order its values anew by their numbers, as %[2]s.
//
// The program's window gives the translations once, before anything is said; the
// commands say everything in English.
package say

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
)

// texts holds the translations by their English; nil: English.
var texts atomic.Pointer[language]

// Use says everything from now on in a language, named by its code (BCP 47), with
// these translations; nil is English. The map is not to be changed afterwards.
func Use(code string, translations map[string]string) {
	if translations == nil {
		texts.Store(nil)
		return
	}
	texts.Store(&language{code: code, said: translations})
}

// Language is the code of the language in use.
func Language() string {
	if m := texts.Load(); m != nil {
		return m.code
	}
	return "en"
}

// T returns a text in the language in use.
func T(text string) string {
	if m := texts.Load(); m != nil {
		if t, ok := m.said[text]; ok {
			return t
		}
	}
	return text
}

// Mark marks a text that is said later, by Of: it is to have its translations.
func Mark(text string) string { return text }

// In returns a text that is another one in some languages where it is said of
// something else, as the back of a panel is not its back edge: it says of what.
func In(matter, text string) string {
	if m := texts.Load(); m != nil {
		if t, ok := m.said[text+" ["+matter+"]"]; ok {
			return t
		}
	}
	return T(text)
}

// F formats values by a format in the language in use; errors among them are said
// in it, and numbers written as it does.
func F(format string, values ...any) string {
	text := fmt.Sprintf(T(format), understood(values)...)
	if m := texts.Load(); m != nil && m.code == "es" {
		return contractions.Replace(text)
	}
	return text
}

// contractions are those that a value makes with the word before its place: "de"
// and "el canto". Source: the orthography of the Real Academia (2010), of memory.
var contractions = strings.NewReplacer(" de el ", " del ", " a el ", " al ")

// Errorf is fmt.Errorf by a format in the language in use; errors among the values
// are said in it, too.
func Errorf(format string, values ...any) error {
	return fmt.Errorf(T(format), understood(values)...)
}

// understood makes errors among values say what they say in the language in use,
// and numbers write themselves as it does.
func understood(values []any) []any {
	if texts.Load() == nil {
		return values
	}
	out := slices.Clone(values)
	for i, v := range out {
		switch v := v.(type) {
		case error:
			out[i] = heard{v}
		case float64:
			out[i] = decimal(v)
		}
	}
	return out
}

// Error is an error that says a text in the language in use.
func Error(text string) error { return errors.New(T(text)) }

// later is an error that is put into the language in use when it is read.
type later string

// Error implements error.
func (l later) Error() string { return T(string(l)) }

// Later is an error that is made before the language is known.
func Later(text string) error { return later(text) }
