package match

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// door is a panel of one strip of 700 x 300 that fills it.
func door(b *face.Board, up int, turned bool) *face.Panel {
	s := strip(b.ID+"1", b, 0, 0, 700, 300)
	s.Up, s.Turned = up, turned
	return &face.Panel{ID: b.ID, Length: 700, Width: 300, Strips: []face.Strip{s}}
}

// arch draws sap from y to the upper edge of face 1 between x0 and x1.
func arch(id string, x0, x1, y float64) *face.Board {
	b := plank(id, 700, 300)
	b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(x0, y, x1, 300).Polygon()}}
	return b
}

// The closing edge of the first door has sap from 200 to 500. The second, from
// a board that has it from 190 to 515 along the other edge, is turned: from
// 700 - 515 = 185 to 510, at its front edge. The borders stand 15 and 10 apart;
// of the gap the places from 185 to 200 and from 500 to 510 disagree, 25 of 700.
func TestDoorsLevel(t *testing.T) {
	a, b := door(arch("A", 200, 500, 250), 1, false), door(arch("B", 190, 515, 250), 1, true)
	l := Level(a, b, Beside)
	want := []Border{{200, 185, true}, {500, 510, false}}
	if len(l.Borders) != 2 || l.Ending != 0 {
		t.Fatalf("borders %+v", l)
	}
	for i, w := range want {
		near(t, "a", l.Borders[i].A, w.A, 1e-6)
		near(t, "b", l.Borders[i].B, w.B, 1e-6)
		if l.Borders[i].Sap != w.Sap {
			t.Errorf("border %d: %+v", i, l.Borders[i])
		}
	}
	near(t, "mean", l.Mean, 12.5, 1e-6)
	near(t, "greatest", l.Greatest, 15, 1e-6)
	near(t, "mismatch", l.Mismatch, 25.0/700, 1e-6)
	// Mirrored: 50 mm at the 25 mm of length that differ, read at 5, 15, ...:
	// 195 (sap from 185 only), 505; of 185 and 195 both lie in 185 to 200.
	near(t, "mirrored", l.Mirrored, 50*25.0/700, 50*10.0/700)
	// Repeated, the sap is at the rear edge of one and the front edge of the
	// other: 300 mm and 325 mm of 50.
	near(t, "slipped", l.Slipped, 50*625.0/700, 50*20.0/700)
}

// Sap line at 100 at the right end of one drawer front, and at 104 at the left
// end of the next; sap that only one has ends at the gap.
func TestFrontsLevel(t *testing.T) {
	line := func(id string, y0, y1 float64) *face.Board {
		b := plank(id, 700, 300)
		b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{geom.Pt(0, 0), geom.Pt(700, 0), geom.Pt(700, y1), geom.Pt(0, y0)}}}
		return b
	}
	a, b := door(line("A", 60, 100), 1, false), door(line("B", 104, 150), 1, false)
	l := Level(a, b, Along)
	if len(l.Borders) != 1 || l.Borders[0].Sap {
		t.Fatalf("borders %+v", l.Borders)
	}
	near(t, "mean", l.Mean, 4, 1e-3)
	near(t, "mismatch", l.Mismatch, 4.0/300, 1e-5)
	// Repeated: 44 apart at the left and 50 at the right, 47 on the mean.
	near(t, "slipped", l.Slipped, 47, 1e-3)
	// Mirrored about the gap: 4 apart there and 150 - 60 at the far ends.
	near(t, "mirrored", l.Mirrored, 47, 1e-3)
	b.Strips[0].Board.Faces[0].Zones = append(b.Strips[0].Board.Faces[0].Zones, face.Zone{Kind: face.Sap, Polygon: geom.R(0, 280, 700, 300).Polygon()})
	b.Strips[0].Board = &face.Board{ID: "B", Length: 700, Width: 300, Faces: b.Strips[0].Board.Faces}
	l = Level(a, b, Along)
	if len(l.Borders) != 2 || l.Ending != 1 || !math.IsNaN(l.Borders[1].A) || !l.Borders[1].Sap {
		t.Errorf("borders %+v", l.Borders)
	}
	// More than 40 apart they are two lines that end at the gap.
	l = Level(a, door(line("C", 145, 150), 1, false), Along)
	if len(l.Borders) != 2 || l.Ending != 2 || l.Mean != 0 {
		t.Errorf("far apart: %+v", l)
	}
}

// Two doors opened from resawn boards mirror each other; both of one board's
// face repeat each other.
func TestDoorsFromLeaves(t *testing.T) {
	wave := func(x float64) float64 { return 80 + 30*math.Sin(x/200) }
	a := beyond(plank("A", 700, 300), 2, face.Sap, wave)
	b := edged(plank("B", 700, 300), 1, face.Sap, wave)
	first := door(a, 2, false)
	leaf, err := Match(Sibling{A: a, B: b, FaceA: 2, FaceB: 1}, &first.Strips[0], Book, Options{})
	if err != nil {
		t.Fatal(err)
	}
	second := &face.Panel{Length: 700, Width: 300, Strips: []face.Strip{leaf.Strip}}
	l := Level(first, second, Beside)
	near(t, "mirrored", l.Mirrored, 0, 1e-6)
	if l.Slipped < 100 {
		t.Errorf("slipped %g: the sap lies at opposite edges", l.Slipped)
	}
	near(t, "repeated", Level(first, first, Beside).Slipped, 0, 1e-9)
	if l := Level(first, nil, Beside); l.Borders != nil {
		t.Errorf("no panel: %+v", l)
	}
}
