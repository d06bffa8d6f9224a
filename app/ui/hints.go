package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// hints are three short lines at the foot of the drawing surface for the first
// hour, one at a time. Each leaves when it is followed or put away, and does not
// come again before it is asked for.
type hints struct {
	w    *Window
	box  *fyne.Container
	text *widget.Label
	on   bool           // this start shows them
	at   int            // the one that shows, -1 none
	was  *model.Project // as it stood when the hint came up
	room func()         // lays out again what the hints stand in
}

// The hints in the order they come.
const (
	hintDrag = iota
	hintRoll
	hintFix
	allHints
)

// addHintActions lists what puts hints away and brings them back.
func (w *Window) addHintActions() {
	w.acts.add(
		&Action{ID: "hint-away", Label: say.T("Put the hint away"), Group: groupView, Keys: []Chord{ctrlShift(fyne.KeyH)}, Hint: say.T("The next one comes, if there is one."),
			Can: func() bool { return w.hints.at >= 0 && w.page == nil }, Do: func() { w.hints.away() }},
		&Action{ID: "hints-again", Label: say.T("Show the hints again"), Group: groupView, Keys: []Chord{ctrlShift(fyne.KeyA)}, Hint: say.T("The three short hints of the first start."),
			Do: w.hintsAgain},
	)
}

func newHints(w *Window) *hints {
	h := &hints{w: w, at: -1}
	h.text = wrapped("", widget.MediumImportance)
	next := newPageButton(w, say.F("Got it (%s)", w.acts.byID["hint-away"].keyNames()), func() { h.away() })
	next.keys = func(ev *fyne.KeyEvent) bool {
		if ev.Name == fyne.KeyEscape {
			w.takeKeys()
			return true
		}
		return false
	}
	h.box = container.NewVBox(widget.NewSeparator(), container.NewPadded(container.New(hintLayout{w}, h.text, next)))
	h.box.Hide()
	return h
}

// begin shows the hints that were not followed yet, from now on.
func (h *hints) begin() {
	h.on, h.at = true, -1
	h.follow()
}

// hintsAgain shows all of them once more.
func (w *Window) hintsAgain() {
	w.set.keepHints(0)
	if w.page != nil {
		w.pastDraft(func() { w.turnTo(nil) })
	}
	w.hints.begin()
	if w.hints.at < 0 {
		w.say(say.F("The hints speak of a panel with strips on boards. Open the demo with %s to see them.", w.acts.byID["demo"].keyNames()))
	}
}

// away puts the hint aside as done.
func (h *hints) away() {
	h.done(h.at)
	h.w.takeKeys()
}

// done notes that a hint needs not come again.
func (h *hints) done(i int) {
	if i < 0 {
		return
	}
	h.w.set.keepHints(h.w.set.hints() | 1<<i)
	h.at = -1
	h.follow()
}

// follow looks whether the hint was followed, and shows the next.
func (h *hints) follow() {
	if h == nil || !h.on || h.w.ses.Previewing() {
		return
	}
	now := h.w.ses.Committed()
	if h.at >= 0 && h.was != now {
		if h.followed(now) {
			h.done(h.at)
			return
		}
	}
	next, text := -1, ""
	for i := range allHints {
		if h.w.set.hints()&(1<<i) != 0 {
			continue
		}
		if text = h.words(i); text != "" {
			next = i
			break
		}
	}
	if next != h.at || h.was == nil {
		h.at, h.was = next, now
	}
	if text != h.text.Text || h.box.Hidden != (next < 0) {
		h.text.SetText(text)
		setShown(h.box, next >= 0)
		if h.room != nil {
			h.room()
		}
	}
}

// followed reports whether the hint on screen was followed since it came up.
func (h *hints) followed(now *model.Project) bool {
	for i := range now.Panels {
		n := h.was.Panel(now.Panels[i].ID)
		if n == nil {
			continue
		}
		for _, s := range now.Panels[i].Strips {
			old, ok := n.Strip(s.ID)
			if !ok || s.Board == "" || old.Board != s.Board {
				continue
			}
			if h.at == hintDrag && (old.X != s.X || old.Y != s.Y) || h.at == hintRoll && old.Up != s.Up {
				return true
			}
		}
	}
	return false
}

// fixed notes that a fix was taken.
func (h *hints) fixed() {
	if h.on && h.at == hintFix {
		h.done(hintFix)
	}
}

// words are the text of a hint as things are, "" where it would not be true.
func (h *hints) words(i int) string {
	w := h.w
	n := w.panel()
	if n == nil {
		return ""
	}
	switch i {
	case hintDrag, hintRoll:
		for _, s := range n.Strips {
			if s.Board == "" || s.Pinned || s.Stage != "" && s.Stage != model.Planned {
				continue
			}
			name := w.ses.Number(n.ID, s.ID)
			if in, ok := n.Strip(w.ses.Selected().Strip); ok && in.Board != "" && !in.Pinned {
				name = w.ses.Number(n.ID, in.ID)
			}
			if i == hintDrag {
				return say.F("Drag strip %s along its board, below: the panel above follows.", name)
			}
			return say.F("Click strip %s and press R: it rolls over and shows its other face. R again rolls it back.", name)
		}
	case hintFix:
		for _, note := range w.column.notes {
			if len(note.Fixes) > 0 {
				return say.F("A warning beside the panel offers a fix. %s points at a warning, %s does its first fix, %s takes it back.", w.acts.byID["next-warning"].keyNames(), w.acts.byID["apply-fix"].keyNames(), w.acts.byID["undo"].keyNames())
			}
		}
	}
	return ""
}

// hintLayout sets the button beside the text, or under it where text is so large
// that it would be squeezed.
type hintLayout struct{ w *Window }

// MinSize implements fyne.Layout.
func (l hintLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	text, next := o[0].MinSize(), o[1].MinSize()
	if l.w.large() {
		return fyne.NewSize(max(text.Width, next.Width), text.Height+theme.Padding()+next.Height)
	}
	return fyne.NewSize(text.Width+theme.Padding()+next.Width, max(text.Height, next.Height))
}

// Layout implements fyne.Layout.
func (l hintLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	next := o[1].MinSize()
	o[1].Resize(next)
	if l.w.large() {
		o[0].Move(fyne.NewPos(0, 0))
		o[0].Resize(fyne.NewSize(size.Width, size.Height-next.Height-theme.Padding()))
		o[1].Move(fyne.NewPos(size.Width-next.Width, size.Height-next.Height))
		return
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width-next.Width-theme.Padding(), size.Height))
	o[1].Move(fyne.NewPos(size.Width-next.Width, 0))
}
