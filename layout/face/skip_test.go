package face

import (
	"reflect"
	"testing"

	"heartside/layout/geom"
)

// Without coverage everything else reads the same, and it comes back after.
func TestSkipCoverageLeavesTheRest(t *testing.T) {
	b := &Board{ID: "A", Length: 1000, Width: 120, Thickness: 20}
	b.AssumedHeart.L, b.AssumedSap.L = 35, 70
	b.Faces[0].Zones = []Zone{{Kind: Sap, Polygon: geom.R(0, 0, 1000, 40).Polygon()}}
	p := &Panel{ID: "p", Length: 900, Width: 100, Strips: []Strip{{ID: "s", Board: b, X: 30, Y: 10, L: 930, W: 100, Up: 1}}}
	want := ReadFull(p).Clone()
	if want.Show.Coverage == 0 {
		t.Fatal("the drawing has no coverage to leave out")
	}
	r := NewReader()
	r.SkipCoverage(true)
	got := r.Read(p).Clone()
	if got.Show.Coverage != 0 {
		t.Errorf("coverage %g, want none", got.Show.Coverage)
	}
	got.Show.Coverage = want.Show.Coverage
	if !reflect.DeepEqual(got, want) {
		t.Error("something else reads otherwise")
	}
	r.SkipCoverage(false)
	if got := r.Read(p); !reflect.DeepEqual(got.Clone(), want) {
		t.Error("the full reading does not come back")
	}
}
