package photo

import (
	"image"
	"image/color"
	"math"
	"testing"

	"heartside/layout/colour"
)

// flatColour is a squared face of one colour per quarter.
func quarters() *Squared {
	img := image.NewRGBA(image.Rect(0, 0, 40, 20))
	for y := 0; y < 20; y++ {
		for x := 0; x < 40; x++ {
			c := color.RGBA{255, 255, 255, 255}
			switch {
			case x < 20 && y >= 10: // lower left: the face's origin
				c = color.RGBA{255, 0, 0, 255}
			case y >= 10:
				c = color.RGBA{0, 0, 255, 255}
			case x < 20:
				c = color.RGBA{0, 255, 0, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return &Squared{Pix: img, PxPerMM: 1, Length: 40, Width: 20}
}

// CIELAB of the sRGB primaries, D65: Lindbloom's published values (rounded).
func TestFieldReadsTheFaceTheRightWayUp(t *testing.T) {
	f := quarters().Field(10)
	if f.NX != 4 || f.NY != 2 {
		t.Fatalf("%d x %d cells", f.NX, f.NY)
	}
	want := map[[2]int]colour.Lab{
		{0, 0}: {L: 53.24, A: 80.09, B: 67.20},
		{3, 0}: {L: 32.30, A: 79.19, B: -107.86},
		{0, 1}: {L: 87.73, A: -86.18, B: 83.18},
		{3, 1}: {L: 100},
	}
	for at, w := range want {
		g := f.Lab[at[1]*f.NX+at[0]]
		if math.Abs(g.L-w.L) > 0.1 || math.Abs(g.A-w.A) > 0.2 || math.Abs(g.B-w.B) > 0.2 {
			t.Errorf("cell %v is %v, want %v", at, g, w)
		}
	}
}

// Half white and half black hold half the light: Y = 0.5, L = 116 (1/2)^(1/3) - 16.
func TestFieldAveragesLight(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 10, 10))
	for i := 0; i < len(img.Pix); i += 4 {
		v := uint8(0)
		if i/4%2 == 0 {
			v = 255
		}
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = v, v, v, 255
	}
	s := &Squared{Pix: img, PxPerMM: 1, Length: 10, Width: 10}
	if got, want := s.Field(10).Lab[0].L, 116*math.Cbrt(0.5)-16; math.Abs(got-want) > 1e-6 {
		t.Errorf("L is %v, want %v", got, want)
	}
	// 10 mm in cells of 4: the last one covers 2.
	if f := s.Field(4); f.NX != 3 || f.NY != 3 {
		t.Errorf("%d x %d cells, want 3 x 3", f.NX, f.NY)
	}
	if s.Field(0) != nil {
		t.Error("cells of no size")
	}
}

func TestLevelsKeepTheMean(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 101, 37))
	for y := 0; y < 37; y++ {
		for x := 0; x < 101; x++ {
			img.SetRGBA(x, y, color.RGBA{uint8(2 * x), uint8(6 * y), 77, 255})
		}
	}
	s := &Squared{Pix: img, PxPerMM: 2, Length: 50.5, Width: 18.5}
	if s.Level(2) != img || s.Level(1.5) != img || s.Level(8) != img {
		t.Error("a finer level than asked for was passed over")
	}
	half := s.Level(1)
	if half.Rect.Dx() != 51 || half.Rect.Dy() != 19 {
		t.Fatalf("halved to %v", half.Rect)
	}
	if s.Level(1) != half {
		t.Error("the level was made twice")
	}
	// A ramp of 2 a pixel: pixel i of 51 has its middle at (i + 1/2) 101/51.
	for i := 0; i < 51; i++ {
		want := 2 * ((float64(i)+0.5)*101/51 - 0.5)
		if got := float64(half.RGBAAt(i, 3).R); math.Abs(got-want) > 1 {
			t.Fatalf("pixel %d is %v, want %.2f", i, got, want)
		}
	}
}
