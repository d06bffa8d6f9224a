package arrange

import (
	"context"
	"fmt"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// tabletop is a panel of n strips, each from a board of its own with sap along
// one edge or none, no two alike, one of which stands alone.
func tabletop(n int) *face.Panel {
	p := &face.Panel{
		ID: "top", Length: 1200, Width: 90*float64(n) - 10, Thickness: 20,
		Limit: [2]float64{1, 1}, Limits: face.DefaultLimits, PanelEdge: 5,
	}
	for i := 0; i < n; i++ {
		b := walnut(fmt.Sprint("B", i), 1280, 108)
		wide := 0.0
		switch i {
		case n / 3:
			wide = 24
		case n/3 + 1:
			wide = 26
		}
		if wide > 0 {
			w := 9 + wide
			b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{
				{X: 0, Y: 0}, {X: 1280, Y: 0}, {X: 1280, Y: w}, {X: 900, Y: w + 3}, {X: 500, Y: w - 2}, {X: 0, Y: w + 1}}}}
		}
		p.Strips = append(p.Strips, face.Strip{ID: fmt.Sprint("s", i), Board: b, X: 25, Y: 9, L: 1230, W: 90, Up: 1})
	}
	return p
}

func BenchmarkFixes12(b *testing.B) {
	p := tabletop(12)
	opt := Options{Allowances: allowances, Machines: machines}
	b.ReportAllocs()
	for b.Loop() {
		All(context.Background(), nil, p, nil, opt)
	}
}
