package say

import (
	"fmt"
	"strconv"
	"strings"
)

// Decimal writes a number that was printed with a decimal point the way the
// language in use does: "12,5" in German and Spanish.
func Decimal(number string) string {
	if sign := In("decimal", "."); sign != "." {
		return strings.Replace(number, ".", sign, 1)
	}
	return number
}

// Number writes a number the way the language in use does, with no more decimals
// than it has.
func Number(v float64) string { return Decimal(strconv.FormatFloat(v, 'f', -1, 64)) }

// Print is fmt.Sprintf for formats without words: numbers, signs and units.
// Numbers are written the way the language in use does.
func Print(format string, values ...any) string { return fmt.Sprintf(format, understood(values)...) }

// decimal is a number that is written the way the language in use does.
type decimal float64

// Format implements fmt.Formatter.
func (d decimal) Format(s fmt.State, verb rune) {
	fmt.Fprint(s, Decimal(fmt.Sprintf(fmt.FormatString(s, verb), float64(d))))
}
