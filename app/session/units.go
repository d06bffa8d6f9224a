package session

import "heartside/model/unit"

// Units returns how lengths are shown.
func (s *Session) Units() unit.System { return s.Project().Units }

// Len prints a length with its unit.
func (s *Session) Len(mm float64) string { return unit.Format(mm, s.Units()) }

// Money prints an amount with the code of the project's currency, where one is
// said.
func (s *Session) Money(v float64) string { return unit.FormatMoney(v, s.Project().Currency) }

// Area prints an area with its unit.
func (s *Session) Area(mm2 float64) string { return unit.FormatArea(mm2, s.Units()) }

// Percent prints a share, 0 to 1, per cent.
func Percent(share float64) string { return unit.FormatPercent(share) }
