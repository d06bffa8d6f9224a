package split

import (
	"context"
	"image"
	"image/color"
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// drawn is a face of heartwood with sapwood where sap says so, with rings and
// noise as wood has them.
func drawn(w, h int, contrast float64, sap func(x, y float64) bool) *photo.Squared {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	seed := uint32(1)
	random := func() float64 {
		seed ^= seed << 13
		seed ^= seed >> 17
		seed ^= seed << 5
		return float64(seed)/float64(1<<32) - .5
	}
	grain := make([]float64, h)
	for y := range grain {
		grain[y] = .06*math.Sin(float64(y)*.9+2*math.Sin(float64(y)*.05)) + .08*random()
	}
	for y := range h {
		for x := range w {
			// Log light of dark heartwood; sapwood is lighter, least in red.
			l := [3]float64{-1.2, -1.9, -2.6}
			if sap(float64(x)+.5, float64(h-y)-.5) {
				l[0] += .42 * contrast
				l[1] += .60 * contrast
				l[2] += .66 * contrast
			}
			n := grain[y] + .15*random()
			var px [3]uint8
			for c := range l {
				v := math.Exp(l[c] + n*(1+.15*float64(c)))
				px[c] = uint8(255*math.Pow(math.Min(v, 1), 1/2.2) + .5)
			}
			img.SetRGBA(x, y, color.RGBA{px[0], px[1], px[2], 255})
		}
	}
	return &photo.Squared{Pix: img, PxPerMM: 1, Length: float64(w), Width: float64(h)}
}

func long() *photo.Squared {
	return drawn(2400, 300, 1, func(x, y float64) bool { return y < 60+10*math.Sin(x/200) || y > 270 })
}

func BenchmarkNew(b *testing.B) {
	s := long()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(context.Background(), s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAuto(b *testing.B) {
	f, err := New(context.Background(), long())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Auto(context.Background()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWith(b *testing.B) {
	f, err := New(context.Background(), long())
	if err != nil {
		b.Fatal(err)
	}
	r, err := f.Auto(context.Background())
	if err != nil {
		b.Fatal(err)
	}
	strokes := []Stroke{{Kind: photo.Heart, Points: []geom.Point{{X: 500, Y: 40}, {X: 600, Y: 42}}, Width: 4}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.With(context.Background(), r, strokes); err != nil {
			b.Fatal(err)
		}
	}
}
