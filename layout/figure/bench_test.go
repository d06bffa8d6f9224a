package figure

import (
	"context"
	"image"
	"image/color"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
)

func picture(w, h int) *image.RGBA {
	rng := rand.New(rand.NewPCG(1, 1))
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		v := uint8(100 + rng.IntN(60))
		img.SetRGBA(i%w, i/w, color.RGBA{v, v, v, 255})
	}
	return img
}

// A face of 2400 x 210 mm at 1 px a mm.
func BenchmarkFromImage(b *testing.B) {
	img := picture(2400, 210)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := FromImage(context.Background(), img, 2400, 210, 0); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	m, err := FromImage(context.Background(), picture(2400, 210), 2400, 210, 0)
	if err != nil {
		b.Fatal(err)
	}
	s := face.Strip{Board: &face.Board{Length: 2400, Width: 210}, X: 100, Y: 20, L: 930, W: 95, Up: 1}
	b.ReportAllocs()
	for b.Loop() {
		Read(&s, [2]*Map{m, nil}, Limits{})
	}
}
