package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// signButton is a small button with a picture alone. What it does is said in the
// status line while it has the keys or the pointer is on it.
type signButton struct {
	ringButton
	w     *Window
	words func() string
}

func newSignButton(w *Window, icon fyne.Resource, words func() string, do func()) *signButton {
	b := &signButton{w: w, words: words}
	b.Icon, b.OnTapped, b.Importance = icon, do, widget.LowImportance
	b.ExtendBaseWidget(b)
	return b
}

// hint is what the button does, in words.
func (b *signButton) hint() string { return b.words() }

// MouseIn implements desktop.Hoverable.
func (b *signButton) MouseIn(ev *desktop.MouseEvent) {
	b.Button.MouseIn(ev)
	b.w.say(b.hint())
}

// MouseOut implements desktop.Hoverable.
func (b *signButton) MouseOut() {
	b.Button.MouseOut()
	b.w.say("")
}

// FocusGained implements fyne.Focusable.
func (b *signButton) FocusGained() {
	b.ringButton.FocusGained()
	b.w.say(b.hint())
}
