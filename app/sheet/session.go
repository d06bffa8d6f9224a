package sheet

import (
	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model/say"
)

// FromSession returns the input of a sheet of what a session has on screen.
// date is printed as it is.
func FromSession(s *session.Session, date string, paper Paper, f *render.Faces) Input {
	p := s.Project()
	in := Input{Project: p, Number: s.Number, Date: date, Paper: paper, Faces: f, Spares: s.Spares(), Solid: s.Cuttings()}
	for _, x := range s.LooseNotes() {
		in.Loose = append(in.Loose, Note{Title: x.Title, Text: x.Text, Strips: x.Strips, Boards: x.Boards})
	}
	for _, b := range p.Boards {
		if fb := s.Board(b.ID); fb != nil {
			in.Boards = append(in.Boards, fb)
		}
	}
	for _, m := range p.Panels {
		n := Panel{Panel: s.Panel(m.ID), Reading: s.Reading(m.ID), Behaviour: s.Behaviour(m.ID)}
		if n.Panel.ToPlane != 0 { // on screen it is looked at before planing
			c := *n.Panel
			c.ToPlane = 0
			n.Panel, n.Reading = &c, face.ReadFull(&c)
		}
		n.Finished = n.Panel.Finished()
		for i, years := range [...]float64{1, 10} {
			n.Shift[i] = s.AgeShift(m.ID, years)
		}
		n.Flat = s.EndView(m.ID, session.EndLook{Flat: true})
		for i, season := range [...]string{say.T("Driest season"), say.T("Dampest season")} {
			if v := s.EndView(m.ID, session.EndLook{Wet: i == 1, Form: session.FormMost}); v != nil {
				n.Ends = append(n.Ends, End{season, v})
			}
		}
		for _, x := range s.Notes(m.ID) {
			note := Note{Title: x.Title, Text: x.Text, Under: x.Under, Strips: x.Strips}
			if len(x.Fixes) > 0 {
				note.Fix = x.Fixes[0].Text + " (" + x.Fixes[0].Cost + ")"
			}
			n.Notes = append(n.Notes, note)
		}
		in.Panels = append(in.Panels, n)
	}
	return in
}
