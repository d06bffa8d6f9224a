package session

import (
	"slices"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// StripRecord is where a strip of a panel is from, in words.
type StripRecord struct {
	Number, Board, Side, End, Place, Wood string
}

// RecordOf lists the strips of a panel from the front, with where each is from:
// what a repair or a matching piece asks for.
func RecordOf(p *model.Project, panel *face.Panel) []StripRecord {
	var out []StripRecord
	for i := range panel.Strips {
		st := &panel.Strips[i]
		r := StripRecord{Number: model.StripNumber(p, panel.ID, st.ID), Board: say.T("no board yet")}
		if st.Board == nil {
			out = append(out, r)
			continue
		}
		r.Board, r.Side, r.End = st.Board.ID, say.F("%s up", say.Of(st.Board.SideName(st.UpFace()))), say.T("marked end left")
		if st.Turned {
			r.End = say.T("marked end right")
		}
		r.Place = say.F("%s × %s, from %s and %s", unit.Format(st.L, p.Units), unit.Format(st.W, p.Units), unit.Format(st.X, p.Units), unit.Format(st.Y, p.Units))
		if st.Angle != 0 {
			r.Place += say.F(", at %.1f°", st.Angle)
		}
		if b := p.Board(st.Board.ID); b != nil {
			r.Wood = woodWords(b.Species)
			if b.Log != nil {
				r.Wood += say.F(", log %s", b.Log.Name)
				if b.Log.Order > 0 {
					r.Wood += say.F(" cut %d", b.Log.Order)
				}
			}
		}
		out = append(out, r)
	}
	return out
}

// PlaceNote says how places on boards are told.
func PlaceNote() string {
	return say.T("Places are length × width as glued, from the marked end and the marked edge to the nearer corner.")
}

// StepWords tells a step of the record: what, on which wood, of which panels and
// sides; the day and the note stand apart.
func StepWords(s *model.FinishStep) string {
	text := s.What
	if s.Product != "" {
		text += " (" + s.Product + ")"
	}
	switch s.Wood {
	case model.Sap:
		text += say.T(" on the sapwood alone")
	case model.Heart:
		text += say.T(" on the heartwood alone")
	}
	of := say.T("all panels")
	if len(s.Panels) > 0 {
		of = say.List(s.Panels)
	}
	text += ", " + of
	if len(s.Where) > 0 && len(s.Where) < len(model.FinishPlaces()) {
		var where []string
		for _, w := range model.FinishPlaces() {
			if slices.Contains(s.Where, w) {
				where = append(where, FinishPlaceWords(w))
			}
		}
		text += ": " + say.List(where)
	}
	return text
}

// FinishPlaceWords names a side of a panel.
func FinishPlaceWords(w model.FinishPlace) string {
	switch w {
	case model.OnShow:
		return say.T("show face")
	case model.OnBack:
		return say.T("back")
	}
	return say.T("edges and ends")
}

// SapToColour tells how much sapwood shows on a panel, to be coloured.
func SapToColour(r *face.Reading, sys unit.System) string {
	most := max(r.Show.Light.Hi*r.Show.Area, r.Back.Light.Hi*r.Back.Area)
	one := func(f *face.Face) string {
		lo, hi := f.Light.Lo*f.Area, f.Light.Hi*f.Area
		if hi-lo > 0.005*f.Area {
			return say.F("%s to %s", unit.FormatAreaLike(lo, most, sys), unit.FormatAreaLike(hi, most, sys))
		}
		return unit.FormatAreaLike(f.Light.Value*f.Area, most, sys)
	}
	return say.F("Sapwood that shows: %s on the show face, %s on the back", one(&r.Show), one(&r.Back))
}

// FinishWords are words for what is put on, to choose from.
func FinishWords() []string {
	return []string{say.T("dye"), say.T("stain"), say.T("toner"), say.T("glaze"), say.T("oil"), say.T("varnish"), say.T("wax"), say.T("bleach")}
}

// MovedStep returns the record with a step moved by so many places; nil where it
// cannot be.
func MovedStep(list []model.FinishStep, i, by int) []model.FinishStep {
	to := i + by
	if i < 0 || i >= len(list) || to < 0 || to >= len(list) {
		return nil
	}
	out := slices.Clone(list)
	out[i], out[to] = out[to], out[i]
	return out
}
