package intake

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"os"
	"runtime"
	"runtime/metrics"
	"sync"
	"testing"
	"time"

	"golang.org/x/image/draw"

	"heartside/app/picture"
	"heartside/layout/geom"
	"heartside/layout/photo/light"
)

// twelve returns a photograph of a board as a JPEG of 12 million pixels, and
// the corners of the board in it. The board is 1120 x 160 mm; a long one of
// the same shape would fill the picture as this one does.
func twelve(b testing.TB) ([]byte, [4]geom.Point) {
	b.Helper()
	f, err := os.Open("../../testdata/boards/c03-walnut-L3-1.jpg")
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	small, err := jpeg.Decode(f)
	if err != nil {
		b.Fatal(err)
	}
	k := 4000 / float64(small.Bounds().Dx())
	big := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	draw.CatmullRom.Scale(big, image.Rect(0, 0, 4000, int(k*float64(small.Bounds().Dy()))), small, small.Bounds(), draw.Src, nil)
	var w bytes.Buffer
	if err := jpeg.Encode(&w, big, &jpeg.Options{Quality: 92}); err != nil {
		b.Fatal(err)
	}
	// The truth of the photograph, which has 2000 x 1500 pixels.
	corners := [4]geom.Point{{X: 106.03, Y: 763.75}, {X: 1713.1, Y: 900.98}, {X: 1727.92, Y: 682.6}, {X: 131.72, Y: 523.14}}
	for i := range corners {
		corners[i] = corners[i].Mul(k)
	}
	return w.Bytes(), corners
}

// peak watches what the heap holds until the function it returns is called,
// which tells the most, bytes.
func peak() func() uint64 {
	var most uint64
	stop := make(chan struct{})
	var wait sync.WaitGroup
	wait.Go(func() {
		s := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}, {Name: "/memory/classes/heap/unused:bytes"}}
		tick := time.NewTicker(time.Millisecond)
		defer tick.Stop()
		for {
			metrics.Read(s)
			most = max(most, s[0].Value.Uint64()+s[1].Value.Uint64())
			select {
			case <-stop:
				return
			case <-tick.C:
			}
		}
	})
	return func() uint64 {
		close(stop)
		wait.Wait()
		return most
	}
}

// One photograph of 12 million pixels from its file to the face squared, split
// and in even light; the corners found, or given.
func BenchmarkFaceOf12Megapixels(b *testing.B) {
	data, corners := twelve(b)
	const long, wide = 2400, 2400 * 160. / 1120
	for name, ask := range map[string]Ask{"found": {Length: long, Width: wide}, "given": {Length: long, Width: wide, Corners: &corners}} {
		b.Run(name, func(b *testing.B) {
			ctx := context.Background()
			runtime.GC()
			ended := peak()
			b.ReportAllocs()
			for b.Loop() {
				img, _, err := picture.Decode(ctx, bytes.NewReader(data), picture.Limits{})
				if err != nil {
					b.Fatal(err)
				}
				s, err := Look(ctx, img, ask, func(Step) {})
				if err != nil {
					b.Fatal(err)
				}
				if _, _, err := light.Even(ctx, s.Squared, s.Split.Mask); err != nil {
					b.Fatal(err)
				}
				if _, err := s.reading(ctx); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(ended())/1e6, "peakMB")
		})
	}
}
