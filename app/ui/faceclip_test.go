package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
)

// cut lists texts that have less room than they need, or reach out of the
// window.
func cut(t *testing.T, o fyne.CanvasObject, room fyne.Size) {
	t.Helper()
	switch x := o.(type) {
	case *fyne.Container:
		if !x.Visible() {
			return
		}
		for _, c := range x.Objects {
			cut(t, c, room)
		}
	case *container.Scroll:
		for _, c := range []fyne.CanvasObject{x.Content} {
			cut(t, c, fyne.NewSize(room.Width, 1e6)) // what is below can be scrolled to
		}
	case *widget.Label:
		check(t, x, x.Text, room)
	case *pageButton:
		check(t, x, x.Text, room)
	case *tick:
		check(t, x, x.Text, room)
	}
}

func check(t *testing.T, o fyne.CanvasObject, text string, room fyne.Size) {
	t.Helper()
	if !o.Visible() || text == "" {
		return
	}
	need, has := o.MinSize(), o.Size()
	if need.Width > has.Width+1 || need.Height > has.Height+1 {
		t.Errorf("%q needs %v and has %v", text, need, has)
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	if at.X < -1 || at.X+has.Width > room.Width+1 || at.Y+has.Height > room.Height+1 {
		t.Errorf("%q at %v, %v large, reaches out of %v", text, at, has, room)
	}
}

func TestNothingOnTheFaceIsCut(t *testing.T) {
	for _, text := range TextSizes() {
		for _, size := range []fyne.Size{windowSize(), fyne.NewSize(1920, 1080)} {
			s := faceAt(t, smallBoard(), text)
			s.win.Resize(size)
			s.ed.far = 0.2
			s.types("s")
			m := s.p.zones.canvas.view.room.Centre()
			s.strokeBy(m, m.Add(geom.Pt(30, 0)))
			s.acts(t)
			for range 2 { // with the line of a stroke that reached far, and the corners
				s.p.all.Refresh()
				cut(t, s.p.all, size)
				if c := s.p.home().(fyne.CanvasObject).Size(); c.Height < 0.25*size.Height || c.Width < 0.5*size.Width {
					t.Errorf("text %d: of %v only %v is left for the picture", text, size, c)
				}
				s.types("c")
			}
			if t.Failed() {
				t.Fatalf("that is at %d %%, %v", text, size)
			}
		}
	}
}
