package ui

import "fyne.io/fyne/v2"

// helpButton is a button of the help: a letter typed on it begins the search.
type helpButton struct {
	pageButton
	p *helpPage
}

func newHelpButton(p *helpPage, text string, do func()) *helpButton {
	b := &helpButton{p: p}
	b.w, b.keys = p.w, p.key
	b.Text, b.OnTapped = text, do
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained implements fyne.Focusable.
func (b *helpButton) FocusGained() {
	b.ringButton.FocusGained()
	b.w.reached(b)
}

// TypedRune implements fyne.Focusable.
func (b *helpButton) TypedRune(r rune) {
	if r != ' ' { // that presses the button
		b.p.sign(r)
	}
}

var _ fyne.Focusable = (*helpButton)(nil)
