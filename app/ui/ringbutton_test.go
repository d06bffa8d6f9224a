package ui

import (
	"testing"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// The ring is there while the button has the keys, and stands out from the ground
// by 3:1 at least in both themes (WCAG 2.2, 1.4.11).
func TestFocusedButtonsHaveARing(t *testing.T) {
	for _, look := range []Look{Light, Dark} {
		s := demo(t, 100)
		s.restyle(look, 100)
		b := newPageButton(s.Window, "Look", func() {})
		s.win.SetContent(b)
		ring := func() *canvas.Rectangle {
			objs := test.WidgetRenderer(b).Objects()
			r, ok := objs[len(objs)-1].(*canvas.Rectangle)
			if !ok {
				t.Fatalf("the last of %d is a %T", len(objs), objs[len(objs)-1])
			}
			return r
		}
		if ring().Visible() {
			t.Errorf("%s: a ring without the keys", look)
		}
		s.win.Canvas().Focus(b)
		r := ring()
		if !r.Visible() || r.StrokeWidth < 2 {
			t.Errorf("%s: no ring with the keys", look)
		}
		if got := contrastOf(nrgba(r.StrokeColor), nrgba(theme.Color(theme.ColorNameBackground))); got < 3 {
			t.Errorf("%s: the ring is %.1f:1 to the ground", look, got)
		}
		s.win.Canvas().Unfocus()
		if ring().Visible() {
			t.Errorf("%s: the ring stays", look)
		}
	}
}
