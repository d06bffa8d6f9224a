package terms

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// board is 2000 x 200 with sapwood one and two mm wide along the marked edge of
// face 1 and of face 2.
func board(id string, one, two float64) *face.Board {
	b := &face.Board{ID: id, Length: 2000, Width: 200, Thickness: 26}
	for f, w := range [2]float64{one, two} {
		if w > 0 {
			r := geom.R(0, 0, 2000, w)
			if f == 1 { // on face 2 the marked edge is at the top
				r = geom.R(0, 200-w, 2000, 200)
			}
			b.Faces[f].Zones = []face.Zone{{Kind: face.Sap, Polygon: r.Polygon()}}
		}
	}
	return b
}

func terms(t *testing.T, text string) Terms {
	t.Helper()
	got, err := Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func rack(t *testing.T, y Terms, strips []face.Strip, boards ...*face.Board) Lot {
	t.Helper()
	l, err := Rack(boards, strips, y)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestTheSellersForm(t *testing.T) {
	for text, want := range map[string]Terms{
		"90/70": {Better: 0.9, Other: 0.7}, "90/0": {Better: 0.9}, " 90 / 50 ": {Better: 0.9, Other: 0.5},
		"90": {Better: 0.9}, "90 %/70 %": {Better: 0.9, Other: 0.7}, "87.5/60": {Better: 0.875, Other: 0.6}, "100/100": {Better: 1, Other: 1},
	} {
		got := terms(t, text)
		if math.Abs(got.Better-want.Better)+math.Abs(got.Other-want.Other) > 1e-12 {
			t.Errorf("%q: %+v", text, got)
		}
		if again := terms(t, got.String()); math.Abs(again.Better-got.Better)+math.Abs(again.Other-got.Other) > 1e-12 {
			t.Errorf("%q is written %q", text, got)
		}
	}
	if got := terms(t, "90/70").String(); got != "90/70" {
		t.Error(got)
	}
	for _, text := range []string{"", "90/", "x/70", "101/70", "-1/0", "70/90", "90/70/50", "NaN/0"} {
		if _, err := Parse(text); err == nil {
			t.Errorf("%q: no error", text)
		}
	}
	for _, y := range []Terms{{Wood: face.Flaw}, {When: "later"}, {By: "weight"}, {Of: 1.1}} {
		if _, err := Check(nil, y); err == nil {
			t.Errorf("%+v: no error", y)
		}
	}
}

// By closed form on 200 mm: 20 of sapwood are 10 %, 60 are 30 %. Both are just
// kept by 90/70, whichever face is the better one; a mm more is not, by half a
// point, and by that mm.
func TestBoardsAgainst90To70(t *testing.T) {
	y := terms(t, "90/70")
	for _, c := range []struct {
		one, two float64
		keeps    Keeps
		better   int
		wide     [2]float64
	}{
		{20, 60, Yes, 1, [2]float64{}},
		{60, 20, Yes, 2, [2]float64{}},
		{0, 0, Yes, 1, [2]float64{}},
		{21, 60, No, 1, [2]float64{1, 0}},
		{61, 20, No, 2, [2]float64{0, 1}},
		{50, 50, No, 1, [2]float64{30, 0}},
		{150, 0, No, 2, [2]float64{0, 90}}, // one good face, the other three quarters sapwood
	} {
		f := rack(t, y, nil, board("A", c.one, c.two)).Pieces[0]
		if f.Keeps != c.keeps || f.Better != c.better {
			t.Errorf("%g and %g: %+v", c.one, c.two, f)
		}
		for k := range c.wide {
			layouttest.Near(t, "too wide", f.WideBy[k], c.wide[k], 1e-6)
			layouttest.Near(t, "too small a share", f.Short[k], c.wide[k]/200, 1e-9)
		}
	}
	// 90/0 asks nothing of the other face.
	if f := rack(t, terms(t, "90/0"), nil, board("A", 150, 0)).Pieces[0]; f.Keeps != Yes {
		t.Errorf("%+v", f)
	}
}

// The same figure before and after ripping are two things. A board of 200 with
// 20 of sapwood along an edge of both faces is 90 % heartwood as bought. Ripped
// into 60 and 130 the sapwood is all in the first: 20 of 60, 67 %. Ripped clear
// of it, a board of 40 %, 80 of 200, gives a strip of 110 that is all heart.
func TestBeforeAndAfterRipping(t *testing.T) {
	a, b := board("A", 20, 20), board("B", 80, 80)
	strips := []face.Strip{
		{ID: "A1", Board: a, X: 25, L: 900, W: 60, Up: 1},
		{ID: "A2", Board: a, X: 25, Y: 65, L: 900, W: 130, Up: 1},
		{ID: "B1", Board: b, X: 25, Y: 85, L: 900, W: 110, Up: 1},
	}
	y := terms(t, "90/90")
	before := rack(t, y, strips, a, b)
	if before.Pieces[0].Keeps != Yes || before.Pieces[1].Keeps != No {
		t.Errorf("%+v", before)
	}
	layouttest.Near(t, "A as bought", before.Pieces[0].Share[0], 0.9, 1e-9)
	y.When = AfterRipping
	after := rack(t, y, strips, a, b)
	want := map[string]float64{"A1": 2.0 / 3, "A2": 1, "B1": 1}
	if len(after.Pieces) != 3 {
		t.Fatalf("%+v", after)
	}
	for _, f := range after.Pieces {
		for k := range f.Share {
			layouttest.Near(t, f.ID, f.Share[k], want[f.ID], 1e-9)
		}
		if (f.Keeps == Yes) != (want[f.ID] == 1) {
			t.Errorf("%+v", f)
		}
	}
	// 60 of 300 mm of strip, all 900 long, do not keep them: 80 % do.
	layouttest.Near(t, "kept by area", after.Kept, 240.0/300, 1e-9)
	layouttest.Near(t, "heartwood of all strips", after.Share[0], 280.0/300, 1e-9)
}

// One board of 400 mm keeps the terms, three of 100 do not: 4/7 by area, 1/4 by
// number.
func TestByAreaAndByNumber(t *testing.T) {
	list := []Piece{{ID: "A", Length: 1000, Width: 400, Face: [2]Wood{{Heart: 1}, {Heart: 1}}}}
	for _, id := range []string{"B", "C", "D"} {
		list = append(list, Piece{ID: id, Length: 1000, Width: 100, Face: [2]Wood{{Sap: 1}, {Sap: 1}}})
	}
	y := terms(t, "90/70")
	for by, kept := range map[Count]float64{"": 4.0 / 7, ByArea: 4.0 / 7, ByCount: 0.25} {
		y.By = by
		for _, of := range []float64{0, 0.2, 0.5, 0.6, 1} {
			y.Of = of
			l, err := Check(list, y)
			if err != nil {
				t.Fatal(err)
			}
			layouttest.Near(t, string(by), l.Kept, kept, 1e-12)
			if (l.Keeps == Yes) != (of > 0 && of <= kept) {
				t.Errorf("%s, %g of it: %s", by, of, l.Keeps)
			}
		}
	}
	if l, err := Check(nil, y); err != nil || l.Keeps != Yes {
		t.Errorf("%+v, %v", l, err)
	}
	if _, err := Check([]Piece{{ID: "x"}}, y); err == nil {
		t.Error("a piece without size: no error")
	}
}

// Where sapwood is ordered, as white maple, everything is the other way round.
func TestSapwoodOrdered(t *testing.T) {
	y := terms(t, "90/70")
	y.Wood = face.Sap
	b := board("A", 180, 140)
	if f := rack(t, y, nil, b).Pieces[0]; f.Keeps != Yes || f.Better != 1 {
		t.Errorf("%+v", f)
	}
	if f := rack(t, y, nil, board("A", 180, 139)).Pieces[0]; f.Keeps != No {
		t.Errorf("%+v", f)
	}
}

// Wood that was not seen: 30 of 200 on face 1, beside 10 of sapwood. At least
// 160 of 200 are heartwood, 80 %, at most 190, 95 %. A guessed face may be
// anything.
func TestUnseenWoodGivesARange(t *testing.T) {
	b := board("A", 10, 0)
	b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: face.Unseen, Polygon: geom.R(0, 170, 2000, 200).Polygon()})
	f := rack(t, terms(t, "100/90"), nil, b).Pieces[0]
	if f.Keeps != Unsure || f.Better != 2 {
		t.Errorf("%+v", f)
	}
	layouttest.Near(t, "at least", f.Lo[1], 0.80, 1e-9)
	layouttest.Near(t, "at most", f.Hi[1], 0.95, 1e-9)
	layouttest.Near(t, "seen", f.Share[1], 160.0/170, 1e-9)
	if l := rack(t, terms(t, "100/96"), nil, b); l.Keeps != No {
		t.Errorf("%+v", l)
	}
	if l := rack(t, terms(t, "100/80"), nil, b); l.Keeps != Yes {
		t.Errorf("%+v", l)
	}
	b = board("A", 0, 0)
	b.Faces[1].Guessed = true
	if l := rack(t, terms(t, "90/70"), nil, b); l.Keeps != Unsure || l.Kept != 0 || l.Most != 1 {
		t.Errorf("%+v", l)
	}
	if l := rack(t, terms(t, "90/0"), nil, b); l.Keeps != Yes {
		t.Errorf("%+v", l)
	}
}

// A knot is in no share, and what lies outside a waney outline is no wood: 20 of
// 200 sapwood, 20 flaw and 60 outside leave 100 of 120.
func TestKnotsAndWane(t *testing.T) {
	b := board("A", 20, 0)
	b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: face.Flaw, Polygon: geom.R(0, 100, 2000, 120).Polygon()})
	b.Faces[0].Outline = geom.R(0, 0, 2000, 140).Polygon()
	p, err := Whole(b)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "heartwood", p.Face[0].Heart, 100*2000, 1e-3)
	layouttest.Near(t, "sapwood", p.Face[0].Sap, 20*2000, 1e-3)
	if _, err := Whole(nil); err == nil {
		t.Error("no board: no error")
	}
	if _, err := Ripped(b, []face.Strip{{Board: b, L: 0, W: 1}}); err == nil {
		t.Error("a strip without length: no error")
	}
}
