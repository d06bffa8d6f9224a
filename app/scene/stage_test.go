package scene

import (
	"image"
	"testing"

	"heartside/app/render"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

func typefaces(t testing.TB) *render.Faces {
	t.Helper()
	f, err := render.LoadFaces()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// taper is sapwood along an edge of a face, its width given at the marked
// end, the middle and the other end.
func taper(b *face.Board, high bool, a, m, e float64) face.Zone {
	l, w := b.Length, b.Width
	p := geom.Polygon{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l, Y: e}, {X: l / 2, Y: m}, {X: 0, Y: a}}
	if high {
		p = geom.Polygon{{X: 0, Y: w}, {X: l, Y: w}, {X: l, Y: w - e}, {X: l / 2, Y: w - m}, {X: 0, Y: w - a}}
	}
	return face.Zone{Kind: face.Sap, Polygon: p}
}

func board(id string, l, w float64) *face.Board {
	return &face.Board{
		ID: id, Species: "walnut-black", Length: l, Width: w, Thickness: 26,
		Planes: face.PlanesFromMarked, BarkFace: 2,
		AssumedHeart: colour.Lab{L: 36, A: 9, B: 15}, AssumedSap: colour.Lab{L: 76, A: 5, B: 20},
	}
}

// table is the scene of the tests: a top of five strips from three boards, one
// place still empty.
func table(t testing.TB) Input {
	t.Helper()
	a, b, c := board("A", 2400, 210), board("B", 2100, 180), board("C", 1900, 230)
	a.Faces[0].Zones = []face.Zone{taper(a, false, 52, 45, 38)}
	a.Faces[1].Zones = []face.Zone{taper(a, true, 60, 55, 42)}
	b.Faces[0].Zones = []face.Zone{taper(b, true, 20, 34, 50), {Kind: face.Flaw, Polygon: geom.Polygon{{X: 1480, Y: 70}, {X: 1500, Y: 82}, {X: 1522, Y: 70}, {X: 1500, Y: 58}}}}
	b.Faces[1].Base = face.Unseen
	c.Faces[0].Zones = []face.Zone{taper(c, false, 16, 0, 0)}
	d, e := board("D", 2250, 160), board("E", 1400, 120)
	d.Faces[0].Zones = []face.Zone{taper(d, false, 30, 30, 30), taper(d, true, 12, 18, 25)}
	p := &face.Panel{
		ID: "top", Length: 900, Width: 400, Thickness: 20,
		Strips: []face.Strip{
			{ID: "A1", Board: a, X: 40, Y: 8, L: 930, W: 92, Up: 1},
			{ID: "A2", Board: a, X: 1040, Y: 8, L: 930, W: 92, Up: 1, Turned: true},
			{ID: "C1", Board: c, X: 300, Y: 60, L: 930, W: 80, Up: 1},
			{ID: "B1", Board: b, X: 60, Y: 90, L: 930, W: 80, Up: 2},
			{ID: "P5", L: 930, W: 80, Up: 1},
		},
	}
	in := Input{
		Size:   geom.Pt(940, 700),
		Panel:  Sheet{Panel: p, Front: "front", Back: "back", Left: "left", Right: "right"},
		Boards: Stack{All: []*face.Board{a, b, c, d, e}, InHand: "A", Blank: Blank{Side: 4.5, End: 25, Kerf: 3}},
		Pick:   Pick{Strip: "A1", Zone: -1},
		Look:   Look{Faces: typefaces(t), Theme: Paper(), Hatch: true},
	}
	for i := range p.Strips {
		in.Boards.Laid = append(in.Boards.Laid, Laid{Panel: "top", Strip: &p.Strips[i]})
	}
	in.Panel.Reading = &face.Reading{Panel: "top", Placed: 4, Joints: []face.Joint{
		{I: 0, Kind: face.SapSap}, {I: 1, Kind: face.SapHeart, FrontW: face.Widths{30, 20, 10}},
		{I: 2, Kind: face.HeartHeart}, {I: 3, Kind: face.Unjudged},
	}}
	in.Lit = []Light{{Side: face.Show, Place: geom.R(0, 20, 900, 60), Severe: true}}
	return in
}

func paint(s *Scene, f *render.Faces) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, int(s.in.Size.X*s.Pixels()), int(s.in.Size.Y*s.Pixels())))
	s.Draw(render.NewRaster(img, s.Pixels(), f))
	return img
}
