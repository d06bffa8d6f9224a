package model

import (
	"reflect"
	"testing"

	"heartside/layout/geom"
)

// A board of 2000 x 200, cropped to x 500 to 1200 and y 120 to 200 from the marked
// edge. Sapwood of face 1 runs along the other edge from y 160: at 40 in the piece.
// On face 2, seen after rolling, the piece lies at y 0 to 80, so that sapwood of
// face 2 at y 0 to 30 stays there, and a knot at y 100 is not in it.
func TestCropByHand(t *testing.T) {
	b := NewBoard("A", "walnut-black", 2000, 200, 26)
	b.Moisture, b.Bark, b.Planes = 8, BarkFace2, PlanesFromMarked
	b.Price, b.Pith = &Price{80, "board"}, []Pith{{X: 600, HasX: true, Across: 105, Depth: -60}, {X: 900, HasX: true, Across: 100, Depth: -50}}
	b.Faces[0] = Face{Known: true, Photo: "a.jpg", Zones: []Zone{{Sap, geom.R(0, 160, 2000, 200).Polygon()}, {Flaw, geom.R(10, 170, 40, 190).Polygon()}},
		Grain: [][]geom.Point{{{X: 0, Y: 150}, {X: 1000, Y: 150}}, {{X: 0, Y: 10}, {X: 2000, Y: 10}}}}
	b.Faces[1] = Face{Known: true, Base: Heart, Zones: []Zone{{Sap, geom.R(0, 0, 2000, 30).Polygon()}, {Flaw, geom.R(600, 95, 620, 105).Polygon()}}}
	got := b.Crop("K", geom.R(500, 120, 1200, 200))
	if got.ID != "K" || got.Length != 700 || got.Width != 80 || got.Thickness != 26 || got.Moisture != 8 || got.Bark != BarkFace2 || got.Planes != PlanesFromMarked {
		t.Errorf("%+v", got)
	}
	// 700 x 80 of 2000 x 200 is 0.14: 11.20 of 80.
	if v := got.Price.Amount; v < 11.1999 || v > 11.2001 || b.Price.Amount != 80 {
		t.Errorf("it costs %g of %g", v, b.Price.Amount)
	}
	if want := []Pith{{X: 100, HasX: true, Across: -15, Depth: -60}, {X: 400, HasX: true, Across: -20, Depth: -50}}; !reflect.DeepEqual(got.Pith, want) {
		t.Errorf("pith %+v, want %+v", got.Pith, want)
	}
	f1, f2 := got.Faces[0], got.Faces[1]
	if len(f1.Zones) != 1 || f1.Photo != "" || f1.Zones[0].Polygon.Bounds() != geom.R(-500, 40, 1500, 80) {
		t.Errorf("face 1 %+v", f1)
	}
	if len(f2.Zones) != 1 || f2.Zones[0].Polygon.Bounds() != geom.R(-500, 0, 1500, 30) {
		t.Errorf("face 2 %+v", f2)
	}
	if len(f1.Grain) != 1 || f1.Grain[0][0] != geom.Pt(0, 30) || f1.Grain[0][1] != geom.Pt(500, 30) {
		t.Errorf("grain %+v", f1.Grain)
	}
	p := NewProject()
	p.Boards = []*Board{got}
	if err := Validate(p); err != nil {
		t.Error(err)
	}
	// What a tape finds on the piece along its other edge: 40 on face 1, 30 on face
	// 2, where that edge lies at y = 0.
	for face, want := range map[int]float64{1: 40, 2: 30} {
		if marked, other := FaceTape(got, face); other != (Tape{want, want, want}) || marked != (Tape{}) {
			t.Errorf("face %d: marked edge %v, other edge %v", face, marked, other)
		}
	}
}

func TestCropOfWhatIsNotReadYet(t *testing.T) {
	b := NewBoard("A", "teak", 1000, 100, 20)
	b.Faces[0] = Face{Known: true, Photo: "a.jpg", Split: &Split{By: SplitOpen}}
	if got := b.Crop("B", geom.R(0, 0, 500, 100)); got.Faces[0].Known {
		t.Errorf("%+v", got.Faces[0])
	}
}

// The line from (0, 10) to (2400, 250) rises 0.1 a mm. In x 1000 to 1800, y 20 to
// 120 it enters at (1000, 110) and leaves at the top at (1100, 120): from (0, 90) to
// (100, 100) in the piece. One that goes in, out and in again is two.
func TestGrainLinesAreCutToThePiece(t *testing.T) {
	near := func(got, want []geom.Point) bool {
		ok := len(got) == len(want)
		for i := range got {
			ok = ok && i < len(want) && got[i].Dist(want[i]) < 1e-9
		}
		return ok
	}
	b := NewBoard("A", "teak", 2400, 260, 25)
	b.Faces[0] = Face{Known: true, Grain: [][]geom.Point{{{X: 0, Y: 10}, {X: 2400, Y: 250}}, {{X: 0, Y: 200}, {X: 2400, Y: 200}},
		{{X: 1100, Y: 50}, {X: 1200, Y: 150}, {X: 1300, Y: 50}}}}
	got := b.Crop("B", geom.R(1000, 20, 1800, 120)).Faces[0].Grain
	if len(got) != 3 || !near(got[0], []geom.Point{{X: 0, Y: 90}, {X: 100, Y: 100}}) ||
		!near(got[1], []geom.Point{{X: 100, Y: 30}, {X: 170, Y: 100}}) || !near(got[2], []geom.Point{{X: 230, Y: 100}, {X: 300, Y: 30}}) {
		t.Errorf("%v", got)
	}
}
