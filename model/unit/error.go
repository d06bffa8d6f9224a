package unit

import (
	"fmt"

	"heartside/model/say"
)

// ParseError tells why a text is not a length.
type ParseError struct {
	Text string // what was typed
	At   int    // the character where reading stopped, from 1
	What string // what is wrong there
	Hint string // what to type instead
}

// Error says what was typed, where it goes wrong and what to type.
func (e *ParseError) Error() string {
	if e.Text == "" {
		return fmt.Sprintf("%s: %s", e.What, e.Hint)
	}
	return say.F("“%s”, character %d: %s: %s", e.Text, e.At, e.What, e.Hint)
}

// hintUnits names every way to write a unit.
func hintUnits() string { return say.T(`use mm, cm, m, in or ", ft or '`) }
