package offcut

import (
	"math"
	"testing"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

var bare = cutting.Allowances{Kerf: 3}

// plank is 1000 x 200 x 25, with a strip of 600 x 100 at its marked corner.
func plank() (*face.Board, []face.Strip) {
	b := &face.Board{ID: "A", Length: 1000, Width: 200, Thickness: 25}
	return b, []face.Strip{{ID: "1", Board: b, L: 600, W: 100, Up: 1}}
}

func same(a, b geom.Rect) bool {
	return a.Min.Dist(b.Min) < 1e-6 && a.Max.Dist(b.Max) < 1e-6
}

// By hand, the saw cut of 3 mm: beside the strip 1000 x 97 is left (97 000 mm2)
// or, beyond its end, 397 x 200 (79 400). The first is larger; then 397 x 100 is
// left beyond the end. 97 000 + 39 700 in all.
func TestOffcutsByHand(t *testing.T) {
	b, strips := plank()
	got, err := Of(b, strips, bare, Usual)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || !same(got[0].Place, geom.R(0, 103, 1000, 200)) || !same(got[1].Place, geom.R(603, 0, 1000, 100)) {
		t.Fatalf("offcuts %+v", got)
	}
	if a := Left(got); math.Abs(a-136700) > 1e-3 {
		t.Errorf("%g mm2 are left, want 136700", a)
	}
	if got[0].Thickness != 25 || got[0].Flaw {
		t.Errorf("%+v", got[0])
	}
	// Nothing under 398 long: only the long one.
	if got, _ = Of(b, strips, bare, Least{398, 50}); len(got) != 1 {
		t.Errorf("with a least length of 398 mm: %+v", got)
	}
	// A strip of another board takes nothing here.
	other := &face.Board{ID: "B", Length: 1000, Width: 200, Thickness: 25}
	if got, _ = Of(b, []face.Strip{{ID: "x", Board: other, L: 900, W: 190, Up: 1}}, bare, Usual); len(got) != 1 || !same(got[0].Place, geom.R(0, 0, 1000, 200)) {
		t.Errorf("with a strip of another board: %+v", got)
	}
}

// A knot of face 2 at y 20 to 40 as seen lies at 160 to 180 from the marked edge.
func TestKnotsOfEitherFaceAreTold(t *testing.T) {
	b, strips := plank()
	b.Faces[1].Zones = []face.Zone{{Kind: face.Flaw, Polygon: geom.R(300, 20, 320, 40).Polygon()}}
	got, err := Of(b, strips, bare, Usual)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || !got[0].Flaw || got[1].Flaw {
		t.Errorf("flaws %+v", got)
	}
}

func TestOffcutsOfNothing(t *testing.T) {
	if _, err := Of(nil, nil, bare, Usual); err == nil {
		t.Error("no board has offcuts")
	}
	b, _ := plank()
	for _, l := range []Least{{-1, 50}, {math.NaN(), 50}} {
		if _, err := Of(b, nil, bare, l); err == nil {
			t.Errorf("a least size of %v is taken", l)
		}
	}
	if _, err := Trials(b, nil, bare, nil, Trial{Length: 200, Width: 80, Count: 1, Least: 0.7}); err == nil {
		t.Error("a piece with 70 % of either wood is sought")
	}
	if _, err := Uses(nil, []Want{{ID: "w"}}, bare, 0); err == nil {
		t.Error("a part without a size is cut")
	}
}

// Sapwood along the other edge, 40 mm wide: a piece of 80 mm across with a
// quarter of either wood needs 20 to 60 mm of it. The strip leaves y 103 to 200;
// most of the rarer wood is at y 120 to 200, half and half: 200 x 40 of each.
func TestTestPieceHoldsBothWoods(t *testing.T) {
	b, strips := plank()
	b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 160, 1000, 200).Polygon()}}
	got, err := Trials(b, strips, bare, nil, UsualTrial)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 1 {
		t.Fatalf("%d pieces", len(got))
	}
	p := got[0]
	if p.Face != 1 || p.FarFace || p.Offcut != -1 || math.Abs(p.Place.Min.Y-120) > gridStep || math.Abs(p.Sap-8000) > 200*gridStep || math.Abs(p.Heart+p.Sap-16000) > 1 {
		t.Errorf("piece %+v", p)
	}
	if o := p.Place.Intersect(geom.R(0, 0, 603, 103)); !o.Empty() {
		t.Errorf("it lies over the strip: %+v", p.Place)
	}
	// All of one wood: none.
	b.Faces[0].Zones = nil
	if got, _ = Trials(b, strips, bare, nil, UsualTrial); len(got) != 0 {
		t.Errorf("of heartwood alone: %+v", got)
	}
}

// From the smaller offcut first: 397 x 100 stays the place where both would do.
func TestTestPiecesLeaveLargeOffcutsWhole(t *testing.T) {
	b, strips := plank()
	// Sapwood at y 60 to 130: both offcuts show both woods.
	b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 60, 1000, 140).Polygon()}}
	list, err := Of(b, strips, bare, Usual)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Trials(b, strips, bare, list, Trial{Length: 200, Width: 80, Count: 1, Least: 0.25})
	if err != nil || len(got) != 1 {
		t.Fatalf("%+v, %v", got, err)
	}
	if got[0].Offcut != 1 {
		t.Errorf("it is taken from offcut %d, want the smaller one", got[0].Offcut)
	}
}

// A drawer runner of 300 x 30 x 15 from 1000 x 97: with 3 mm between, (1000 + 3)
// / 303 = 3.3, so 3 along, and (97 + 3) / 33 = 3.03, so 3 across. From 397 x 100
// one along and three across. Of 24 mm none: 25 less 2 for planing are 23.
func TestUsesByHand(t *testing.T) {
	b, strips := plank()
	list, err := Of(b, strips, bare, Usual)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Uses(list, []Want{{ID: "runner", Length: 300, Width: 30, Thickness: 15}, {ID: "thick", Length: 300, Width: 30, Thickness: 24}}, bare, 2)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || got[0] != (Use{0, "runner", 3, 3}) || got[1] != (Use{1, "runner", 1, 3}) || got[0].Count() != 9 {
		t.Errorf("uses %+v", got)
	}
}

// Sapwood 22.5 wide along an edge: of a blank of 89 with 4.5 off each edge 18 of the 80
// are left of it at the edge, 22.5 %: under a quarter. At 25 wide 20.5 of 80 are, 25.6
// %; of 200 x 80 mm2 that is 4100.
func TestTestPieceIsJudgedWithoutWhatComesOff(t *testing.T) {
	want := Trial{Length: 250, Width: 89, Count: 1, Least: 0.25, Ends: 25, Edges: 4.5}
	for wide, found := range map[float64]bool{22.5: false, 25: true} {
		b := &face.Board{ID: "A", Length: 600, Width: 210, Thickness: 25}
		b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 600, wide).Polygon()}}
		got, err := Trials(b, nil, bare, nil, want)
		if err != nil || (len(got) == 1) != found {
			t.Fatalf("%g wide: %+v, %v", wide, got, err)
		}
		if found && (math.Abs(got[0].Sap-4100) > 200 || math.Abs(got[0].Sap+got[0].Heart-16000) > 1) {
			t.Errorf("%g mm2 of sapwood, %g of heartwood", got[0].Sap, got[0].Heart)
		}
	}
	want.Ends = 125
	if _, err := Trials(&face.Board{ID: "A", Length: 600, Width: 210}, nil, bare, nil, want); err == nil {
		t.Error("nothing is left of it")
	}
}
