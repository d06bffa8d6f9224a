package scene

import (
	"fmt"
	"image"
	"testing"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// big is a 24-strip panel of 2400 x 1000 mm.
func big(t testing.TB) Input {
	in := table(t)
	in.Size = geom.Pt(1200, 800)
	p := &face.Panel{ID: "top", Length: 2400, Width: 1000, Thickness: 20}
	in.Boards.All, in.Boards.Laid = nil, nil
	for i := 0; i < 24; i++ {
		b := board(fmt.Sprint("B", i), 2600, 150)
		b.Faces[0].Zones = []face.Zone{taper(b, i%2 == 0, 20, 30, float64(i))}
		in.Boards.All = append(in.Boards.All, b)
		p.Strips = append(p.Strips, face.Strip{ID: fmt.Sprint("S", i), Board: b, X: 40, Y: 20, L: 2430, W: 42, Up: 1, Turned: i%3 == 0})
	}
	for i := range p.Strips {
		in.Boards.Laid = append(in.Boards.Laid, Laid{Panel: "top", Strip: &p.Strips[i]})
	}
	in.Panel.Panel, in.Panel.Reading, in.Boards.InHand, in.Pick.Strip = p, nil, "B3", "S3"
	in.Look.Textures = NewTextures(nil, nil)
	return in
}

func BenchmarkWholeSurface(b *testing.B) {
	in := big(b)
	img := image.NewRGBA(image.Rect(0, 0, 1200, 800))
	Build(in).Draw(render.NewRaster(img, 1, in.Look.Faces))
	for b.Loop() {
		Build(in).Draw(render.NewRaster(img, 1, in.Look.Faces))
	}
}

func BenchmarkOneStripMoves(b *testing.B) {
	in := big(b)
	p := NewPainter(in.Look.Faces)
	p.Paint(Build(in), 1200, 800)
	i := 0
	for b.Loop() {
		i++
		q := *in.Panel.Panel
		q.Strips = append([]face.Strip{}, q.Strips...)
		q.Strips[3].X = 40 + float64(i%40)
		in.Panel.Panel = &q
		in.Boards.Laid[3].Strip = &q.Strips[3]
		p.Paint(Build(in), 1200, 800)
	}
}
