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
	"sync/atomic"
)

// texts holds the translations by their English; nil: English.
var texts atomic.Pointer[map[string]string]

// Use says everything from now on in a language; nil is English. The map is not to
// be changed afterwards.
func Use(translations map[string]string) {
	if translations == nil {
		texts.Store(nil)
		return
	}
	texts.Store(&translations)
}

// T returns a text in the language in use.
func T(text string) string {
	if m := texts.Load(); m != nil {
		if t, ok := (*m)[text]; ok {
			return t
		}
	}
	return text
}

// F formats values by a format in the language in use.
func F(format string, values ...any) string { return fmt.Sprintf(T(format), values...) }

// Errorf is fmt.Errorf by a format in the language in use.
func Errorf(format string, values ...any) error { return fmt.Errorf(T(format), values...) }

// Error is an error that says a text in the language in use.
func Error(text string) error { return errors.New(T(text)) }

// later is an error that is put into the language in use when it is read.
type later string

// Error implements error.
func (l later) Error() string { return T(string(l)) }

// Later is an error that is made before the language is known.
func Later(text string) error { return later(text) }
