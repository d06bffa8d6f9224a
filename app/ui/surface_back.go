package ui

import (
	"fyne.io/fyne/v2"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// addSurfaceActions lists what moves and turns the view of the surface.
func (w *Window) addSurfaceActions() {
	w.acts.add(&Action{ID: "back", Label: say.T("Show the back"), Short: say.T("Back"), Icon: icon("back"), Group: groupView, Keys: []Chord{plain(fyne.KeyV)},
		Hint: say.T("The panel as it is seen after rolling it over about its length."), Can: w.hasPanel, On: func() bool { return w.surf.show.back }, Do: w.toggleBack})
	for _, m := range []struct {
		id, label string
		key       fyne.KeyName
		by        geom.Point
	}{
		{"left", say.T("to the left"), fyne.KeyLeft, geom.Pt(panStep, 0)},
		{"right", say.T("to the right"), fyne.KeyRight, geom.Pt(-panStep, 0)},
		{"up", say.T("up"), fyne.KeyUp, geom.Pt(0, panStep)},
		{"down", say.T("down"), fyne.KeyDown, geom.Pt(0, -panStep)},
	} {
		w.acts.add(&Action{ID: "look-" + m.id, Label: say.F("Look farther %s", m.label), Group: groupView, Keys: []Chord{ctrlShift(m.key)}, Do: func() { w.surf.pan(m.by) }})
	}
}

// panStep is how far a key moves the view, surface units.
const panStep = 80

// pan moves the view that the keys zoom too.
func (s *surface) pan(by geom.Point) {
	s.views = s.scene().Panned(s.zoomAt(), by)
	s.stale()
}

// toggleBack turns the panel over on screen, or back again. Nothing of the
// project changes.
func (w *Window) toggleBack() {
	w.surf.show.back = !w.surf.show.back
	if w.surf.show.back {
		w.say(say.T("The back, as it is seen after rolling the panel over about its length. V shows the show face again."))
	} else {
		w.say("")
	}
	w.changed()
}

// backSeen reports whether the panel is seen from its back: as the maker
// chose, or the side of the warning pointed at.
func (s *surface) backSeen() bool {
	if i := s.pointed; i >= 0 && i < len(s.w.column.notes) {
		switch s.w.column.notes[i].Side {
		case face.Back:
			return true
		case face.Show:
			return false
		}
	}
	return s.show.back
}

// compare heads the panel before and after the last change with what is read
// of each.
func (s *surface) compare(w *scene.Words, panel string) {
	ses := s.w.ses
	read := func(r *face.Reading) string {
		if r == nil || r.Placed == 0 {
			return ""
		}
		f := &r.Show
		if s.backSeen() {
			f = &r.Back
		}
		lone := f.Lone()
		words := say.F("%s light wood", session.Percent(f.Light.Value))
		if lone > 0 {
			words += ", " + say.Count(lone, say.T("lone streak"), say.T("lone streaks"))
		}
		return words
	}
	w.Before, w.Now = read(ses.BeforeReading(panel)), read(ses.Reading(panel))
	if p := ses.Before(); p != nil {
		w.Was = func(panel, strip string) string { return model.StripNumber(p, panel, strip) }
	}
}
