package sheet

import (
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// words writes lengths and names as the sheet shows them.
type words struct{ sys unit.System }

// len writes a length with its unit.
func (w words) len(mm float64) string { return unit.Format(mm, w.sys) }

// fine writes a thickness to a 32nd of an inch, or to 0.1 mm: sixteenths would
// be off by what is planed in two passes.
func (w words) fine(mm float64) string { return unit.Style{System: w.sys, PerInch: 32}.Format(mm) }

// round returns a length as it is printed, so that sums of printed lengths
// come out as printed.
func (w words) round(mm float64) float64 { return math.Round(mm/w.step()) * w.step() }

// step is the finest difference that is printed, mm.
func (w words) step() float64 {
	if w.sys == unit.Inch {
		return unit.InchMM / 16
	}
	return 0.1
}

// bare writes a length without "mm"; inch marks stay, since a bare fraction
// could be read as anything.
func (w words) bare(mm float64) string {
	return strings.TrimSpace(strings.TrimSuffix(w.len(mm), "mm"))
}

// size writes lengths multiplied with each other, the unit once.
func (w words) size(mm ...float64) string {
	parts := make([]string, len(mm))
	for i, v := range mm {
		parts[i] = w.bare(v)
	}
	s := strings.Join(parts, " × ")
	if w.sys != unit.Inch {
		s += say.T(" mm")
	}
	return s
}

// cell writes lengths multiplied with each other, without unit.
func (w words) cell(mm ...float64) string {
	return strings.TrimSuffix(w.size(mm...), " mm")
}

// three writes widths at the left end, the middle and the right end. A
// stroke between inch fractions would be read as one of them.
func (w words) three(v face.Widths) string {
	sep := " / "
	if w.sys == unit.Inch {
		sep = " | "
	}
	return w.width(v[0]) + sep + w.width(v[1]) + sep + w.width(v[2])
}

// width writes a sapwood width as a rule reads it: whole mm, or the fraction
// of an inch.
func (w words) width(mm float64) string {
	if w.sys != unit.Inch {
		mm = math.Round(mm)
	}
	return w.bare(mm)
}

// names are what the edges and ends of a panel are called.
type names struct{ front, back, left, right model.SideName }

func namesOf(r model.Role) names {
	s := r.Sides()
	return names{s[0], s[1], s[2], s[3]}
}

// side names the face of the board that shows, under a head that says so.
func side(s *face.Strip) string { return say.Of(s.Board.SideName(s.Up)) }

// sideUp says which face of the board shows.
func sideUp(s *face.Strip) string { return say.F("%s up", side(s)) }

// faceName names a face of a board by what is known of it.
func faceName(b *face.Board, f int) string {
	switch b.BarkFace {
	case 0:
		return say.F("Face %d", f)
	case f:
		return say.F("Face %d, bark side", f)
	}
	return say.F("Face %d, heart side", f)
}

// planesText says in words what the arrow says.
func planesText(s *face.Strip, n names) string {
	switch s.Planing() {
	case 1:
		return say.F("to %s", n.right.Word)
	case -1:
		return say.F("to %s", n.left.Word)
	}
	if s.Board.Planes == face.PlanesMixed {
		return say.T("mixed")
	}
	return say.T("not known")
}
