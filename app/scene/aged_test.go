package scene

import (
	"testing"

	"heartside/layout/colour"
	"heartside/layout/face"
)

// Each kind of wood takes its own shift: in flat colours heartwood (36, 9, 15)
// shifted by (-10, +4, +3) is (26, 13, 18), sapwood is left. What is no wood
// stays as it is.
func TestPortraitOfAgedWood(t *testing.T) {
	in := table(t)
	p := in.Panel.Panel
	sit := Sitting{Faces: typefaces(t), Theme: Paper()}
	now := Portrait(p, sit, 900, 400)
	sit.Aged = func(b *face.Board, f int, k face.Kind) colour.Lab {
		if k == face.Heart {
			return colour.Lab{L: -10, A: 4, B: 3}
		}
		return colour.Lab{}
	}
	img := Portrait(p, sit, 900, 400)
	if got, want := colour.FromRGBA(img.RGBAAt(450, 400-45)), (colour.Lab{L: 26, A: 13, B: 18}); colour.DeltaE(got, want) > 1 {
		t.Errorf("heartwood is %v, want %v", got, want)
	}
	for _, y := range []int{400 - 8, 5} { // sapwood, and an empty place
		if img.RGBAAt(450, y) != now.RGBAAt(450, y) {
			t.Errorf("at %d the picture went from %v to %v", y, now.RGBAAt(450, y), img.RGBAAt(450, y))
		}
	}
	sit.Aged = func(*face.Board, int, face.Kind) colour.Lab { return colour.Lab{} }
	if same := Portrait(p, sit, 900, 400); string(same.Pix) != string(now.Pix) {
		t.Error("no shift changes the picture")
	}
}
