package face

import (
	"math"
	"testing"

	"heartside/layout/geom"
)

// wedge is a board whose sap line on face 1 moves to one side by mm for every
// mm planed, as a straight slope through the thickness does.
type wedge struct {
	b    *Board
	made map[[2]float64]*Board
}

func (w *wedge) Finished(off [2]float64) *Board {
	if got := w.made[off]; got != nil {
		return got
	}
	t := w.b.Thickness
	line := func(depth float64) float64 { return 40 + 20*depth/t } // mm of sapwood from the marked edge
	f := *w.b
	f.Deep, f.Sawn, f.Thickness = nil, w.b, t-off[0]-off[1]
	f.Faces[0].Zones = []Zone{{Sap, geom.R(0, 0, f.Length, line(off[0])).Polygon()}}
	f.Faces[1].Zones = []Zone{{Sap, geom.R(0, f.Width-line(t-off[1]), f.Length, f.Width).Polygon()}}
	w.made[off] = &f
	return &f
}

func wedgePanel() (*Panel, *wedge) {
	b := &Board{ID: "A", Species: "cherry-black", Length: 1000, Width: 100, Thickness: 26}
	b.Faces[0].Zones = []Zone{{Sap, geom.R(0, 0, 1000, 40).Polygon()}}
	b.Faces[1].Zones = []Zone{{Sap, geom.R(0, 40, 1000, 100).Polygon()}}
	w := &wedge{b, map[[2]float64]*Board{}}
	b.Deep = w
	return &Panel{ID: "top", Length: 900, Width: 100, Thickness: 20, Wanted: WantHeart, Limits: DefaultLimits,
		Strips: []Strip{{ID: "A1", Board: b, L: 900, W: 100, Up: 1}}}, w
}

// Readings are those of the finished face. By hand: 26 mm planed to 20 loses 3
// from each face; the line at depth z lies 40 + 20 z/26 from the marked edge.
func TestFinishedFacesAreRead(t *testing.T) {
	p, _ := wedgePanel()
	at := func(depth float64) float64 { return 0.40 + 0.20*depth/26 }
	check := func(name string, want float64) {
		t.Helper()
		got := ReadFull(p)
		if math.Abs(got.Show.Light.Value-want) > 1e-9 {
			t.Errorf("%s: light share %v, want %v", name, got.Show.Light.Value, want)
		}
	}
	check("halves", at(3))
	if ReadFull(p).SawnFaces {
		t.Error("the finished face is called the sawn one")
	}
	p.Strips[0].Off = Off{true, [2]float64{5, 1}}
	check("5 mm off face 1", at(5))
	p.Strips[0].Up = 2
	check("the other face up, 1 mm off it", at(25))
	p.Strips[0].Up = 1
	p.Strips[0].Off = Off{true, [2]float64{3, 1.5}} // 1.5 left for flattening after glue-up: half from each face
	check("stock for flattening", at(3.75))
	p.Strips[0].Off = Off{}
	p.ToPlane = 0.5
	check("half way", at(1.5))
	p.ToPlane = 1
	check("as sawn", at(0))
	if !ReadFull(p).SawnFaces {
		t.Error("the sawn face is called finished")
	}
	p.ToPlane, p.Thickness = 0, 26
	check("board and panel alike", at(0))
	p.Thickness = 30
	check("a panel thicker than its board", at(0))
}

// A board of which only the sawn faces are known is read as sawn, and says so.
func TestUnknownDepthIsReadAsSawn(t *testing.T) {
	p, _ := wedgePanel()
	p.Strips[0].Board.Deep = nil
	r := ReadFull(p)
	if math.Abs(r.Show.Light.Value-0.4) > 1e-9 || !r.SawnFaces {
		t.Errorf("light share %v, sawn %v", r.Show.Light.Value, r.SawnFaces)
	}
}

// Planing is known by what it gives: a reader that keeps strips reads as one
// from nothing while stock, face and thickness change.
func TestPlaningIsSeenByAReader(t *testing.T) {
	p, _ := wedgePanel()
	r := NewReader()
	for i, change := range []func(*Panel){
		func(*Panel) {},
		func(q *Panel) { q.Strips[0].Off = Off{true, [2]float64{6, 0}} },
		func(q *Panel) { q.Strips[0].Off = Off{true, [2]float64{0, 6}} },
		func(q *Panel) { q.Strips[0].Off = Off{} },
		func(q *Panel) { q.Thickness = 22 },
		func(q *Panel) { q.ToPlane = 0.25 },
	} {
		q := *p
		q.Strips = append([]Strip(nil), p.Strips...)
		change(&q)
		if got, want := r.Read(&q).Show.Light.Value, ReadFull(&q).Show.Light.Value; got != want {
			t.Errorf("change %d: kept %v, from nothing %v", i, got, want)
		}
		p = &q
	}
}

// Two strips of one board planed by different amounts are still of one board:
// their colours compare.
func TestPlanedBoardsCompare(t *testing.T) {
	p, w := wedgePanel()
	a := woodsOf(w.Finished([2]float64{3, 3}), 1)
	b := woodsOf(w.Finished([2]float64{4, 2}), 1)
	a.photo, b.photo = true, true
	if !a.comparable(&b) {
		t.Error("a board does not compare with itself")
	}
	if q := p.Finished(); q == p || q.Strips[0].Board.Sawn != p.Strips[0].Board || p.Strips[0].Board != w.b {
		t.Error("the finished panel does not lie on the planed board, or the panel itself was changed")
	}
}

func TestStockTaken(t *testing.T) {
	b := &Board{Thickness: 26}
	for _, c := range []struct {
		off   Off
		thick float64
		want  [2]float64
	}{
		{Off{}, 20, [2]float64{3, 3}},
		{Off{}, 26, [2]float64{}},
		{Off{}, 0, [2]float64{}},
		{Off{true, [2]float64{4, 2}}, 20, [2]float64{4, 2}},
		{Off{true, [2]float64{0, 0}}, 20, [2]float64{3, 3}},
		{Off{true, [2]float64{9, 3}}, 20, [2]float64{4.5, 1.5}}, // asks for twice of what there is
	} {
		s := Strip{Board: b, Off: c.off}
		if got := s.Taken(c.thick); got != c.want {
			t.Errorf("%+v to %g mm: %v, want %v", c.off, c.thick, got, c.want)
		}
	}
}
