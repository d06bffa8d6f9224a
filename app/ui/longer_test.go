package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// longer says every text of the program two fifths longer, as other languages may.
func longer(t *testing.T) {
	t.Helper()
	out := map[string]string{}
	for text := range saidTexts(t) {
		body := strings.TrimRight(text, " ")
		blanks := text[len(body):]
		if at := strings.LastIndex(body, " ["); at > 0 && strings.HasSuffix(body, "]") { // of what it is said
			body = body[:at]
		}
		more := len([]rune(body)) * 2 / 5
		pad := strings.Repeat("länger ", more/7+1)
		out[text] = body + " " + strings.TrimSpace(string([]rune(pad)[:max(more-1, 1)])) + blanks
	}
	say.Use("xx", out)
	t.Cleanup(func() { say.Use("", nil) })
}

// With text two fifths longer every page goes into the window as it is, and nothing
// that is seen runs over its border.
func TestLongerTextFits(t *testing.T) {
	longer(t)
	for _, id := range pagesToReach() {
		for _, wide := range []float32{1280, 1920} {
			s := demo(t, 100)
			s.win.Resize(fyne.NewSize(wide, 800))
			s.q.drain()
			if id != "" {
				s.act(id)
			}
			s.q.drain()
			if s.asks != nil {
				s.asks.cancel()
			}
			if got := s.win.Canvas().Size(); got.Width > wide+1 || got.Height > 801 {
				t.Errorf("page %q at %g: the window asks for %g x %g", id, wide, got.Width, got.Height)
			}
			d := fyne.CurrentApp().Driver()
			for _, o := range shownObjects(s.win.Content()) {
				l, ok := o.(*widget.Label)
				if !ok || l.Truncation != 0 {
					continue
				}
				if x := d.AbsolutePositionForObject(o).X + o.Size().Width; x > wide+14 {
					t.Errorf("page %q at %g: %q ends at %g", id, wide, l.Text, x)
				}
			}
			s.win.Close()
		}
	}
}
