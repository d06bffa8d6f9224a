package ui

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
	"heartside/model/unit"
)

// field is a line of text in a dialog: Escape cancels the dialog, Enter
// confirms it.
type field struct {
	widget.Entry
	w      *Window
	narrow bool                      // room for a width only
	units  unit.System               // "" for the project's
	keys   func(*fyne.KeyEvent) bool // takes keys before the text does
	left   func()                    // the keys went elsewhere
}

func (w *Window) newField(text, hint string) *field {
	f := &field{w: w}
	f.ExtendBaseWidget(f)
	f.Text, f.PlaceHolder = text, hint
	f.Scroll = fyne.ScrollNone
	f.OnChanged = func(string) { w.mended() }
	f.OnSubmitted = func(string) {
		if f.left != nil {
			f.left()
		}
		if w.asks != nil {
			w.asks.confirm()
		}
	}
	return f
}

// follow calls do after each change of the text.
func (f *field) follow(do func()) {
	f.OnChanged = func(string) {
		f.w.mended()
		do()
	}
}

// TypedKey implements fyne.Focusable.
func (f *field) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyEscape && f.w.asks != nil {
		f.w.asks.cancel()
		return
	}
	if f.w.pageKey(ev) {
		return
	}
	if f.keys != nil && f.keys(ev) {
		return
	}
	f.Entry.TypedKey(ev)
}

// FocusGained brings the field into sight and selects its text, so that typing
// replaces it.
func (f *field) FocusGained() {
	f.Entry.FocusGained()
	if f.Text != "" { // selecting nothing would swallow the first sign typed
		f.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	f.w.reached(f)
}

// FocusLost implements fyne.Focusable.
func (f *field) FocusLost() {
	f.Entry.FocusLost()
	if f.left != nil {
		f.left()
	}
}

// MinSize keeps room for a length such as 1'-2 1/2".
func (f *field) MinSize() fyne.Size {
	m := f.Entry.MinSize()
	room := "1'-11 15/16\""
	if f.narrow {
		room = say.T("88.8 mm")
	}
	least := fyne.MeasureText(room, theme.TextSize(), fyne.TextStyle{}).Width + 3*theme.InnerPadding()
	if f.PlaceHolder != "" && !f.narrow { // a short one is to be read whole
		hint := fyne.MeasureText(f.PlaceHolder, theme.TextSize(), fyne.TextStyle{}).Width + 3*theme.InnerPadding()
		least = max(least, min(hint, 2*least))
	}
	return fyne.NewSize(least, m.Height)
}

// lengthField is a field for a length in the project's units; any unit may be
// typed.
func (w *Window) lengthField(mm float64, known bool) *field {
	text := ""
	if known {
		text = w.ses.Len(mm)
	}
	return w.newField(text, "")
}

// system is what a length without a unit is in.
func (f *field) system() unit.System {
	if f.units != "" {
		return f.units
	}
	return f.w.ses.Units()
}

// print is how the field shows a length.
func (f *field) print(mm float64) string { return unit.Format(mm, f.system()) }

// longestSize is what no length of a project may reach, mm.
const longestSize = 20000

// length reads a field as a length in mm. name says which, for the message.
func (f *field) length(name string) (float64, error) {
	mm, err := unit.Parse(f.Text, f.system())
	if err != nil {
		return 0, fmt.Errorf("%s: %w", name, err)
	}
	if mm >= longestSize || mm <= -longestSize {
		return 0, say.Errorf("%s: “%s” is too long; write less than %s", name, f.Text, f.print(longestSize))
	}
	return mm, nil
}

// size reads a length that must be more than 0.
func (f *field) size(name string) (float64, error) {
	mm, err := f.length(name)
	if err == nil && !(mm > 0) {
		err = say.Errorf("%s: “%s” is no size; write a length above nothing, such as %s", name, f.Text, f.print(190.5))
	}
	return mm, err
}

// kept is length, but where the text was not changed it gives the value that
// was shown, which may be finer than its print.
func (f *field) kept(name string, was float64) (float64, error) {
	if f.Text == f.print(was) {
		return was, nil
	}
	return f.length(name)
}

// number reads a plain figure, decimal comma or point; "" is 0.
func (f *field) number(name string) (float64, error) {
	s := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(f.Text), "%"))
	if s == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || v != v || v > 1e9 || v < -1e9 {
		return 0, say.Errorf("%s: “%s” is no number; write it like 8.1", name, f.Text)
	}
	return v, nil
}

// share reads a share typed in per cent; "any" and "" are all of it.
func (f *field) share(name string) (float64, error) {
	if t := strings.TrimSpace(strings.ToLower(f.Text)); t == "" || t == "any" || t == strings.ToLower(say.T("any")) {
		return 1, nil
	}
	v, err := f.number(name)
	if err != nil {
		return 0, err
	}
	if v < 0 || v > 100 {
		return 0, say.Errorf("%s: “%s” is no share; write 0 to 100 %%, or any", name, f.Text)
	}
	return v / 100, nil
}

// first returns the first error of several reads.
func first(errs ...error) error {
	for _, e := range errs {
		if e != nil {
			return e
		}
	}
	return nil
}

// pairs lays names and fields in rows.
func pairs(objs ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: pairsLayout{gap: pad}, Objects: objs}
}

// named is a label for pairs.
func named(s string) *widget.Label { return widget.NewLabel(s) }
