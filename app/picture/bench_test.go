package picture

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"runtime"
	"testing"
)

// twelve returns a JPEG of 12 million pixels with something in each of them.
func twelve(b *testing.B) []byte {
	m := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range m.Y {
		m.Y[i] = uint8(100 + (i*7919)>>9&63 + i%4000/50)
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = 110, uint8(140+i%7)
	}
	var w bytes.Buffer
	if err := jpeg.Encode(&w, m, &jpeg.Options{Quality: 88}); err != nil {
		b.Fatal(err)
	}
	return w.Bytes()
}

// Bytes taken in all by one decoding are its peak as well, nearly: the
// decoder's 18 MB, and 48 MB for pixels that are turned or converted.
func BenchmarkDecode12(b *testing.B) {
	p := twelve(b)
	b.ReportAllocs()
	b.SetBytes(12e6)
	for b.Loop() {
		if _, _, err := Decode(context.Background(), bytes.NewReader(p), Limits{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTurned12(b *testing.B) {
	s, err := jpeg.Decode(bytes.NewReader(twelve(b)))
	if err != nil {
		b.Fatal(err)
	}
	o := &opened{raw: raw{w: 4000, h: 3000, turn: 6}}
	for name, space := range map[string]string{"sRGB": "", "P3": "Display P3"} {
		o.conv, _, _ = conversionOf(nil, space)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := upright(context.Background(), s, o); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkReduced12(b *testing.B) {
	p := twelve(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := DecodeReduced(context.Background(), bytes.NewReader(p), Longest, Limits{}); err != nil {
			b.Fatal(err)
		}
	}
}

// 200 faces of 2400 x 210 pixels, as a project's boards are opened again.
func BenchmarkStore200(b *testing.B) {
	m := image.NewRGBA(image.Rect(0, 0, 2400, 210))
	for i := range m.Pix {
		m.Pix[i] = uint8(90 + (i*7919)>>9&31)
	}
	for _, c := range []struct {
		name string
		as   Coding
	}{{"Plain", Plain}, {"JPEG", JPEG}, {"PNG", PNG}} {
		b.Run(c.name, func(b *testing.B) {
			s := NewStore(b.TempDir(), 1<<30)
			for i := range 200 {
				if err := s.PutImage(fmt.Sprint(i), m, c.as); err != nil {
					b.Fatal(err)
				}
			}
			runtime.GC()
			b.ReportAllocs()
			for b.Loop() {
				for i := range 200 {
					if _, ok := s.GetImage(fmt.Sprint(i)); !ok {
						b.Fatal("gone")
					}
				}
			}
		})
	}
}
