package ui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
)

// shownObjects are all objects of the window that are seen, widgets' own too.
func shownObjects(o fyne.CanvasObject) []fyne.CanvasObject {
	if o == nil || !o.Visible() {
		return nil
	}
	out := []fyne.CanvasObject{o}
	switch x := o.(type) {
	case *fyne.Container:
		for _, in := range x.Objects {
			out = append(out, shownObjects(in)...)
		}
	case fyne.Widget:
		for _, in := range test.WidgetRenderer(x).Objects() {
			out = append(out, shownObjects(in)...)
		}
	}
	return out
}

// pagesToReach are the pages that an action turns to.
func pagesToReach() []string {
	return []string{"", "rack", "arrange", "match", "keep-trim", "behave", "bench", "sheet", "yard", "left", "record", "help"}
}

// Tab comes to everything that takes keys, on every page.
func TestTabReachesAll(t *testing.T) {
	for _, id := range pagesToReach() {
		t.Run("page "+id, func(t *testing.T) {
			s := demo(t, 100)
			s.q.drain()
			if id != "" && !s.act(id) {
				t.Skip("asks for a choice first")
			}
			s.q.drain()
			if s.asks != nil {
				s.asks.cancel()
			}
			want := map[fyne.Focusable]bool{}
			for _, o := range shownObjects(s.win.Content()) {
				f, ok := o.(fyne.Focusable)
				if d, may := o.(fyne.Disableable); !ok || may && d.Disabled() {
					continue
				}
				want[f] = true
			}
			if len(want) < 5 {
				t.Fatalf("%d widgets take keys: the page is not seen", len(want))
			}
			c := s.win.Canvas()
			for range 2*len(want) + 20 {
				c.FocusNext()
				delete(want, c.Focused())
			}
			for f := range want {
				t.Errorf("Tab does not come to %s", objectName(f))
			}
		})
	}
}

// A button that shows a picture alone says what it does: no button is without
// words, neither on it nor in its hint.
func TestButtonsAreNamed(t *testing.T) {
	for _, id := range pagesToReach() {
		s := demo(t, 100)
		s.q.drain()
		if id != "" {
			s.act(id)
		}
		s.q.drain()
		n := 0
		for _, o := range shownObjects(s.win.Content()) {
			text, is := buttonText(o)
			if !is {
				continue
			}
			n++
			if h, ok := o.(interface{ hint() string }); strings.TrimSpace(text) == "" && (!ok || h.hint() == "") {
				t.Errorf("page %q: a button %T has no words and no hint", id, o)
			}
		}
		if n == 0 {
			t.Errorf("page %q: no button is seen", id)
		}
	}
}

// buttonText is what stands on a button of any of the window's kinds.
func buttonText(o fyne.CanvasObject) (string, bool) {
	switch x := o.(type) {
	case *widget.Button:
		return x.Text, true
	case *hintButton:
		return x.Text, true
	case *pageButton:
		return x.Text, true
	case *behaveButton:
		return x.Text, true
	case *dialogButton:
		return x.Text, true
	case *helpButton:
		return x.Text, true
	case *signButton:
		return x.Text, true
	}
	return "", false
}

func objectName(f fyne.Focusable) string {
	if o, ok := f.(fyne.CanvasObject); ok {
		if s, is := buttonText(o); is {
			return fmt.Sprintf("%T %q", f, s)
		}
	}
	if x, ok := f.(*field); ok {
		return fmt.Sprintf("a field %q", x.PlaceHolder)
	}
	return fmt.Sprintf("%T", f)
}

// Without boards or panels every page says what to do next, with a key.
func TestEmptyPagesSayWhatToDo(t *testing.T) {
	for _, boards := range []bool{false, true} {
		for _, id := range pagesToReach() {
			s := open(t, session.Blank(), 100)
			if boards {
				withBoards(t, s)
			}
			if id != "" && !s.act(id) {
				continue // greyed until there is something to do it to
			}
			s.q.drain()
			said := ""
			for _, o := range shownObjects(s.win.Content()) {
				if l, ok := o.(*widget.Label); ok {
					said += l.Text + "\n"
				}
				if text, ok := buttonText(o); ok {
					said += text + "\n"
				}
			}
			named := false
			for _, key := range []string{"Ctrl+B", "Ctrl+T", "Ctrl+I", "F5"} {
				named = named || strings.Contains(said, key)
			}
			// The yard and the rack have fields to type in, the help has texts.
			if full := id == "yard" || id == "help" || id == "rack"; !named && !full {
				t.Errorf("page %q, boards %v: names no next step with its key:\n%s", id, boards, said)
			}
		}
	}
}

// withBoards gives a project the boards of an example, and no panel.
func withBoards(t *testing.T, s stage) {
	t.Helper()
	if err := s.openExample("tabletop.yaml"); err != nil {
		t.Fatal(err)
	}
	p := *s.ses.Project()
	p.Panels = nil
	s.ses.Replace(&p)
	s.opened()
}
