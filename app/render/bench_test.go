package render

import (
	"image"
	"image/color"
	"testing"

	"heartside/layout/geom"
)

func BenchmarkImageMegapixel(b *testing.B) {
	src, dst := white(1500, 400), white(1000, 1000)
	r := NewRaster(dst, 1, faces(b))
	m := geom.Rotate(3).Then(geom.Scale(0.9, 3)).Then(geom.Translate(-20, -40))
	for b.Loop() {
		r.Image(src, m, Box(geom.R(0, 0, 1000, 1000)))
	}
}

func BenchmarkFillMegapixel(b *testing.B) {
	r := NewRaster(image.NewRGBA(image.Rect(0, 0, 1000, 1000)), 1, faces(b))
	for b.Loop() {
		r.Fill(Box(geom.R(0, 0, 1000, 1000)), color.NRGBA{R: 200, A: 255})
	}
}

func BenchmarkHatch(b *testing.B) {
	r := NewRaster(white(1000, 400), 1, faces(b))
	for b.Loop() {
		r.Hatch(Box(geom.R(0, 0, 1000, 400)), Hatch{Angle: 45, Spacing: 7, Pen: Pen{Width: 1, Color: ink}})
	}
}

func BenchmarkTextLine(b *testing.B) {
	r := NewRaster(white(1000, 100), 1, faces(b))
	for b.Loop() {
		r.Text(geom.Pt(10, 50), "strip A1 · 930 x 92 mm, heart side up", Style{Size: 14, Color: ink})
	}
}
