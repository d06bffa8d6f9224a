package ui

import (
	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// idlePlaces lists the faces that wait to be read and are not being read; those
// that could not be read want another picture or corners.
func (w *Window) idlePlaces() []intake.Place {
	var out []intake.Place
	for _, p := range w.ses.Waiting() {
		if n, ok := w.ses.News(p); !ok || n.Step == intake.Stopped {
			out = append(out, p)
		}
	}
	return out
}

func (w *Window) idle() int { return len(w.idlePlaces()) }

// named names a place in a message.
func placeWords(p intake.Place) string { return say.F("Board %s, %s", p.Board, p.Part.String()) }

// lookAt opens the face in hand, or takes a picture for it.
func (w *Window) lookAt(l *rackList) {
	p, b, ok := l.hand()
	if !ok {
		return
	}
	face := p.Part.Face()
	switch {
	case face == 0 && b.Ends[int(p.Part-intake.EndA)].Photo == "":
		w.choosePhoto(l)
	case face == 0:
		w.openEnd(b.ID, int(p.Part-intake.EndA))
	case b.Faces[face-1].Photo == "":
		w.choosePhoto(l)
	default:
		w.openFace(b.ID, face)
	}
}

// setBoard commits a changed board under the name of what was done.
func (w *Window) setBoard(b model.Board, verb string) bool {
	return w.commit(model.SetBoards{Boards: []*model.Board{&b}, Verb: verb})
}

// acceptFace marks what was found on the face in hand as looked at.
func (w *Window) acceptFace(l *rackList) {
	p, b, ok := l.hand()
	if !ok {
		return
	}
	face := p.Part.Face()
	if face == 0 {
		w.say(say.T("There is nothing to accept at an end. Faces are looked at and accepted."))
		return
	}
	st := faceState(w.ses, b, face)
	if b.Faces[face-1].Split == nil || st.kind != cellLook {
		w.say(say.F("%s: %s. There is nothing to accept.", placeWords(p), st.words))
		return
	}
	c := *b
	c.Faces[face-1].Split = &model.Split{By: model.SplitChecked, Sure: b.Faces[face-1].Split.Sure}
	if w.setBoard(c, say.F("Accept face %d of board %s", face, b.ID)) {
		w.say(say.F("%s is checked. N goes to the next one to look at.", placeWords(p)))
	}
}

// removePhoto takes the photograph, and what was read from it, off the place
// in hand.
func (w *Window) removePhoto(l *rackList) {
	p, b, ok := l.hand()
	if !ok {
		return
	}
	c := *b
	switch face := p.Part.Face(); {
	case face > 0 && b.Faces[face-1].Photo != "":
		c.Faces[face-1] = model.Face{Known: face == 1 && b.Faces[0].Known && b.Faces[0].Split == nil}
	case face == 0 && b.Ends[int(p.Part-intake.EndA)].Photo != "":
		c.Ends[int(p.Part-intake.EndA)] = model.End{}
	default:
		w.say(say.F("%s has no photograph.", placeWords(p)))
		return
	}
	if w.setBoard(c, say.F("Remove the photograph of board %s, %s", b.ID, p.Part.String())) {
		w.say(say.F("%s: photograph removed, the picture file stays. %s brings it back.", placeWords(p), w.acts.byID["undo"].keyNames()))
	}
}

// readAgain reads the photograph of the face in hand from the start. Corners
// that the maker gave stay.
func (w *Window) readAgain(l *rackList) {
	p, b, ok := l.hand()
	if !ok {
		return
	}
	face := p.Part.Face()
	if face == 0 || b.Faces[face-1].Photo == "" {
		w.say(say.F("%s has no photograph of a face to read. P chooses one.", placeWords(p)))
		return
	}
	f := b.Faces[face-1]
	if !f.Open() {
		n, heard := w.ses.News(p)
		c := *b
		again := model.Face{Photo: f.Photo, Known: true, Reference: f.Reference, White: f.White, Grain: f.Grain, Split: &model.Split{By: model.SplitOpen}}
		if f.Split == nil || heard && n.Job.Corners != nil {
			again.Corners, again.Bow = f.Corners, f.Bow
		}
		c.Faces[face-1] = again
		if !w.setBoard(c, say.F("Read face %d of board %s again", face, b.ID)) {
			return
		}
	}
	w.ses.ReadFaces([]intake.Place{p})
}

// choosePhoto takes a picture for the place in hand.
func (w *Window) choosePhoto(l *rackList) {
	p, _, ok := l.hand()
	if !ok {
		return
	}
	w.choose(choosing{title: say.F("Photograph of board %s, %s", p.Board, p.Part.String()), yes: say.T("Use it"), trace: "photo", kinds: photoKinds(), must: true,
		do: func(path string) error {
			w.post(func() { w.takePictures([]taking{{p, path}}, nil) })
			return nil
		}})
}

// cellMenu is the menu of the cell in hand.
func (w *Window) cellMenu(l *rackList) *fyne.Menu {
	item := func(label string, do func(*rackList)) *fyne.MenuItem {
		return fyne.NewMenuItem(label, func() { do(l) })
	}
	return fyne.NewMenu("", item(say.T("Look   Enter"), w.lookAt), item(say.T("Accept   A"), w.acceptFace), item(say.T("Read again   R"), w.readAgain),
		item(say.T("Choose a picture…   P"), w.choosePhoto), fyne.NewMenuItemSeparator(), item(say.T("Remove the photograph   D"), w.removePhoto))
}

// taking is a picture file and what it shows.
type taking struct {
	place intake.Place
	path  string
}

// takings names the pictures as the project knows them.
func (w *Window) takings(list []taking) []session.Taking {
	var out []session.Taking
	for _, t := range list {
		out = append(out, session.Taking{Place: t.place, Name: w.photoName(t.path)})
	}
	return out
}
