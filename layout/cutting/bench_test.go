package cutting

import (
	"fmt"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// crowd is a panel of 24 strips on eight boards with sap, a knot and a waney
// edge each.
func crowd() *face.Panel {
	p := &face.Panel{ID: "top", Length: 700, Width: 24 * 60, PanelEdge: 5}
	for i := range 24 {
		var b *face.Board
		if i%3 == 0 {
			b = board(fmt.Sprint("B", i), 2400, 120)
			b.Faces[0].Outline = geom.Polygon{{X: 0, Y: 4}, {X: 900, Y: 9}, {X: 2400, Y: 2}, {X: 2400, Y: 120}, {X: 0, Y: 120}}
			for f := range b.Faces {
				b.Faces[f].Zones = []face.Zone{
					{Kind: face.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 2400, Y: 0}, {X: 2400, Y: 30}, {X: 1200, Y: 38}, {X: 0, Y: 25}}},
					{Kind: face.Flaw, Polygon: geom.R(400, 60, 430, 80).Polygon()},
				}
			}
		} else {
			b = p.Strips[i-1].Board
		}
		p.Strips = append(p.Strips, strip(fmt.Sprint("s", i), b, 30+float64(i%3)*790, 20, 730, 60, 0))
	}
	return p
}

func BenchmarkCheck24(b *testing.B) {
	p := crowd()
	b.ReportAllocs()
	for b.Loop() {
		Check([]*face.Panel{p}, nil, plain, Machines{})
	}
}

func BenchmarkSnap(b *testing.B) {
	p := crowd()
	others := []geom.Polygon{Blank(&p.Strips[1], plain), Blank(&p.Strips[2], plain)}
	s := p.Strips[0]
	s.X, s.Y = 31, 26
	b.ReportAllocs()
	for b.Loop() {
		Snap(s.Board, others, s, plain, 3)
	}
}

func BenchmarkFree(b *testing.B) {
	p := crowd()
	b.ReportAllocs()
	for b.Loop() {
		Free(p.Strips[0].Board, p.Strips, plain)
	}
}
