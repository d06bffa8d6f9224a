package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/model/say"
)

// rackStep is one of the three things done at the rack.
type rackStep int

const (
	stepBoards rackStep = iota // letters and sizes
	stepPhotos                 // which picture shows what
	stepFaces                  // how far each face is
)

// rack is the page on which a stack of boards is taken in: identity first,
// then the pictures, then a look at what was found on each face.
type rack struct {
	w       *Window
	step    rackStep
	steps   [3]*pageButton
	all     fyne.CanvasObject
	head    *fyne.Container
	frame   *fyne.Container // head and body
	body    *fyne.Container
	headed  string // what the head was laid out for
	sum     *widget.Label
	note    *widget.Label // what was done of itself, or waits
	bar     *widget.ProgressBar
	reads   *widget.Label
	under   *fyne.Container // shown while photographs are read
	stop    *pageButton
	read    *pageButton
	photos  *pageButton
	boards  *boardEntry
	pics    *pictureStep
	faces   *rackList
	hearts  endHearts // of ends kept since the project was opened
	balance balancing
	tints   *balanceLine
}

func newRack(w *Window) *rack { return &rack{w: w, step: stepFaces, hearts: endHearts{}} }

// addRackActions lists what leads to the rack and what works from everywhere.
func (w *Window) addRackActions() {
	w.acts.add(
		&Action{ID: "rack", Label: say.T("Rack of boards"), Short: say.T("Rack"), Icon: icon("rack"), Group: groupBoard, Keys: []Chord{ctrl(fyne.KeyR)}, Hint: say.T("Many boards at once: letters, photographs of both faces, heartwood and sapwood."),
			On: func() bool { return w.page == page(w.rack) }, Do: w.rackToggle},
		&Action{ID: "read-waiting", Label: say.T("Read what waits"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyR)}, Hint: say.T("Read the photographs that are not split yet."),
			Can: func() bool { return w.idle() > 0 }, Do: func() { w.ses.ReadFaces(w.idlePlaces()) }},
		&Action{ID: "stop-reading", Label: say.T("Stop reading photographs"), Short: say.T("Stop reading"), Group: groupBoard, Keys: []Chord{ctrl(fyne.KeyPeriod)}, Hint: say.T("What is not read yet waits on."),
			Can: func() bool { return w.watch.busy }, Do: w.ses.StopReading},
		&Action{ID: "rack-photos", Label: say.T("Choose photographs…"), Group: groupBoard, Keys: []Chord{ctrl(fyne.KeyI)}, Hint: say.T("Several at once, for the boards of the rack."), Do: w.rackChoose},
	)
	w.addBalanceActions()
}

func (w *Window) rackToggle() {
	if w.page == page(w.rack) {
		w.turnTo(nil)
		return
	}
	r := w.rack
	if len(w.ses.Project().Boards) == 0 {
		r.step = stepBoards
	} else if r.step == stepBoards && r.boards.empty() {
		r.step = stepFaces
	}
	w.showRack()
}

// showRack shows the rack as it was left.
func (w *Window) showRack() {
	w.rack.turn(w.rack.step)
	if w.page != page(w.rack) {
		w.turnTo(w.rack)
	}
}

// content implements page.
func (r *rack) content() fyne.CanvasObject {
	if r.all != nil {
		return r.all
	}
	w := r.w
	r.boards, r.pics, r.faces = newBoardEntry(w), newPictureStep(w), newRackList(w)
	var tabs []fyne.CanvasObject
	for i, name := range []string{say.T("1  Letters and sizes"), say.T("2  Photographs"), say.T("3  Look at the faces")} {
		r.steps[i] = newPageButton(w, name, func() { r.tell(""); r.turn(rackStep(i)) })
		tabs = append(tabs, r.steps[i])
	}
	r.photos = newPageButton(w, say.T("More photographs…"), w.rackChoose)
	leave := newPageButton(w, say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	gap := widget.NewLabel("")
	tabs = append(tabs, gap, r.photos, leave)
	r.sum = wrapped("", widget.MediumImportance)
	r.sum.TextStyle.Bold = true
	r.note = wrapped("", widget.MediumImportance)
	r.note.Hide()
	r.bar = widget.NewProgressBar()
	r.bar.TextFormatter = func() string { return "" }
	bar := least(18, r.bar)
	r.reads = widget.NewLabel("")
	r.stop = newPageButton(w, say.T("Stop"), func() { w.act("stop-reading") })
	r.read = newPageButton(w, say.T("Read what waits"), func() { w.act("read-waiting") })
	r.under = container.NewHBox(container.NewCenter(r.reads), bar, r.stop)
	sum := least(46, r.sum)
	r.tints = newBalanceLine(w)
	r.head = container.New(stackLayout{}, flow(tabs, gap), flow([]fyne.CanvasObject{sum, r.under, r.read}, sum), r.tints.box, r.note)
	r.body = container.NewStack()
	r.frame = container.NewBorder(container.New(stackLayout{}, r.head, widget.NewSeparator()), nil, nil, nil, r.body)
	r.all = container.NewPadded(r.frame)
	r.turn(r.step)
	return r.all
}

// forget drops what belonged to the project shown until now.
func (r *rack) forget() {
	r.step, r.hearts = stepFaces, endHearts{}
	if r.balance.stop != nil {
		r.balance.stop()
		r.balance.stop = nil
	}
	if r.all == nil {
		return
	}
	r.tell("")
	r.pics.waiting = nil
	r.pics.clear()
	r.boards.begin()
	r.faces.at, r.faces.part = 0, intake.Face1
	if len(r.w.ses.Project().Boards) == 0 {
		r.step = stepBoards
	}
	r.turn(r.step)
}

// turn shows one of the three steps.
func (r *rack) turn(s rackStep) {
	r.step = s
	if r.all == nil {
		r.content()
		return
	}
	for i, b := range r.steps {
		b.Importance = widget.LowImportance
		if rackStep(i) == s {
			b.Importance = widget.HighImportance
		}
		b.Refresh()
	}
	r.body.Objects = []fyne.CanvasObject{[]fyne.CanvasObject{r.boards.all, r.pics.all, r.faces.all}[s]}
	r.body.Refresh()
	r.show()
	if r.w.page == page(r) && r.w.asks == nil {
		r.w.takeKeys()
		r.w.say("")
	}
}

// home implements page.
func (r *rack) home() fyne.Focusable {
	switch r.step {
	case stepBoards:
		return r.boards.home()
	case stepPhotos:
		return r.pics.home()
	}
	return r.faces
}

// key implements page.
func (r *rack) key(ev *fyne.KeyEvent) bool { return r.step == stepFaces && r.faces.key(ev) }

// sign implements page.
func (r *rack) sign(s rune) bool { return r.step == stepFaces && r.faces.sign(s) }

// back implements page.
func (r *rack) back() (page, bool) { return nil, false }

// row implements page.
func (r *rack) row() []string {
	return []string{"edit-board", "read-waiting", "stop-reading", "balance"}
}

// hint implements page.
func (r *rack) hint() string {
	switch r.step {
	case stepBoards:
		return say.T("Enter goes to the next field, and from the last one to the next board. Esc goes back to the panels; what is typed stays.")
	case stepPhotos:
		return say.F("Drop photographs on the window, or press %s. Esc goes back to the panels.", r.w.acts.byID["rack-photos"].keyNames())
	}
	return say.T("Arrows: cell. Enter: look. A accept, R read again, P picture, D remove, N next to look at. Esc: back to the panels.")
}

// tell puts a line under the summary, "" none.
func (r *rack) tell(text string) {
	if r.note == nil || r.note.Text == text && r.note.Hidden == (text == "") {
		return
	}
	r.note.Hidden = text == ""
	r.note.SetText(text)
	relay(r.head, r.frame)
}

// restyled implements page.
func (r *rack) restyled() {
	if r.all != nil {
		r.faces.restyled()
		r.all.Refresh()
	}
}

// reveal implements page.
func (r *rack) reveal(o fyne.CanvasObject) {
	var s *container.Scroll
	switch r.step {
	case stepBoards:
		s = r.boards.scroll
	case stepPhotos:
		s = r.pics.scroll
	default:
		return
	}
	if slices.Contains(inside(s.Content), o) {
		into(s, o)
	}
}

// show implements page.
func (r *rack) show() {
	if r.all == nil {
		return
	}
	w := r.w
	if t := tallyOf(w.ses).text(); r.sum.Text != t {
		r.sum.SetText(t)
	}
	setShown(r.photos, r.step == stepFaces && !w.large())
	setShown(r.under, w.watch.busy)
	if t := w.watch.text(); r.reads.Text != t {
		r.reads.SetText(t)
	}
	setShown(r.read, w.idle() > 0)
	if r.bar.Value != w.watch.share || w.watch.busy {
		r.bar.SetValue(w.watch.share)
	}
	tints := r.tints.show(r.step == stepFaces)
	if k := fmt.Sprint(tints, r.sum.Text, r.reads.Text, r.under.Visible(), r.read.Visible(), r.photos.Visible()); k != r.headed {
		r.headed = k
		relay(r.head, r.frame)
	}
	r.pics.show()
	r.faces.show()
	r.boards.show()
}

// setShown shows or hides an object where that is new.
func setShown(o fyne.CanvasObject, on bool) {
	switch {
	case on && !o.Visible():
		o.Show()
	case !on && o.Visible():
		o.Hide()
	}
}

// pageTyped takes named keys on a page.
func (w *Window) pageTyped(ev *fyne.KeyEvent) {
	if w.page.key(ev) || w.pageKey(ev) {
		return
	}
	c := Chord{Key: ev.Name}
	if w.surf.mods().Shift {
		c.Mod = fyne.KeyModifierShift
	}
	w.typed(c)
}
