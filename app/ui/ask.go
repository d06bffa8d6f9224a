package ui

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// question is a dialog: a title, a body, and what confirming does.
type question struct {
	title string
	body  fyne.CanvasObject
	yes   string       // "" for a dialog that only tells
	no    string       // "" for Cancel, or Close where there is no yes
	other string       // a third way, "" for none
	do    func() error // an error is shown in the dialog, which stays open
	also  func()       // the third way
	undo  func()       // on cancelling
	focus fyne.Focusable
	plain bool      // nothing is typed that could be wrong
	size  fyne.Size // wanted; the window limits it
	tall  bool      // keeps its height though the body needs less
}

// asked is a dialog that is up. One is up at a time; a further one is laid on
// top and the first comes back after it.
type asked struct {
	w       *Window
	q       question
	pop     *widget.PopUp
	trouble *widget.Label
	scroll  *container.Scroll
	under   *asked
	main    *keyButton // what Enter does where nothing else has the keys
}

// ask shows a dialog. Escape cancels; Enter in a field confirms.
func (w *Window) ask(q question) *asked {
	w.nudge.settle()
	a := &asked{w: w, q: q, under: w.asks}
	a.trouble = wrapped("", widget.DangerImportance)
	a.trouble.Hide()
	room := container.New(stackLayout{}, a.trouble)
	if q.do != nil && !q.plain { // kept free, so that nothing moves when a message comes
		room = container.New(keepLayout{2}, a.trouble)
	}
	buttons := a.buttons()
	foot := container.NewVBox(room, buttons)
	if a.fitting().Width-buttons.MinSize().Width > 240 {
		foot = container.NewBorder(nil, nil, nil, container.NewVBox(layout.NewSpacer(), buttons), room)
	}
	head := widget.NewLabelWithStyle(q.title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head.SizeName = theme.SizeNameSubHeadingText
	head.Wrapping = fyne.TextWrapWord
	a.scroll = container.NewVScroll(container.New(besideBar{}, q.body))
	content := container.NewBorder(head, foot, nil, nil,
		container.New(roomLayout{fyne.NewSize(240, 40)}, a.scroll))
	a.pop = widget.NewModalPopUp(container.NewPadded(content), w.win.Canvas())
	w.asks = a
	a.pop.Resize(a.fitting())
	a.pop.Show()
	a.trim()
	switch {
	case q.focus != nil:
		w.win.Canvas().Focus(q.focus)
	default:
		w.win.Canvas().Focus(a.main)
	}
	return a
}

// fitting is the size of the dialog: what it wants, but never more than nearly
// all of the window.
func (a *asked) fitting() fyne.Size {
	k := float32(a.w.look.TextPercent()) / 100
	want := a.q.size
	if want.IsZero() {
		want = fyne.NewSize(460, 220)
	}
	room := a.w.win.Canvas().Size()
	return fyne.NewSize(fyne.Min(want.Width*k, room.Width*0.94), fyne.Min(want.Height*k, room.Height*0.92))
}

// trim takes off the height the body does not need.
func (a *asked) trim() {
	if spare := a.scroll.Size().Height - a.scroll.Content.MinSize().Height; spare > 0 && !a.q.tall {
		size := a.fitting()
		a.pop.Resize(fyne.NewSize(size.Width, size.Height-spare+2*pad()))
	}
}

func (a *asked) buttons() fyne.CanvasObject {
	no := a.q.no
	if no == "" {
		no = say.T("Cancel")
		if a.q.yes == "" {
			no = say.T("Close")
		}
	}
	a.main = newKeyButton(a, no, a.cancel)
	row := []fyne.CanvasObject{layout.NewSpacer(), a.main}
	if a.q.other != "" {
		row = append(row, newKeyButton(a, a.q.other, func() { a.close(); a.q.also() }))
	}
	if a.q.yes != "" {
		b := newKeyButton(a, a.q.yes, a.confirm)
		b.Importance = widget.HighImportance
		a.main = b
		row = append(row, b)
	}
	return container.NewHBox(row...)
}

// errAsked keeps a dialog open while a further question is on top of it.
var errAsked = errors.New("asked about")

// sure asks a further question on top of a dialog; yes confirms the dialog
// again, after then.
func (w *Window) sure(title, text, yes string, then func()) error {
	a := w.asks
	w.post(func() {
		if a == nil || w.asks != a {
			return
		}
		w.ask(question{title: title, yes: yes, no: say.T("Go back"), body: wrapped(text, widget.MediumImportance), plain: true,
			do: func() error {
				then()
				w.post(a.confirm)
				return nil
			}})
	})
	return errAsked
}

// confirm does what the dialog is for, or shows why it cannot.
func (a *asked) confirm() {
	if a.w.asks != a {
		return
	}
	if a.q.do != nil {
		if err := a.q.do(); err != nil {
			if !errors.Is(err, errAsked) {
				a.tell(sentence(say.Err(err)))
			}
			return
		}
	}
	a.close()
}

// reveal scrolls the body so that an object of it is in sight.
func (a *asked) reveal(o fyne.CanvasObject) {
	d := fyne.CurrentApp().Driver()
	y := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(a.q.body).Y
	if y < 0 || y > a.q.body.Size().Height {
		return // not in the body
	}
	to := a.scroll.Offset.Y
	if low := y + o.Size().Height + 2*pad() - a.scroll.Size().Height; to < low {
		to = low
	}
	if high := y - 2*pad(); to > high {
		to = high
	}
	if to != a.scroll.Offset.Y {
		a.scroll.ScrollToOffset(fyne.NewPos(0, fyne.Max(to, 0)))
	}
}

// tell shows what is wrong; what was typed stays.
func (a *asked) tell(s string) {
	if a.trouble.Text == s {
		return
	}
	a.trouble.Hidden = s == ""
	a.trouble.SetText(s)
	a.pop.Refresh()
}

func (a *asked) cancel() {
	if a.w.asks != a {
		return
	}
	a.close()
	if a.q.undo != nil {
		a.q.undo()
	}
}

// close takes the dialog away and gives the keys back to the surface.
func (a *asked) close() {
	if a.w.asks != a {
		return
	}
	a.pop.Hide()
	a.w.asks = a.under
	if a.under == nil {
		a.w.takeKeys()
	} else if a.under.q.focus != nil {
		a.w.win.Canvas().Focus(a.under.q.focus)
	} else {
		a.w.win.Canvas().Focus(a.under.main)
	}
}

// keyButton is a button of a dialog that knows Escape and Enter.
type keyButton struct {
	ringButton
	a *asked
}

func newKeyButton(a *asked, text string, do func()) *keyButton {
	b := &keyButton{a: a}
	b.Text, b.OnTapped = text, do
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements fyne.Focusable.
func (b *keyButton) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		b.a.cancel()
	case fyne.KeyReturn, fyne.KeyEnter:
		b.OnTapped()
	default:
		if !scrolled(b.a.scroll, ev.Name) {
			b.Button.TypedKey(ev)
		}
	}
}

// fail tells what went wrong.
func (w *Window) fail(title string, err error) {
	w.ask(question{title: title, body: wrapped(sentence(say.Err(err)), widget.MediumImportance), size: fyne.NewSize(520, 220)})
}

// tellAll shows a longer text.
func (w *Window) tellAll(title, text string) {
	w.ask(question{title: title, body: wrapped(text, widget.MediumImportance), size: fyne.NewSize(620, 460)})
}

// sentence begins a message with a capital letter.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	r := []rune(s)
	if word, _, _ := strings.Cut(s, " "); strings.Contains(strings.TrimRight(word, ".:"), ".") {
		return s // the name of a file stays as it is
	}
	if len(r) > 1 && r[1] != ' ' && r[1] >= 'a' && r[1] <= 'z' && r[0] >= 'a' && r[0] <= 'z' {
		return string(r[0]-'a'+'A') + string(r[1:])
	}
	return s
}
