package unit

import (
	"math"
	"strconv"
	"strings"

	"heartside/model/say"
)

// Style is how lengths are printed. The zero value prints mm.
type Style struct {
	System System

	// WholeMM rounds to whole mm instead of 0.1 mm.
	WholeMM bool

	// PerInch is the finest part of an inch, 16 where it is not over 0: lengths
	// are rounded to the nearest 1/PerInch.
	PerInch int

	// Feet prints 12 inches and more as feet and inches.
	Feet bool
}

// Format prints a length in mm: to the nearest 0.1 mm as "92.4 mm", without a
// last .0, or to the nearest 1/16 inch as `3 5/8"`.
func Format(mm float64, sys System) string { return Style{System: sys}.Format(mm) }

// Format prints a length in mm, in inches with the fraction reduced, negative
// ones with a minus sign in front.
func (s Style) Format(mm float64) string {
	switch {
	case math.IsNaN(mm) || math.IsInf(mm, 0):
		return notKnown()
	case s.System == Inch:
		return s.inches(mm)
	case s.WholeMM:
		return signed(mm, 0) + " mm"
	}
	return trimmed(mm, 1) + " mm"
}

func (s Style) inches(mm float64) string {
	per := float64(s.PerInch)
	if s.PerInch <= 0 {
		per = 16
	}
	whole, part := math.Modf(math.Abs(mm) / InchMM)
	num, den := int(math.Round(part*per)), int(per)
	if num == den { // the fraction carries
		whole, num = whole+1, 0
	}
	out := ""
	if mm < 0 && (whole > 0 || num > 0) {
		out = minus
	}
	feet := s.Feet && whole >= 12
	if feet {
		out += digits(math.Floor(whole/12), 0) + "'-"
		whole = math.Mod(whole, 12)
	}
	if whole > 0 || num == 0 || feet {
		out += digits(whole, 0)
		if num > 0 {
			out += " "
		}
	}
	if num > 0 {
		g := gcd(num, den)
		out += strconv.Itoa(num/g) + "/" + strconv.Itoa(den/g)
	}
	return out + `"`
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// minus is the sign in front of negative amounts.
const minus = "−"

// signed prints v with so many decimals, halves away from zero, never "-0".
func signed(v float64, decimals int) string { return say.Decimal(rounded(v, decimals)) }

func rounded(v float64, decimals int) string {
	k := math.Pow10(decimals)
	if r := math.Round(v*k) / k; !math.IsInf(r, 0) {
		v = r
	}
	if v < 0 {
		return minus + digits(-v, decimals)
	}
	return digits(math.Abs(v), decimals)
}

// trimmed is signed without zeros at the end of its decimals.
func trimmed(v float64, decimals int) string {
	s := rounded(v, decimals)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return say.Decimal(s)
}

func digits(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }
