package ui

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// boardEntry is the first step at the rack: the boards' letters and sizes,
// typed row by row, before any picture is taken.
type boardEntry struct {
	w      *Window
	all    fyne.CanvasObject
	scroll *container.Scroll
	table  *fyne.Container
	has    *widget.Label
	rows   []*entryRow
	add    *pageButton
}

func newBoardEntry(w *Window) *boardEntry {
	e := &boardEntry{w: w}
	e.table = container.New(stackLayout{})
	e.has = wrapped("", widget.MediumImportance)
	e.add = newPageButton(w, say.T("Add these boards"), e.keep)
	e.add.Importance = widget.HighImportance
	more := newPageButton(w, say.T("One more row"), func() { w.win.Canvas().Focus(e.addRow().letter) })
	chalk := wrapped(say.T("First give every board its letter, and chalk it on the board: on the end you choose as the marked end, at the corner of the edge you choose as the marked edge, on the side you call face 1. Photograph face 1, roll the board over about its length so that the marked end stays where it is, and photograph face 2."), widget.MediumImportance)
	words := least(52, chalk)
	intro := flow([]fyne.CanvasObject{newChalkDrawing(w), words}, words)
	buttons := container.NewHBox(e.add, more)
	var room *fyne.Container
	room, e.scroll = down(container.New(stackLayout{}, intro, e.has, e.table), nil)
	e.all = container.NewBorder(nil, buttons, nil, nil, room)
	e.addRow()
	return e
}

// home is where typing begins: the first row that is not filled in.
func (e *boardEntry) home() fyne.Focusable {
	for _, r := range e.rows {
		if r.blank() {
			return r.letter
		}
	}
	return e.rows[len(e.rows)-1].letter
}

// begin drops what was typed.
func (e *boardEntry) begin() {
	e.rows = nil
	e.table.RemoveAll()
	e.addRow()
}

// empty reports whether nothing is typed.
func (e *boardEntry) empty() bool {
	return e == nil || !slices.ContainsFunc(e.rows, func(r *entryRow) bool { return !r.blank() })
}

// nextLetter is the next letter that neither the project nor a row has.
func (e *boardEntry) nextLetter() string {
	p := model.Project{Boards: slices.Clone(e.w.ses.Project().Boards)}
	for _, r := range e.rows {
		p.Boards = append(p.Boards, &model.Board{ID: strings.TrimSpace(r.letter.Text)})
	}
	return model.NextBoardID(&p)
}

// caption is a small heading.
func caption(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
	return l
}

// read reads all rows; faults are shown at their rows, and the first one gets
// the keys.
func (e *boardEntry) read() (out []*model.Board, doubts []string, ok bool) {
	ok = true
	seen := map[string]bool{}
	for _, b := range e.w.ses.Project().Boards {
		seen[b.ID] = true
	}
	var plain []string
	for _, r := range e.rows {
		if r.blank() {
			continue
		}
		b, f := r.board()
		if f == nil && seen[b.ID] {
			f = &fault{errors.New(say.F("letter: there is a board %s already; the next free letter is %s", b.ID, e.nextLetter())), r.letter}
		}
		if f != nil {
			r.trouble.SetText("✕ " + sentence(say.Err(f.err)))
			r.trouble.Show()
			settled(e.scroll)
			if ok {
				e.w.win.Canvas().Focus(f.at)
				into(e.scroll, r.box)
			}
			ok = false
			continue
		}
		seen[b.ID] = true
		out = append(out, b)
		if !r.chalked.Checked {
			plain = append(plain, b.ID)
		}
		if b.Thickness > mostThick(e.w.ses.Units()) {
			doubts = append(doubts, say.F("Board %s comes to %s thick, more a beam than a board.", b.ID, e.w.ses.Len(b.Thickness)))
		}
	}
	if len(plain) > 0 {
		doubts = append(doubts, say.F("Not ticked as chalked: %s. Chalk the letter on the marked end, at the marked edge, on the face-1 side, before you take the pictures: without it no sheet can be followed at the bench.", strings.Join(plain, ", ")))
	}
	return out, doubts, ok
}

// mostThick is above which thickness the program asks, mm.
func mostThick(u unit.System) float64 {
	if u == unit.Inch {
		return 3 * unit.InchMM
	}
	return 80
}

// keep adds the boards as one change.
func (e *boardEntry) keep() {
	list, doubts, ok := e.read()
	switch {
	case !ok:
		return
	case len(list) == 0:
		e.w.say(say.T("No board is typed yet. Each needs a length, a width and a thickness."))
		e.w.win.Canvas().Focus(e.rows[0].size[0])
		return
	case len(doubts) > 0:
		e.w.ask(question{title: say.T("Is that right?"), yes: say.T("Add them so"), no: say.T("Go back"), plain: true, size: fyne.NewSize(520, 260),
			body: wrapped(strings.Join(doubts, "\n\n"), widget.MediumImportance),
			do:   func() error { e.w.post(func() { e.commit(list) }); return nil }})
		return
	}
	e.commit(list)
}

func (e *boardEntry) commit(list []*model.Board) {
	if !e.w.commit(model.AddBoards{Boards: list}) {
		return
	}
	var ids []string
	for _, b := range list {
		ids = append(ids, b.ID)
	}
	e.begin()
	r := e.w.rack
	r.pics.boardsCame()
	if r.step == stepBoards {
		r.turn(stepPhotos)
	}
	e.w.say(say.F("Added %s: %s. Now their photographs.", say.Count(len(ids), say.T("board"), say.T("boards")), strings.Join(ids, ", ")))
}

// show tells which boards are there already.
func (e *boardEntry) show() {
	if len(e.rows) == 1 && e.rows[0].blank() && e.w.page != page(e.w.rack) {
		e.rows[0].letter.SetText("")
		e.rows[0].letter.SetText(e.nextLetter())
	}
	var bare, half, full []string
	for _, b := range e.w.ses.Project().Boards {
		switch n := len(missing(b)); n {
		case 0:
			full = append(full, b.ID)
		case 1:
			half = append(half, say.F("%s (face %s)", b.ID, itoa(missing(b)[0])))
		default:
			bare = append(bare, b.ID)
		}
	}
	text := ""
	if len(bare) > 0 {
		text += say.F("Without photographs yet: %s. ", strings.Join(bare, ", "))
	}
	if len(half) > 0 {
		text += say.F("One face to photograph: %s. ", strings.Join(half, ", "))
	}
	if len(full) > 0 {
		text += say.F("Both faces photographed: %s.", strings.Join(full, ", "))
	}
	if text = strings.TrimSpace(text); e.has.Text != text {
		e.has.SetText(text)
		settled(e.scroll)
	}
	setShown(e.has, text != "")
}

// missing lists the faces of a board that have no photograph.
func missing(b *model.Board) []int {
	var out []int
	for i := range b.Faces {
		if b.Faces[i].Photo == "" {
			out = append(out, i+1)
		}
	}
	return out
}
