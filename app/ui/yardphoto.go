package ui

import (
	"path/filepath"
	"slices"
	"strings"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// photos asks for photographs of the board being typed and measures its sapwood
// in them.
func (e *yardEntry) photos() {
	w := e.p.w
	var o session.Offer
	for _, x := range []struct {
		i    int
		name string
		to   *float64
	}{{yardLength, say.T("length"), &o.Length}, {yardWidth, say.T("width"), &o.Width}} {
		v, err := e.in[x.i].size(x.name)
		if err != nil {
			e.tell(say.F("%s Length and width give the photographs their scale.", ended(sentence(say.Err(err)))))
			w.win.Canvas().Focus(e.in[x.i])
			return
		}
		*x.to = v
	}
	o.ID = strings.TrimSpace(e.in[yardLetter].Text)
	if v, _, err := unit.ParseThickness(e.in[yardThick].Text, w.ses.Units()); err == nil {
		o.Thickness = v
	}
	w.choose(choosing{title: say.F("Photographs of board %s, one of each face", o.ID), yes: say.T("Measure"), trace: "yard photos", kinds: photoKinds(), must: true,
		many: func(paths []string) error {
			if len(paths) > session.MostPictures {
				return say.Errorf("these are %d photographs: tick one of face 1 and one of face 2", len(paths))
			}
			w.post(func() { e.measure(o, facesFirst(paths, o.ID)) })
			return nil
		}})
}

// facesFirst puts the photographs of a board's faces in their order: by their
// names where these tell the face, else as they were chosen.
func facesFirst(paths []string, id string) []string {
	var list []intake.Picture
	for _, p := range paths {
		list = append(list, intake.Picture{Path: p})
	}
	out := slices.Clone(paths)
	for _, p := range intake.Pair(list, []string{id}, func(intake.Place) bool { return false }) {
		if f := p.Place.Part.Face(); f > 0 && f <= len(out) && len(paths) > 1 {
			out[f-1] = p.Picture.Path
		}
	}
	if len(out) == 2 && out[0] == out[1] {
		return paths
	}
	return out
}

// measure reads the photographs in the background and writes what they show into
// the fields.
func (e *yardEntry) measure(o session.Offer, paths []string) {
	w := e.p.w
	project, copies := w.ses.Path(), w.set.copies()
	var names []string
	for _, p := range paths {
		names = append(names, w.photoName(p))
	}
	read, err := w.ses.MeasureOffer(o, names)
	if err != nil {
		e.tell(ended(sentence(say.Err(err))))
		return
	}
	st := e.p.st
	st.reading++
	run, size := st.reading, e.size()
	w.say(say.F("Measuring the sapwood of board %s in %s…", o.ID, say.Count(len(paths), say.T("photograph"), say.T("photographs"))))
	e.photo.greyed(true)
	go func() {
		got, doubts, err := yardMeasured(func() (session.Offer, []string, error) { return read(w.work) })
		if err == nil && copies && project != "" {
			for f, path := range paths {
				if got.Faces[f].Photo, err = intake.CopyBeside(filepath.Dir(project), path); err != nil {
					break
				}
			}
		}
		w.post(func() {
			if w.work.Err() != nil || st.reading != run || w.ses.Path() != project {
				return
			}
			e := e
			if up, ok := w.page.(*yardPage); ok { // built anew meanwhile
				e = up.entry
			}
			e.photo.greyed(false)
			if err != nil {
				w.say("")
				e.tell(say.F("%s What is typed stays as it is.", ended(sentence(say.Err(err)))))
				return
			}
			e.measured(got, doubts, size)
		})
	}()
}

// yardMeasured keeps what goes wrong with a picture from ending the window.
func yardMeasured(do func() (session.Offer, []string, error)) (o session.Offer, doubts []string, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("this photograph could not be measured (%v)", r)
		}
	}()
	return do()
}

// measured writes the widths of the faces that were read; the fields may still be
// changed by hand.
func (e *yardEntry) measured(o session.Offer, doubts []string, size [2]string) {
	e.p.st.sized = size
	for f := range o.Faces {
		if o.Faces[f].Photo == "" {
			continue
		}
		e.p.st.faces[f] = o.Faces[f]
		for k := range o.Sap[f] {
			e.in[yardSap11+2*f+k].SetText(session.TapeText(o.Sap[f][k], e.p.w.ses.Units()))
		}
		e.p.st.taped[f] = e.widths(f)
	}
	text := say.T("The sapwood widths are from the photographs; look at them and go on.")
	if len(doubts) > 0 {
		text = say.F("Look at the sapwood widths: %s.", strings.Join(doubts, "; "))
	}
	e.p.w.say(text)
	e.p.w.win.Canvas().Focus(e.in[yardSap11])
}

// size is what is typed of length and width.
func (e *yardEntry) size() [2]string { return [2]string{e.in[yardLength].Text, e.in[yardWidth].Text} }

// widths is what is typed of the sapwood of a face.
func (e *yardEntry) widths(f int) [2]string {
	return [2]string{e.in[yardSap11+2*f].Text, e.in[yardSap12+2*f].Text}
}

// pictured returns the photographed face where length, width and sapwood stand as
// they were measured; what is typed by hand goes before the photograph.
func (e *yardEntry) pictured(f int) model.Face {
	st := e.p.st
	if st.faces[f].Photo == "" || st.taped[f] != e.widths(f) || st.sized != e.size() {
		return model.Face{}
	}
	return st.faces[f]
}
