package ui

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// rackList shows a row a board: its two faces and its ends. One cell is in
// hand; arrows move it. Only rows in sight are there, see rackroll.go.
type rackList struct {
	widget.BaseWidget
	w      *Window
	all    fyne.CanvasObject // the list, or what to do where there is none
	room   *fyne.Container   // none and box
	box    *fyne.Container
	scroll *container.Scroll
	none   *widget.Label
	rows   []*rackRow // those in sight, from the top
	roll   rackRoll
	thumbs *faceThumbs
	at     int // row in hand
	part   intake.Part
	has    bool       // the keys are here
	begin  *nextSteps // what to do where there are no boards
}

func newRackList(w *Window) *rackList {
	l := &rackList{w: w, part: intake.Face1, thumbs: newFaceThumbs(w.post)}
	l.thumbs.ready = l.drawn
	l.box = container.New(rackRows{l})
	l.none = wrapped(say.T("No boards yet. Give each a letter and its sizes under 1 and chalk the letter on it; then photograph both faces and drop the pictures on this window."), widget.MediumImportance)
	l.begin = newNextSteps(w)
	l.room = container.New(stackLayout{}, l.none, l.begin.box, l.box)
	var room *fyne.Container
	room, l.scroll = down(l.room, func() { w.post(l.show) })
	l.scroll.OnScrolled = func(fyne.Position) { l.fill() }
	l.ExtendBaseWidget(l)
	l.all = container.NewStack(l, room) // under what takes clicks
	return l
}

// CreateRenderer implements fyne.Widget: the list itself only takes the keys;
// what is seen lies under it.
func (l *rackList) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// show brings the rows up to date.
func (l *rackList) show() {
	boards := l.w.ses.Project().Boards
	setShown(l.none, len(boards) == 0)
	if len(boards) == 0 {
		l.begin.show([]string{"new-board", "rack-photos", "demo"})
	} else {
		l.begin.show(nil)
	}
	l.at = min(max(l.at, 0), max(len(boards)-1, 0))
	l.roll.begin(boards)
	l.fill()
}

// drawn is told when pictures of faces are ready.
func (l *rackList) drawn() {
	for _, r := range l.rows {
		r.pictures()
	}
}

func (l *rackList) restyled() {
	l.thumbs.forget()
	for _, r := range append(l.rows, l.roll.free...) {
		r.shown = ""
	}
	l.roll.high = nil
	l.show()
	settled(l.scroll)
}

// mark shows which cell is in hand.
func (l *rackList) mark() {
	for _, r := range l.rows {
		for _, c := range r.cells {
			c.mark(r.at == l.at && c.part == l.part, l.has)
		}
	}
}

// hand returns the place in hand, ok false where there is no board.
func (l *rackList) hand() (p intake.Place, b *model.Board, ok bool) {
	boards := l.w.ses.Project().Boards
	if l.at < 0 || l.at >= len(boards) {
		return p, nil, false
	}
	b = boards[l.at]
	return intake.Place{Board: b.ID, Part: l.part}, b, true
}

// take takes a cell in hand and its board with it.
func (l *rackList) take(row int, part intake.Part) {
	l.at, l.part = min(max(row, 0), max(len(l.w.ses.Project().Boards)-1, 0)), part
	if p, _, ok := l.hand(); ok {
		l.reveal(l.at)
		l.mark()
		if sel := l.w.ses.Selected(); sel.Board != p.Board {
			l.w.ses.Select(session.Selection{Panel: sel.Panel, Strip: sel.Strip, Board: p.Board, Zone: -1})
		}
		l.w.say(l.tale())
	}
}

// tale is all that is known of the cell in hand, "" where the cell shows it.
func (l *rackList) tale() string {
	p, b, ok := l.hand()
	if !ok || p.Part.Face() == 0 {
		return ""
	}
	st := faceState(l.w.ses, b, p.Part.Face())
	if strings.HasSuffix(st.text(), st.words) {
		return ""
	}
	return placeWords(p) + ": " + st.words + "."
}

// next takes the next face in hand that is to be looked at, round the end.
func (l *rackList) next() {
	boards := l.w.ses.Project().Boards
	n := 2 * len(boards)
	from := 2*l.at + min(int(l.part)-1, 1)
	for k := 1; k <= n; k++ {
		i := (from + k) % n
		if faceState(l.w.ses, boards[i/2], i%2+1).kind == cellLook {
			l.take(i/2, intake.Part(i%2+1))
			return
		}
	}
	l.w.say(say.T("No face is left to look at."))
}

// key does what a named key asks for.
func (l *rackList) key(ev *fyne.KeyEvent) bool {
	page := max(int(l.scroll.Size().Height/(l.roll.usual()+stackGap)), 1)
	switch ev.Name {
	case fyne.KeyUp:
		l.take(l.at-1, l.part)
	case fyne.KeyDown:
		l.take(l.at+1, l.part)
	case fyne.KeyLeft:
		l.take(l.at, max(l.part-1, intake.Face1))
	case fyne.KeyRight:
		l.take(l.at, min(l.part+1, intake.EndB))
	case fyne.KeyHome:
		l.take(0, l.part)
	case fyne.KeyEnd:
		l.take(len(l.w.ses.Project().Boards)-1, l.part)
	case fyne.KeyPageUp:
		l.take(l.at-page, l.part)
	case fyne.KeyPageDown:
		l.take(l.at+page, l.part)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.w.lookAt(l)
	case fyne.KeyDelete, fyne.KeyBackspace:
		l.w.removePhoto(l)
	default:
		return false
	}
	return true
}

// sign does what a letter asks for.
func (l *rackList) sign(r rune) bool {
	switch unicode.ToUpper(r) {
	case 'A':
		l.w.acceptFace(l)
	case 'R':
		l.w.readAgain(l)
	case 'P':
		l.w.choosePhoto(l)
	case 'D':
		l.w.removePhoto(l)
	case 'N':
		l.next()
	case '?':
		l.w.act("keys")
	default:
		return false
	}
	return true
}

// FocusGained implements fyne.Focusable.
func (l *rackList) FocusGained() { l.has = true; l.mark() }

// FocusLost implements fyne.Focusable.
func (l *rackList) FocusLost() { l.has = false; l.mark() }

// TypedKey implements fyne.Focusable.
func (l *rackList) TypedKey(ev *fyne.KeyEvent) { l.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (l *rackList) TypedRune(r rune) { l.sign(r) }
