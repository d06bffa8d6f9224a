package ui

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/app/picture"
	"heartside/model/say"
)

// photoKinds are the endings of pictures that can be read.
func photoKinds() []string { return picture.Kinds() }

// isPhoto reports whether a file is named as a picture that can be read.
func isPhoto(path string) bool {
	return slices.Contains(photoKinds(), strings.ToLower(filepath.Ext(path)))
}

// pictureStep is the second step at the rack: which picture shows what. Where
// the names say it, nothing is asked.
type pictureStep struct {
	w       *Window
	all     *fyne.Container
	top     *fyne.Container // what is to be done: over the table, in its scroll, or alone
	slot    *fyne.Container
	inner   *fyne.Container
	scroll  *container.Scroll
	intro   *widget.Label
	copies  *tick
	why     *widget.Label
	choose  *pageButton
	table   *fyne.Container
	pane    *fyne.Container
	drop    *fyne.Container // where there is nothing yet
	preview *preview
	buttons *fyne.Container
	take    *pageButton
	rows    []*pairRow
	waiting []string // pictures that wait for boards
	looks   *previews
	laid    string // what it was laid out for
}

func newPictureStep(w *Window) *pictureStep {
	s := &pictureStep{w: w, looks: newPreviews(w)}
	s.looks.ready = s.looked
	s.intro = wrapped("", widget.MediumImportance)
	s.copies = newTick(w, say.T("Copy the pictures beside the project (folder photos)"), w.set.copies(), func() { w.set.keepCopies(s.copies.Checked) })
	s.why = wrapped("", widget.LowImportance)
	s.choose = newPageButton(w, say.T("Choose photographs…"), w.rackChoose)
	s.choose.Importance = widget.HighImportance
	s.table = container.New(stackLayout{})
	s.preview = newPreview()
	s.take = newPageButton(w, say.T("Take these in"), s.confirm)
	s.take.Importance = widget.HighImportance
	s.buttons = container.NewHBox(s.take, newPageButton(w, say.T("Put them aside"), s.aside))
	why := least(30, s.why)
	s.top = container.New(stackLayout{}, s.intro, flow([]fyne.CanvasObject{s.copies, why}, why), container.NewHBox(s.choose))
	var room *fyne.Container
	s.inner, s.slot = container.New(stackLayout{}), container.New(stackLayout{})
	room, s.scroll = down(s.inner, nil)
	s.pane = container.New(previewLayout{}, room, s.preview.box)
	s.drop = dropPlace()
	s.all = container.NewBorder(s.slot, s.buttons, nil, nil, container.NewStack(s.pane, s.drop))
	s.show()
	return s
}

// home is where the keys go first.
func (s *pictureStep) home() fyne.Focusable {
	for _, r := range s.rows {
		if !r.settled() {
			return r.board
		}
	}
	if len(s.rows) > 0 {
		return s.take
	}
	return s.choose
}

// show says what is to be done now.
func (s *pictureStep) show() {
	text := say.T("Photograph both faces of every board, flat on, with the whole board in the picture and the marked end at the left. Then choose the pictures or drop them on this window, all at once. Names such as A1.jpg and A2.jpg, the letter and the face, need no question; A-a.jpg is the marked end, A-b.jpg the other end.")
	switch {
	case len(s.waiting) > 0:
		text = say.F("%s here. Give the boards their letters and sizes under 1 first; then it is settled which picture shows which board.", say.Count(len(s.waiting), say.T("photograph waits"), say.T("photographs wait")))
	case len(s.rows) > 0:
		unsettled := 0
		for _, r := range s.rows {
			if !r.settled() {
				unsettled++
			}
		}
		text = say.F("%s. Their names do not all say what they show: %s to be checked, marked with ? or ✕. Compare the letter chalked in the picture.", say.Count(len(s.rows), say.T("photograph"), say.T("photographs")), say.Count(unsettled, say.T("place is"), say.T("places are")))
		if unsettled == 0 {
			text = say.F("%s, each with its place.", say.Count(len(s.rows), say.T("photograph"), say.T("photographs")))
		}
	}
	if s.intro.Text != text {
		s.intro.SetText(text)
	}
	why := ""
	if s.w.ses.Path() == "" {
		why = say.T("Not yet: the project has no file. Save it first; the pictures are named by their whole path until then.")
		s.copies.Disable()
	} else {
		s.copies.Enable()
	}
	if s.why.Text != why {
		s.why.SetText(why)
	}
	setShown(s.why, why != "")
	setShown(s.choose, len(s.rows) == 0 && len(s.waiting) == 0)
	setShown(s.buttons, len(s.rows) > 0)
	setShown(s.pane, len(s.rows) > 0)
	setShown(s.drop, len(s.rows) == 0)
	if k := fmt.Sprint(text, why, len(s.rows)); k != s.laid {
		s.laid = k
		s.slot.Objects, s.inner.Objects = []fyne.CanvasObject{s.top}, nil
		if len(s.rows) > 0 {
			s.slot.Objects, s.inner.Objects = nil, []fyne.CanvasObject{s.top, s.table}
		}
		s.slot.Refresh()
		s.inner.Refresh()
		relay(s.top, s.slot, s.all)
		settled(s.scroll)
	}
}

// rackChoose asks for pictures of the boards of the rack.
func (w *Window) rackChoose() {
	w.choose(choosing{title: say.T("Photographs of the boards"), yes: say.T("Use these"), trace: "photos", kinds: photoKinds(), must: true,
		many: func(paths []string) error {
			w.post(func() { w.rackPictures(paths) })
			return nil
		}})
}

// rackPictures takes pictures to the rack: into the project where their names
// say what they show, else into a table that asks.
func (w *Window) rackPictures(paths []string) {
	var good, bad []string
	for _, p := range paths {
		if isPhoto(p) {
			good = append(good, p)
		} else {
			bad = append(bad, filepath.Base(p))
		}
	}
	r := w.rack
	r.content()
	r.tell("")
	if len(bad) > 0 {
		r.tell(say.F("Not taken, as these are no pictures that can be read: %s. Save them as JPEG and drop them again.", strings.Join(bad, ", ")))
	}
	if len(good) == 0 {
		if w.page == page(r) {
			r.show()
		} else {
			w.showRack()
		}
		return
	}
	r.pics.bring(good)
}

// bring adds pictures to those that have no place yet.
func (s *pictureStep) bring(paths []string) {
	all := s.waiting
	for _, r := range s.rows {
		all = append(all, r.pairing.Picture.Path)
	}
	for _, p := range paths {
		if !slices.Contains(all, p) {
			all = append(all, p)
		}
	}
	s.waiting = nil
	s.clear()
	r := s.w.rack
	if len(s.w.ses.Project().Boards) == 0 {
		s.waiting = all
		r.step = stepBoards
		r.tell(say.F("%s. First give the boards their letters and sizes.", say.Count(len(all), say.T("photograph waits"), say.T("photographs wait"))))
		s.w.showRack()
		return
	}
	s.pair(all)
}

// boardsCame pairs the pictures that waited for boards.
func (s *pictureStep) boardsCame() {
	if list := s.waiting; len(list) > 0 {
		s.waiting = nil
		s.w.rack.tell("")
		s.pair(list)
	}
}

// pair finds the places of pictures, and asks where it is not sure of all.
func (s *pictureStep) pair(paths []string) {
	var pictures []intake.Picture
	for _, p := range paths {
		pictures = append(pictures, intake.Picture{Path: p, Taken: takenAt(p)})
	}
	var ids []string
	for _, b := range s.w.ses.Project().Boards {
		ids = append(ids, b.ID)
	}
	list := intake.Pair(pictures, ids, s.photographed)
	r := s.w.rack
	if !slices.ContainsFunc(list, func(p intake.Pairing) bool { return !p.Sure() }) {
		var out []taking
		for _, p := range list {
			out = append(out, taking{p.Place, p.Picture.Path})
		}
		s.w.takePictures(out, func() {
			r.tell(say.F("%s taken in, each with the board and face that its name says.", say.Count(len(out), say.T("photograph"), say.T("photographs"))))
		})
		return
	}
	for _, p := range list {
		row := newPairRow(s, p)
		s.rows = append(s.rows, row)
		s.table.Add(row.box)
		s.looks.want(p.Picture.Path)
	}
	s.judge()
	s.inHand(s.rows[0])
	r.step = stepPhotos
	s.w.showRack()
	settled(s.scroll)
}

// photographed reports whether a place has its picture.
func (s *pictureStep) photographed(p intake.Place) bool {
	b := s.w.ses.Project().Board(p.Board)
	switch {
	case b == nil || p.Part == intake.NoPart:
		return false
	case p.Part.Face() > 0:
		return b.Faces[p.Part.Face()-1].Photo != ""
	}
	return b.Ends[int(p.Part-intake.EndA)].Photo != ""
}

// clear drops the table.
func (s *pictureStep) clear() {
	s.rows = nil
	s.table.RemoveAll()
	s.preview.show(nil, "")
}

// aside drops the pictures that have no place yet.
func (s *pictureStep) aside() {
	s.clear()
	s.show()
	s.w.takeKeys()
}

// confirm takes the pictures in as the table says, where nothing speaks
// against it.
func (s *pictureStep) confirm() {
	s.judge()
	var out []taking
	for _, r := range s.rows {
		if r.refused != "" {
			s.w.win.Canvas().Focus(r.board)
			s.w.say(sentence(r.refused))
			return
		}
		if p := r.place(); p.Board != "" {
			out = append(out, taking{p, r.pairing.Picture.Path})
		}
	}
	if len(out) == 0 {
		s.w.say(say.T("No photograph has a place yet. Choose board and face, or put them aside."))
		return
	}
	left := len(s.rows) - len(out)
	s.w.takePictures(out, func() {
		text := say.F("%s taken in.", say.Count(len(out), say.T("photograph"), say.T("photographs")))
		if left > 0 {
			text += say.F(" %s not used.", say.Count(left, say.T("was"), say.T("were")))
		}
		s.w.rack.tell(text)
		s.clear()
	})
}
