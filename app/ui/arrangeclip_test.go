package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

func TestGalleryReflowsAndNothingIsCut(t *testing.T) {
	for _, text := range TextSizes() {
		for _, size := range []fyne.Size{fyne.NewSize(900, 640), windowSize(), fyne.NewSize(1920, 1080)} {
			s := arrangeAt(t, text)
			s.win.Resize(size)
			s.ends(t, s.five(), nil)
			g := s.p.gallery
			for range 3 { // all, then those compared
				s.p.all.Refresh()
				if m := s.win.Content().MinSize(); m.Width > size.Width || m.Height > size.Height {
					t.Errorf("it needs %v", m)
				}
				cut(t, s.p.all, size)
				cols := g.columns(g.box.Size().Width)
				for i, tile := range g.tiles[:len(g.shown)] {
					cut(t, tile.box, fyne.NewSize(size.Width, 1e6))
					if k := i % cols; k > 0 && tile.Position().Y != g.tiles[i-1].Position().Y {
						t.Errorf("tile %d of %d columns begins another row", i, cols)
					}
					if low := tile.text.Position().Y + tile.text.MinSize().Height; low > tile.Size().Height+pad() {
						t.Errorf("the words of tile %d end at %.0f of %.0f", i, low, tile.Size().Height)
					}
					if p, z := tile.img.Position(), tile.img.Size(); p.X < 0 || p.X+z.Width > tile.Size().Width+0.5 || z.Height < 4*tickSide()/2 {
						t.Errorf("the picture of tile %d lies at %v, %v large", i, p, z)
					}
				}
				if h := g.scroll.Size().Height; h < 0.35*size.Height {
					t.Errorf("%.0f of %.0f are left for the pictures", h, size.Height)
				}
				s.takeKeys()
				switch {
				case len(s.p.ticked) == 0:
					s.pressed(fyne.KeySpace)
					s.typed("1")
					s.pressed(fyne.KeySpace)
				default:
					s.typed("c")
				}
			}
			if t.Failed() {
				t.Fatalf("that is at %d %%, %v", text, size)
			}
		}
	}
	columns := map[float32]int{}
	s := arrangeAt(t, 100)
	for _, w := range []float32{300, 500, 800, 2000} {
		columns[w] = s.p.gallery.columns(w)
	}
	if columns[300] != 1 || columns[500] != 2 || columns[800] != 3 || columns[2000] != 3 {
		t.Errorf("columns by width: %v", columns)
	}
}
