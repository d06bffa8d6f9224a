package scene

import (
	"image/color"
	"math"
	"testing"

	"heartside/layout/colour"
)

// The portrait shows the finished face and no more: its shape is the panel's,
// the sapwood of the front strip lies where the zones say, the empty place is
// no wood.
func TestPortrait(t *testing.T) {
	in := table(t)
	p := in.Panel.Panel
	sit := Sitting{Faces: typefaces(t), Theme: Paper()}
	img := Portrait(p, sit, 900, 900)
	if img.Rect.Dx() != 900 || img.Rect.Dy() != 400 {
		t.Fatalf("a panel of 900 x 400 is %v", img.Rect)
	}
	heart, sap := colour.Lab{L: 36, A: 9, B: 15}, colour.Lab{L: 76, A: 5, B: 20}
	near := func(x, y int, want colour.Lab) {
		t.Helper()
		if got := colour.FromRGBA(img.RGBAAt(x, y)); colour.DeltaE(got, want) > 3 {
			t.Errorf("at %d, %d: %v, want %v", x, y, got, want)
		}
	}
	// Strips stand over both long edges alike: 424 mm in all on 400, so the
	// front one begins 12 mm before the edge. A1 lies up 1, not turned, with
	// its corner at (40, 8): sapwood 52 to 38 wide along its board's marked
	// edge reaches 44 to 30 into the strip, 32 to 18 into the panel.
	if y0 := p.StripY(0); math.Abs(y0+12) > 1e-9 {
		t.Fatalf("the first strip begins at %g", y0)
	}
	near(450, 400-8, sap)
	near(450, 400-45, heart)
	// The last place is empty.
	if c := img.RGBAAt(450, 5); c == (color.RGBA{}) || colour.DeltaE(colour.FromRGBA(c), heart) < 10 {
		t.Errorf("the empty place looks like wood: %v", c)
	}
	// Flat colours and no border: heartwood of one board is of one colour.
	if img.RGBAAt(450, 400-50) != img.RGBAAt(300, 400-60) {
		t.Error("something lies on the heartwood")
	}
	if Portrait(nil, sit, 9, 9).Rect.Dx() != 0 || Portrait(p, sit, 0, 9).Rect.Dx() != 0 {
		t.Error("no panel has a portrait")
	}
}

// The back shows what the other face of each strip holds.
func TestPortraitOfTheBack(t *testing.T) {
	in := table(t)
	p := in.Panel.Panel
	img := Portrait(p, Sitting{Faces: typefaces(t), Theme: Paper(), Back: true}, 900, 400)
	// Rolled over, the front strip A1 lies at the back edge. Under it is face 2,
	// of which sapwood 60 to 42 lies along the far edge, y = 150 to 210 of face
	// 2 and so y = 0 to 60 of face 1: again at the panel's edge.
	sap := colour.Lab{L: 76, A: 5, B: 20}
	if got := colour.FromRGBA(img.RGBAAt(450, 6)); colour.DeltaE(got, sap) > 3 {
		t.Errorf("the back edge of the back is %v", got)
	}
}
