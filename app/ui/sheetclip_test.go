package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

func TestNothingOnTheSheetIsCut(t *testing.T) {
	for _, text := range TextSizes() {
		for _, size := range []fyne.Size{windowSize(), fyne.NewSize(1920, 1080)} {
			s := sheetAt(t, text)
			s.win.Resize(size)
			s.p.side.tell("✓ Wrote console.pdf: 19 pages. It lies in /home/maker/jobs/hall console.")
			for _, busy := range []bool{false, true} {
				s.p.m.busy = busy
				s.p.shown()
				s.p.all.Refresh()
				if m := s.win.Content().MinSize(); m.Width > size.Width || m.Height > size.Height {
					t.Errorf("it needs %v", m)
				}
				cut(t, s.p.all, size)
				for _, o := range inside(s.p.side.body) {
					if k, ok := o.(*sheetTick); ok {
						check(t, k, k.Text, fyne.NewSize(size.Width, 1e6))
					}
				}
				for _, k := range s.p.list.thumbs {
					cut(t, k.box, fyne.NewSize(size.Width, 1e6))
				}
			}
			if v := s.p.view.Size(); v.Height < 0.4*size.Height || v.Width < 0.35*size.Width {
				t.Errorf("%v of %v is left for the page", v, size)
			}
			if t.Failed() {
				t.Fatalf("that is at %d %%, %v", text, size)
			}
		}
	}
}
