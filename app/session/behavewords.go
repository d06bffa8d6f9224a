package session

import (
	"strings"

	"heartside/layout/wood/movement"
	"heartside/model/say"
	"heartside/model/unit"
)

// Fine prints a small length with its unit: tenths of a millimetre, or 64ths of
// an inch.
func (s *Session) Fine(mm float64) string { return fineIn(mm, s.Units()) }

func fineIn(mm float64, sys unit.System) string {
	return unit.Style{System: sys, PerInch: 64}.Format(mm)
}

// signed prints a change of length with its sign.
func (s *Session) signed(mm float64) string {
	t := s.Fine(mm)
	if mm > 0 && strings.IndexFunc(t, func(r rune) bool { return r >= '1' && r <= '9' }) >= 0 {
		return "+" + t
	}
	return t
}

// between prints the bounds of a change.
func (s *Session) between(v movement.Size) string {
	return say.F("%s to %s", s.signed(v.Lo), s.signed(v.Hi))
}
