package arrange

import (
	"testing"
	"fmt"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

func BenchmarkProbe(b *testing.B) {
	var boards []*face.Board
	for i := 0; i < 12; i++ {
		bd := &face.Board{ID: fmt.Sprint("B", i), Length: 1300, Width: 120, Thickness: 26, AssumedHeart: colour.Lab{L: 35, A: 8, B: 14}, AssumedSap: colour.Lab{L: 70, A: 4, B: 20}}
		for f := range bd.Faces {
			bd.Faces[f].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{{0, 0}, {1300, 0}, {1300, 20 + float64(i)}, {1000, 25}, {700, 18}, {300, 22}, {0, 30}}}}
		}
		boards = append(boards, bd)
	}
	p := &face.Panel{ID: "p", Length: 1200, Width: 1100, Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits}
	for i, bd := range boards {
		p.Strips = append(p.Strips, face.Strip{ID: fmt.Sprint("s", i), Board: bd, X: 20, Y: 10, L: 1230, W: 93, Up: 1})
	}
	r := face.NewReader()
	r.Read(p)
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		q := *p
		q.Strips = append([]face.Strip{}, p.Strips...)
		q.Strips[i%12].Turned = true
		r.Read(&q)
	}
}
