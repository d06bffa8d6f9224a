package depth

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// wavy is a board of 2400 x 210 mm with sap at both edges whose lines have
// teeth, a point every 4 mm.
func wavy() Board {
	edge := func(at, swing float64) geom.Polygon {
		p := geom.Polygon{geom.Pt(0, 0)}
		p = append(p, geom.Pt(2400, 0))
		for x := 2400.0; x >= 0; x -= 4 {
			p = append(p, geom.Pt(x, at+swing*math.Sin(x/90)+2*math.Sin(x/7)))
		}
		return p
	}
	m := geom.Affine{A: 1, E: -1, F: 210}
	b := Board{Length: 2400, Width: 210, Thickness: 26}
	b.Faces[0] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: edge(45, 9)}, {Kind: face.Sap, Polygon: m.ApplyTo(edge(38, 6))}}}
	b.Faces[1] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: edge(18, 7)}, {Kind: face.Sap, Polygon: m.ApplyTo(edge(24, 8))}}}
	return b
}

func BenchmarkNew(b *testing.B) {
	w := wavy()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(w); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNewPith(b *testing.B) {
	w := wavy()
	w.Pith, w.Heart = []Pith{{0, 100, 120}}, 140
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(w); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAt(b *testing.B) {
	w := wavy()
	w.Pith, w.Heart = []Pith{{0, 100, 120}}, 140
	s, err := New(w)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.At(1, 3)
	}
}
