package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// hintButton is a button of the action row: it says in the status line what it
// does and which key does the same.
type hintButton struct {
	ringButton
	w *Window
	a *Action
}

func newHintButton(w *Window, a *Action) *hintButton {
	b := &hintButton{w: w, a: a}
	b.Text, b.Icon, b.Importance = a.Short, a.Icon, widget.LowImportance
	if b.Text == "" {
		b.Text = a.Label
	}
	b.OnTapped = func() {
		w.do(a)
		w.takeKeys()
	}
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn implements desktop.Hoverable.
func (b *hintButton) MouseIn(ev *desktop.MouseEvent) {
	b.Button.MouseIn(ev)
	b.w.say(b.hint())
}

// MouseOut implements desktop.Hoverable.
func (b *hintButton) MouseOut() {
	b.Button.MouseOut()
	b.w.say("")
}

// FocusGained implements fyne.Focusable.
func (b *hintButton) FocusGained() {
	b.ringButton.FocusGained()
	b.w.say(b.hint())
}

func (b *hintButton) hint() string {
	s := b.a.Label
	if b.a.ID == "undo" && b.w.ses.CanUndo() {
		s += ": " + b.w.ses.UndoLabel()
	}
	if b.a.ID == "redo" && b.w.ses.CanRedo() {
		s += ": " + b.w.ses.RedoLabel()
	}
	if k := b.a.keyNames(); k != "" {
		s += "  (" + k + ")"
	}
	if b.a.Hint != "" {
		s += ".  " + b.a.Hint
	}
	return s
}

var _ fyne.Focusable = (*hintButton)(nil)
