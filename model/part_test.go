package model

import (
	"reflect"
	"testing"
)

// sawnLeg is the table with the second cutting of the leg sawn out of board A.
func sawnLeg(t *testing.T) *Project {
	t.Helper()
	leg, _ := table().Part("leg")
	leg.Places[1].Stage = Sawn
	return must(t, table(), PlacePart{"leg", leg.Places, "Mark sawn"})
}

func TestPutPart(t *testing.T) {
	p := table()
	q := must(t, p, PutPart{"leg", Part{ID: "foot", Count: 3, Length: 90, Width: 60, Thickness: 60,
		Places: []PartPlace{{Board: "B", X: 5, Y: 6, L: 100, W: 66}}}})
	// What is not said is told as what it means.
	want := []Part{{ID: "foot", Kind: OtherPart, Count: 3, Length: 90, Width: 60, Thickness: 60,
		Places: []PartPlace{{"B", 5, 6, 100, 66, 0, Planned}}}}
	if !reflect.DeepEqual(q.Parts, want) {
		t.Errorf("got %+v", q.Parts)
	}
	q = must(t, q, PutPart{"", NewPart("rail", Rail, 2, 600, 80, 20)})
	if len(q.Parts) != 2 || q.Parts[1].Kind != Rail || q.Parts[1].Places != nil {
		t.Errorf("got %+v", q.Parts)
	}
	// Thicker than any board: it is laminated.
	must(t, p, PutPart{"", NewPart("post", OtherPart, 1, 900, 90, 90)})
	if _, ok := p.Part("post"); ok {
		t.Error("the project before has the part as well")
	}
}

func TestPartsFollowTheirBoards(t *testing.T) {
	p := table()
	leg, _ := must(t, p, RenameBoard{"A", "H"}).Part("leg")
	if leg.Places[0].Board != "B" || leg.Places[1].Board != "H" || leg.Places[1].X != 30 {
		t.Errorf("renamed: %+v", leg.Places)
	}
	leg, _ = must(t, p, RemoveBoard{"B"}).Part("leg")
	if len(leg.Places) != 1 || leg.Places[0].Board != "A" || leg.Count != 4 {
		t.Errorf("removed: %+v", leg)
	}
	if leg, _ = p.Part("leg"); len(leg.Places) != 2 || leg.Places[1].Board != "A" {
		t.Errorf("the project before changed: %+v", leg.Places)
	}
}

func TestSawnCuttingsStayAsSawn(t *testing.T) {
	change := func(f func(*PartPlace)) Edit {
		leg, _ := sawnLeg(t).Part("leg")
		places := clonePlaces(leg.Places)
		f(&places[1])
		return PlacePart{"leg", places, ""}
	}
	leg, _ := sawnLeg(t).Part("leg")
	for _, e := range []Edit{
		change(func(k *PartPlace) { k.X++ }), change(func(k *PartPlace) { k.Y-- }), change(func(k *PartPlace) { k.L++ }),
		change(func(k *PartPlace) { k.W-- }), change(func(k *PartPlace) { k.Angle = 0 }), change(func(k *PartPlace) { k.Board = "B" }),
		change(func(k *PartPlace) { k.X, k.Stage = 1, Planned }),
		PlacePart{"leg", leg.Places[:1], ""}, PutPart{"leg", NewPart("foot", Leg, 4, 720, 50, 50)},
		SetPlan{Parts: []PlanPart{{"leg", nil}}},
	} {
		_, err := Apply(sawnLeg(t), e)
		if r := wantRule(t, err, RuleStage); r.Part != "leg" || r.Where != "cutting 2" {
			t.Errorf("%s: %+v", e.Label(), r)
		}
	}
	// Board A carries a sawn strip as well, so take that away first.
	p := must(t, sawnLeg(t), RemoveStrip{"top", "A2"})
	_, err := Apply(p, RemoveBoard{"A"})
	wantRule(t, err, RuleStage)

	rail := NewPart("rail", Rail, 1, 700, 50, 20)
	rail.Places = leg.Places[1:]
	p = sawnLeg(t)
	for _, e := range []Edit{
		change(func(k *PartPlace) { k.Stage = Planned }), change(func(k *PartPlace) { k.Stage = Jointed }),
		PlacePart{"leg", leg.Places[1:], ""}, // the other was only planned
		PlacePart{"leg", []PartPlace{leg.Places[1], leg.Places[0]}, ""},
		RenameBoard{"A", "H"}, RemoveBoard{"B"},
		PutPart{"leg", Part{ID: "foot", Count: 1, Length: 9, Width: 9, Thickness: 9, Places: leg.Places}},
	} {
		must(t, p, e)
	}
	// Used for another part it is not lost.
	p = must(t, p, PutPart{"", NewPart("rail", Rail, 1, 700, 50, 20)})
	q := must(t, p, SetPlan{Parts: []PlanPart{{"leg", leg.Places[:1]}, {"rail", leg.Places[1:]}}})
	if got, _ := q.Part("rail"); !reflect.DeepEqual(got, rail) {
		t.Errorf("got %+v", got)
	}
}

func TestDropPartKeepsWhatIsSawn(t *testing.T) {
	q := must(t, sawnLeg(t), DropPart{"leg"})
	// The strips of the table are A1, A2, 3, B1 and B2: 1 is the lowest free.
	want := Strip{ID: "1", Board: "A", X: 30, Y: 110, L: 740, W: 56, Angle: 1.5, Up: 1, Stage: Sawn, Mark: "A3"}
	if len(q.Parts) != 0 || len(q.Spares) != 2 || !reflect.DeepEqual(q.Spares[1], want) {
		t.Errorf("parts %+v, spares %+v", q.Parts, q.Spares)
	}
	if q = must(t, table(), DropPart{"leg"}); len(q.Spares) != 1 {
		t.Errorf("what was only planned is among the spares: %+v", q.Spares)
	}
}
