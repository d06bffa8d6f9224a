package ui

import (
	"slices"

	"fyne.io/fyne/v2"
)

// page is what the window shows in the place of panel, boards and readings,
// for work of its own. Menu, action row and status line stay.
type page interface {
	content() fyne.CanvasObject
	home() fyne.Focusable        // what has the keys first
	key(ev *fyne.KeyEvent) bool  // a key while nothing else takes it
	sign(r rune) bool            // a letter likewise
	reveal(o fyne.CanvasObject)  // scrolls so that an object that got the keys is in sight
	show()                       // the session holds something else now
	restyled()                   // look or size of text changed
	back() (to page, stays bool) // where Escape leads: nil for the panels
	row() []string               // what the action row offers beside files and history
	hint() string                // the status line where nothing is said
}

// turnTo shows a page, nil for the panels and boards.
func (w *Window) turnTo(p page) {
	w.nudge.settle()
	if was := w.sheetUp(); was != nil && p != page(was) {
		was.left(p)
	}
	if was, ok := w.page.(*arrangePage); ok && p != page(was) && !liesOver(p, was) {
		was.stop() // it searches no longer
	}
	if was, ok := w.page.(*matchPage); ok && p != page(was) && !liesOver(p, was) {
		was.stop()
	}
	shown := w.middle
	if p != nil {
		shown = p.content()
	}
	w.page, w.stack.Objects = p, []fyne.CanvasObject{shown}
	w.stack.Refresh()
	w.changed()
	w.say("")
	w.takeKeys()
	w.trace.page(p)
}

// leavePage does what Escape does on a page.
func (w *Window) leavePage() {
	if w.page == nil {
		return
	}
	if to, stays := w.page.back(); !stays {
		w.turnTo(to)
	}
}

// drafted is a page whose work is a draft until it is kept.
type drafted interface {
	page
	unsaved() bool
	leave(then func()) // asks about what is not kept; then follows unless the maker stays
	origin() page      // where the page was opened from
}

// pastDraft does what leads away from a page; where the page holds work that
// is not kept yet it asks first.
func (w *Window) pastDraft(then func()) {
	p, ok := w.page.(drafted)
	if !ok || !p.unsaved() {
		then()
		return
	}
	p.leave(func() {
		w.turnTo(p.origin())
		then()
	})
}

// takeKeys gives the keys to the page that is up, or to the surface.
func (w *Window) takeKeys() {
	if w.page != nil {
		w.win.Canvas().Focus(w.page.home())
		return
	}
	w.win.Canvas().Focus(w.surf)
}

// pageKey does what Escape does in every part of a page, and reports whether
// the key was that.
func (w *Window) pageKey(ev *fyne.KeyEvent) bool {
	if w.page == nil || w.asks != nil || ev.Name != fyne.KeyEscape {
		return false
	}
	w.leavePage()
	return true
}

// onPanels makes the actions on strips, panels and zones wait while a page
// hides what they would change.
func (w *Window) onPanels() {
	hidden := []string{groupStrip, groupPanel, groupZones}
	views := []string{"hatch", "before", "back", "depth", "zoom-in", "zoom-out", "fit", "true", "split-less", "split-more", "next-warning", "apply-fix", "menu", "next-board", "prev-board"}
	for _, a := range w.acts.list {
		if !slices.Contains(hidden, a.Group) && !slices.Contains(views, a.ID) {
			continue
		}
		can := a.Can
		a.Can = func() bool { return (w.page == nil || w.lets(a.ID)) && (can == nil || can()) }
	}
}

// pageButton is a button of a page that knows Escape and Enter.
type pageButton struct {
	ringButton
	w    *Window
	keys func(*fyne.KeyEvent) bool // of the page, for keys that mean nothing to a button; nil: none
}

func newPageButton(w *Window, text string, do func()) *pageButton {
	b := &pageButton{w: w}
	b.Text, b.OnTapped = text, do
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained implements fyne.Focusable.
func (b *pageButton) FocusGained() {
	b.ringButton.FocusGained()
	b.w.reached(b)
}

// TypedKey implements fyne.Focusable.
func (b *pageButton) TypedKey(ev *fyne.KeyEvent) {
	switch {
	case b.w.pageKey(ev):
	case ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter:
		if !b.Disabled() {
			b.OnTapped()
		}
	case b.keys != nil && b.keys(ev):
	default:
		b.Button.TypedKey(ev)
	}
}

// greyed makes a button usable or not.
func (b *pageButton) greyed(off bool) {
	if off == b.Disabled() {
		return
	}
	if off {
		b.Disable()
	} else {
		b.Enable()
	}
}
