package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// dialogKey does what Escape and Enter do in every part of a dialog, and
// reports whether the key was one of them.
func (w *Window) dialogKey(ev *fyne.KeyEvent) bool {
	if w.asks == nil {
		return w.pageKey(ev)
	}
	switch ev.Name {
	case fyne.KeyEscape:
		w.asks.cancel()
	case fyne.KeyReturn, fyne.KeyEnter:
		w.asks.confirm()
	default:
		return false
	}
	return true
}

// reached brings a part of a dialog or a page that got the keys into sight.
func (w *Window) reached(o fyne.CanvasObject) {
	if w.asks != nil {
		w.asks.reveal(o)
	} else if w.page != nil {
		w.page.reveal(o)
	}
}

// mended takes the message of the dialog away once something is changed.
func (w *Window) mended() {
	if w.asks != nil {
		w.asks.tell("")
	}
}

// pick is a drop-down of a dialog that knows Escape and Enter.
type pick struct {
	widget.Select
	w       *Window
	changed func()
	gained  func() // the keys came here
}

// choice is a drop-down of texts for values.
func choice[T comparable](w *Window, values []T, say func(T) string, now T) *pick {
	s := &pick{w: w}
	for _, v := range values {
		s.Options = append(s.Options, say(v))
		if v == now {
			s.Selected = say(v)
		}
	}
	s.OnChanged = func(string) {
		w.mended()
		if s.changed != nil {
			s.changed()
		}
	}
	s.ExtendBaseWidget(s)
	return s
}

// chosen returns the value of a drop-down, the first where none is chosen.
func chosen[T any](s *pick, values []T) T { return values[max(s.SelectedIndex(), 0)] }

// relabel writes the texts of a drop-down anew, with a value chosen and without
// telling anyone.
func relabel[T comparable](s *pick, values []T, say func(T) string, now T) {
	s.Options = s.Options[:0]
	for _, v := range values {
		s.Options = append(s.Options, say(v))
		if v == now {
			s.Selected = say(v)
		}
	}
	s.Refresh()
}

// take chooses without telling anyone.
func (s *pick) take(i int) {
	s.Selected = s.Options[i]
	s.Refresh()
}

// TypedKey implements fyne.Focusable.
func (s *pick) TypedKey(ev *fyne.KeyEvent) {
	if !s.w.dialogKey(ev) {
		s.Select.TypedKey(ev)
	}
}

// FocusGained implements fyne.Focusable.
func (s *pick) FocusGained() {
	s.Select.FocusGained()
	s.w.reached(s)
	if s.gained != nil {
		s.gained()
	}
}

// tick is a box to tick that knows Escape and Enter.
type tick struct {
	widget.Check
	w     *Window
	enter func() // what Enter does on a page
}

func newTick(w *Window, text string, on bool, changed func()) *tick {
	t := &tick{w: w}
	t.Text, t.Checked = text, on
	t.OnChanged = func(bool) {
		w.mended()
		if changed != nil {
			changed()
		}
	}
	t.ExtendBaseWidget(t)
	return t
}

// TypedKey implements fyne.Focusable.
func (t *tick) TypedKey(ev *fyne.KeyEvent) {
	switch {
	case t.w.dialogKey(ev):
	case t.enter != nil && (ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter):
		t.enter()
	default:
		t.Check.TypedKey(ev)
	}
}

// FocusGained implements fyne.Focusable.
func (t *tick) FocusGained() {
	t.Check.FocusGained()
	t.w.reached(t)
}

// fileList is a list that knows Escape and Enter.
type fileList struct {
	widget.List
	w     *Window
	all   func()     // Ctrl+A, nil: nothing
	typed func(rune) // a letter typed on the list
}

func newFileList(w *Window, length func() int, make func() fyne.CanvasObject, draw func(int, fyne.CanvasObject)) *fileList {
	l := &fileList{w: w}
	l.Length, l.CreateItem, l.UpdateItem = length, make, draw
	l.ExtendBaseWidget(l)
	return l
}

// TypedShortcut implements fyne.Shortcutable.
func (l *fileList) TypedShortcut(sc fyne.Shortcut) {
	if _, is := sc.(*fyne.ShortcutSelectAll); is && l.all != nil {
		l.all()
	}
}

// TypedRune implements fyne.Focusable.
func (l *fileList) TypedRune(r rune) {
	if l.typed != nil {
		l.typed(r)
		return
	}
	l.List.TypedRune(r)
}

// TypedKey implements fyne.Focusable.
func (l *fileList) TypedKey(ev *fyne.KeyEvent) {
	if !l.w.dialogKey(ev) {
		l.List.TypedKey(ev)
	}
}
