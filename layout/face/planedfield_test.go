package face

import (
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// A board of 100 x 40 mm in cells of 10 mm whose sap line rises from 20 to 30
// when planed: the cells of the row between take the sapwood's mean colour, the
// others keep what the photograph shows.
func TestPlanedFieldTakesTheNewWood(t *testing.T) {
	heart, sap := colour.Lab{L: 40}, colour.Lab{L: 80}
	f := &colour.Field{Step: 10, NX: 10, NY: 4}
	for range 40 {
		f.Lab = append(f.Lab, colour.Lab{L: 41})
	}
	face := func(line float64) *BoardFace {
		return &BoardFace{Field: f, Heart: &heart, Sap: &sap, Zones: []Zone{{Sap, geom.R(0, 0, 100, line).Polygon()}}}
	}
	got := PlanedField(face(20), face(30))
	for i, c := range got.Lab {
		want := 41.0
		if i/10 == 2 {
			want = 80
		}
		if c.L != want {
			t.Fatalf("cell %d, %d: L %v, want %v", i%10, i/10, c.L, want)
		}
	}
	if PlanedField(face(20), face(20)) != f {
		t.Error("nothing changed and the field is another")
	}
	if f.Lab[25].L != 41 {
		t.Error("the photograph's own field was written to")
	}
	back := PlanedField(face(30), face(20))
	if back.Lab[25].L != 40 || back.Lab[5].L != 41 {
		t.Errorf("heartwood come to light: L %v, beside it %v", back.Lab[25].L, back.Lab[5].L)
	}
	bare := face(20)
	bare.Field = nil
	if PlanedField(bare, face(30)) != nil {
		t.Error("a field out of nothing")
	}
}

// Coded colours are exchanged as others are: sap comes to light in one row.
func TestPlanedFieldOfCodedColours(t *testing.T) {
	heart, sap := colour.Lab{L: 40}, colour.Lab{L: 80}
	f := &colour.Field{Step: 10, NX: 10, NY: 4, Coded: make([]colour.Coded, 40)}
	face := func(line float64) *BoardFace {
		return &BoardFace{Field: f, Heart: &heart, Sap: &sap, Zones: []Zone{{Sap, geom.R(0, 0, 100, line).Polygon()}}}
	}
	got := PlanedField(face(20), face(30))
	if got.Of(25) != sap || got.Of(15) != (colour.Lab{}) || f.Of(25) != (colour.Lab{}) {
		t.Errorf("the row between is %v, below it %v; the photograph's own is %v", got.Of(25), got.Of(15), f.Of(25))
	}
}

// A zone that crosses itself in a row fills between its first and second
// crossing and between its third and fourth: two arms of a U.
func TestKindsUnderCells(t *testing.T) {
	f := &colour.Field{Step: 10, NX: 6, NY: 3, Lab: make([]colour.Lab, 18)}
	u := geom.Polygon{{X: 0, Y: 0}, {X: 60, Y: 0}, {X: 60, Y: 30}, {X: 40, Y: 30}, {X: 40, Y: 10}, {X: 20, Y: 10}, {X: 20, Y: 30}, {X: 0, Y: 30}}
	got := kindsOn(&BoardFace{Zones: []Zone{{Sap, u}}}, f)
	want := []Kind{Sap, Sap, Sap, Sap, Sap, Sap, Sap, Sap, Heart, Heart, Sap, Sap, Sap, Sap, Heart, Heart, Sap, Sap}
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("cells %v, want %v", got, want)
		}
	}
}
