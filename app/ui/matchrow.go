package ui

import (
	"errors"
	"image"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// rowing is the dialog that cuts a row of panels from one board.
type rowing struct {
	w       *Window
	boards  []*model.Board
	board   *pick
	up      *pick
	across  *pick
	turned  *tick
	numbers [3]*field // gap, kerf, trim
	order   []string  // panels as they are listed
	in      map[string]bool
	list    *fyne.Container
	said    *widget.Label
	warned  *widget.Label
	img     *canvas.Image
	room    *fyne.Container
	plan    session.RowPlan
	err     error
	turn    int // counts pictures: older ones are dropped
}

// canRow reports whether there are a board and a panel to cut from it.
func (w *Window) canRow() bool {
	return len(sound(w.ses.Project())) > 0 && len(w.ses.Project().Panels) > 0
}

// sound lists the boards that something may be cut from.
func sound(p *model.Project) []*model.Board {
	var out []*model.Board
	for _, b := range p.Boards {
		if !b.Spoiled {
			out = append(out, b)
		}
	}
	return out
}

// rowAsk asks for a row from one board.
func (w *Window) rowAsk() { w.newRowing().ask() }

func (w *Window) newRowing() *rowing {
	p := w.ses.Committed()
	wish, _ := w.ses.RowWishOf()
	r := &rowing{w: w, boards: sound(p), in: map[string]bool{}}
	for _, id := range wish.Panels {
		r.in[id] = true
	}
	r.order = slices.Clone(wish.Panels)
	for _, n := range p.Panels {
		if !r.in[n.ID] {
			r.order = append(r.order, n.ID)
		}
	}
	hand := r.boards[0]
	for _, b := range r.boards {
		if b.ID == w.ses.Selected().Board {
			hand = b
		}
	}
	r.board = choice(w, r.boards, func(b *model.Board) string {
		return say.F("Board %s, %s by %s", b.ID, w.ses.Len(b.Length), w.ses.Len(b.Width))
	}, hand)
	r.board.changed = func() { r.nameFaces(); r.work() }
	r.up = choice(w, []int{1, 2}, itoa, wish.Up)
	r.nameFaces()
	r.up.changed = r.work
	r.across = choice(w, []bool{false, true}, func(v bool) string {
		return map[bool]string{false: say.T("Side by side, from the length"), true: say.T("One above another, from the width")}[v]
	}, wish.Across)
	r.across.changed = r.work
	r.turned = newTick(w, say.T("Marked end at the right"), wish.Turned, r.work)
	for i, v := range [3]float64{wish.Gap, wish.Kerf, wish.Trim} {
		r.numbers[i] = w.lengthField(v, true)
		r.numbers[i].follow(r.work)
	}
	r.list = container.New(stackLayout{})
	r.said, r.warned = wrapped("", widget.MediumImportance), wrapped("", widget.WarningImportance)
	r.img = canvas.NewImageFromImage(nil)
	r.img.FillMode, r.img.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleFastest
	r.room = container.New(roomLayout{fyne.NewSize(200, 120)}, r.img)
	return r
}

// nameFaces names the faces of the board by the side of the log.
func (r *rowing) nameFaces() {
	b := r.w.ses.Board(r.boardID())
	at := max(r.up.SelectedIndex(), 0)
	for i := range r.up.Options {
		r.up.Options[i] = sentence(say.Of(b.SideName(i + 1)))
	}
	r.up.take(at)
}

func (r *rowing) boardID() string { return chosen(r.board, r.boards).ID }

func (r *rowing) ask() {
	r.fill()
	asked := container.New(stackLayout{},
		pairs(named(say.T("From")), r.board, named(say.T("Face that shows")), r.up, named(""), r.turned, named(say.T("They hang")), r.across,
			named(say.T("Gap between two")), r.numbers[0], named(say.T("Kerf of the cut")), r.numbers[1], named(say.T("Trimmed off each cut")), r.numbers[2]),
		bold(say.T("In the row, from the left or from the bottom")), r.list)
	body := container.New(&halvesLayout{}, asked, container.New(stackLayout{}, bold(say.T("How it comes out")), r.room, r.said, r.warned))
	r.work()
	r.w.ask(question{title: say.T("Row from one board"), body: body, yes: say.T("Cut them so"), focus: r.board, size: fyne.NewSize(1140, 680), tall: true, do: r.keep})
}

// fill lists the panels with a tick, and a button to stand earlier.
func (r *rowing) fill() {
	r.list.RemoveAll()
	for i, id := range r.order {
		t := newTick(r.w, title(id), r.in[id], nil)
		t.OnChanged = func(on bool) {
			r.w.mended()
			r.in[id] = on
			r.work()
		}
		earlier := newDialogButton(r.w, say.T("Earlier"), func() {
			if i > 0 {
				r.order[i-1], r.order[i] = r.order[i], r.order[i-1]
				r.fill()
				r.work()
			}
		})
		earlier.Importance = widget.LowImportance
		if i == 0 {
			earlier.Disable()
		}
		r.list.Add(container.NewBorder(nil, nil, nil, earlier, t))
	}
	r.list.Refresh()
}

// wish is what is asked.
func (r *rowing) wish() (session.RowWish, error) {
	out := session.RowWish{Board: r.boardID(), Across: chosen(r.across, []bool{false, true}), Turned: r.turned.Checked, Up: chosen(r.up, []int{1, 2})}
	for _, id := range r.order {
		if r.in[id] {
			out.Panels = append(out.Panels, id)
		}
	}
	to := [3]*float64{&out.Gap, &out.Kerf, &out.Trim}
	for i, name := range [3]string{say.T("gap"), say.T("kerf"), say.T("trimmed off")} {
		v, err := r.numbers[i].length(name)
		if err != nil {
			return out, err
		}
		*to[i] = v
	}
	return out, nil
}

// work works the row out and shows it.
func (r *rowing) work() {
	wish, err := r.wish()
	r.plan = session.RowPlan{}
	if err == nil {
		r.plan, err = r.w.ses.Row(wish)
	}
	r.err = err
	if err != nil {
		put(r.said, ended(sentence(say.Err(err))))
		put(r.warned, "")
		r.show(nil)
		return
	}
	mark := "✓ "
	if !r.plan.Enough {
		mark = "⚠ "
	}
	lines := append([]string{mark + r.plan.Need}, r.plan.Places...)
	lines = append(append(lines, r.plan.Lost...), r.plan.Leaves...)
	if r.plan.Note != "" {
		lines = append(lines, r.plan.Note)
	}
	put(r.said, strings.Join(lines, "\n"))
	var warned []string
	for _, t := range append(slices.Clone(r.plan.Flaws), r.plan.Told...) {
		warned = append(warned, "⚠ "+t)
	}
	put(r.warned, strings.Join(warned, "\n"))
	setShown(r.warned, len(warned) > 0)
	r.paint(wish)
	if a := r.w.asks; a != nil && a.q.focus == fyne.Focusable(r.board) {
		a.pop.Refresh()
	}
}

// paint makes the pictures beside the window: the board with the fronts on it,
// and the fronts as they hang.
func (r *rowing) paint(wish session.RowWish) {
	r.turn++
	turn := r.turn
	if !r.plan.Enough {
		r.show(nil)
		return
	}
	s := r.w.rowSitter(r.w.ses.Board(wish.Board), wish, r.plan.Strips)
	var gaps []float64
	for range r.plan.Strips[1:] {
		gaps = append(gaps, wish.Gap)
	}
	go func() {
		img := rowPainted(s, gaps)
		r.w.post(func() {
			if turn == r.turn {
				r.show(img)
			}
		})
	}()
}

func (r *rowing) show(img *image.RGBA) {
	setShown(r.room, img != nil)
	if img != nil {
		r.img.Image = img
		r.img.Refresh()
	}
}

// keep makes the row part of the project.
func (r *rowing) keep() error {
	r.work()
	switch {
	case r.err != nil:
		return r.err
	case r.plan.Edit == nil:
		return errors.New(r.plan.Need)
	}
	if err := r.w.ses.Commit(r.plan.Edit); err != nil {
		return err
	}
	r.w.trace.line("row %d", len(r.plan.Strips))
	r.w.say(say.F("Cut in a row. %s takes it back.", r.w.acts.byID["undo"].keyNames()))
	return nil
}

// newDialogButton is a small button within a dialog.
func newDialogButton(w *Window, text string, do func()) *dialogButton {
	b := &dialogButton{w: w}
	b.Text, b.OnTapped = text, do
	b.ExtendBaseWidget(b)
	return b
}

// dialogButton is a button in the body of a dialog: Escape cancels, Enter
// presses it.
type dialogButton struct {
	ringButton
	w *Window
}

// TypedKey implements fyne.Focusable.
func (b *dialogButton) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if !b.Disabled() {
			b.OnTapped()
		}
	default:
		if !b.w.dialogKey(ev) {
			b.Button.TypedKey(ev)
		}
	}
}

// FocusGained implements fyne.Focusable.
func (b *dialogButton) FocusGained() {
	b.ringButton.FocusGained()
	b.w.reached(b)
}

// wholeBoard is a board as a panel of one strip, for its picture.
func wholeBoard(b *face.Board, up int, turned bool) *face.Panel {
	return &face.Panel{Length: b.Length, Width: b.Width, Strips: []face.Strip{{ID: b.ID, Board: b, L: b.Length, W: b.Width, Up: up, Turned: turned}}}
}
