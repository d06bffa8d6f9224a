package together

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// wedgeBoard has sapwood 40 mm wide on its sawn faces, 10 less for each mm that
// is planed off them.
type wedgeBoard struct {
	sawn *face.Board
	got  map[[2]float64]*face.Board
}

func (w *wedgeBoard) Finished(off [2]float64) *face.Board {
	if w.got[off] == nil {
		b := *w.sawn
		b.Deep, b.Sawn, b.Thickness = nil, w.sawn, b.Thickness-off[0]-off[1]
		for f := range b.Faces {
			b.Faces[f].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 1000, 40-10*off[f]).Polygon()}}
		}
		w.got[off] = &b
	}
	return w.got[off]
}

// Boards of 25 mm make a door of 22 and one of 24: 1.5 and 0.5 mm come off each
// face, which leaves 25 and 35 mm of sapwood. The strips begin at the edge of
// the board and lose 5 mm to the trimming: 20 and 30 of 100 mm.
func TestEachIsPlanedToItsOwnThickness(t *testing.T) {
	var panels []*face.Panel
	for i, thick := range []float64{22, 24} {
		b := &face.Board{ID: string(rune('A' + i)), Length: 1000, Width: 120, Thickness: 25}
		b.Deep = &wedgeBoard{b, map[[2]float64]*face.Board{}}
		p := door(b.ID, 100, strip(b, 0, false))
		p.Thickness = thick
		panels = append(panels, p)
	}
	for _, way := range []Way{Across, Along} {
		f, err := Of(panels, Layout{Way: way, Gap: 3})
		if err != nil {
			t.Fatal(err)
		}
		var r Reader
		if v := r.Read(f).Show.Light.Value; math.Abs(v-0.25) > 1e-9 {
			t.Errorf("way %d: sapwood %g, by hand 0.25", way, v)
		}
	}
}
