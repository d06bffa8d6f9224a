package model

import (
	"reflect"
	"testing"
)

func TestRollTwiceAndTurnTwice(t *testing.T) {
	p := table()
	for _, e := range []Edit{FlipStrip{"top", "B1"}, TurnStrip{"top", "B1"}, SwapStrips{"top", "A1", "B1"}} {
		if q := must(t, must(t, p, e), e); !reflect.DeepEqual(p, q) {
			t.Errorf("%s twice leaves a change", e.Label())
		}
	}
	q := must(t, p, FlipStrip{"top", "B1"})
	if s := strip(t, q, "top", "B1"); s.Up != 1 || s.Turned {
		t.Errorf("rolled over: up %d, turned %v", s.Up, s.Turned)
	}
}

func TestMoveStrip(t *testing.T) {
	for to, want := range map[int]string{
		0: "A1 A2 3 B1", 1: "A2 A1 3 B1", 2: "A2 3 A1 B1", 3: "A2 3 B1 A1", 9: "A2 3 B1 A1", -4: "A1 A2 3 B1",
	} {
		if got := order(must(t, table(), MoveStrip{"top", "A1", to}), "top"); got != want {
			t.Errorf("to %d: %s, want %s", to, got, want)
		}
	}
}

func TestAddStripAt(t *testing.T) {
	for at, want := range map[int]string{0: "7 A1 A2 3 B1", 2: "A1 A2 7 3 B1", 4: "A1 A2 3 B1 7", -1: "A1 A2 3 B1 7", 99: "A1 A2 3 B1 7"} {
		if got := order(must(t, table(), AddStrip{"top", NewPlace("7", 930, 80), at}), "top"); got != want {
			t.Errorf("at %d: %s, want %s", at, got, want)
		}
	}
}

func TestLiftLeavesThePlace(t *testing.T) {
	q := must(t, table(), LiftStrip{"top", "B1"})
	want := Strip{ID: "B1", L: 930, W: 90, Up: 2, Stage: Planned}
	if s := strip(t, q, "top", "B1"); !reflect.DeepEqual(s, want) {
		t.Errorf("got %+v", s)
	}
}

func TestPlacingOnAnotherBoardForgetsStockOff(t *testing.T) {
	q := must(t, table(), PlaceStrip{"top", "B1", "A", 40, 110, 0})
	if s := strip(t, q, "top", "B1"); s.Off != nil || s.Board != "A" || s.X != 40 || s.Y != 110 {
		t.Errorf("got %+v", s)
	}
	q = must(t, table(), PlaceStrip{"top", "B1", "B", 50, 20, 0})
	if strip(t, q, "top", "B1").Off == nil {
		t.Error("moved along its own board it forgot the stock to take off")
	}
}

func TestSparesAndBack(t *testing.T) {
	p := table()
	was := strip(t, p, "top", "A1")
	q := must(t, p, ToSpares{"top", "A1"})
	if order(q, "top") != "A2 3 B1" || len(q.Spares) != 2 || !reflect.DeepEqual(q.Spares[1], was) {
		t.Fatalf("panel %s, spares %+v", order(q, "top"), q.Spares)
	}
	q = must(t, q, FromSpares{"A1", "top", 0})
	if order(q, "top") != "A1 A2 3 B1" || len(q.Spares) != 1 || !reflect.DeepEqual(strip(t, q, "top", "A1"), was) {
		t.Errorf("panel %s, spares %+v", order(q, "top"), q.Spares)
	}
	_, err := Apply(p, ToSpares{"top", "3"})
	wantRule(t, err, RuleEmptyPlace)
}

func TestASpareOfTheSameIDGetsAnother(t *testing.T) {
	p := table()
	p.Spares[0].ID = "A1"
	q := must(t, p, ToSpares{"top", "A1"})
	if q.Spares[1].ID != "1" || q.Spares[1].Board != "A" {
		t.Errorf("spares %+v", q.Spares)
	}
}

func TestRemoveBoardLeavesPlaces(t *testing.T) {
	q := must(t, table(), RemoveBoard{"B"})
	if s := strip(t, q, "top", "B1"); !s.Empty() || s.W != 90 || s.Off != nil {
		t.Errorf("got %+v", s)
	}
	if len(q.Spares) != 0 || !q.Kept[0].Strips[0].Empty() || q.Kept[0].Strips[1].Empty() {
		t.Errorf("spares %+v, kept %+v", q.Spares, q.Kept)
	}
}

func TestRenameBoardTakesItsStripsAlong(t *testing.T) {
	q := must(t, table(), RenameBoard{"A", "H"})
	if strip(t, q, "top", "A1").Board != "H" || strip(t, q, "top", "A2").Board != "H" || q.Kept[0].Strips[1].Board != "H" {
		t.Errorf("%+v", q.Panel("top").Strips)
	}
	_, err := Apply(table(), RenameBoard{"A", "B"})
	wantRule(t, err, RuleDuplicateID)
}

func TestRemovePanelKeepsWhatIsSawn(t *testing.T) {
	q := must(t, table(), RemovePanel{"top"})
	if len(q.Spares) != 2 || q.Spares[1].ID != "A2" || len(q.Joined) != 0 || len(q.Kept) != 0 {
		t.Errorf("spares %+v, joined %v, kept %v", q.Spares, q.Joined, q.Kept)
	}
}

func TestUseKept(t *testing.T) {
	q := must(t, table(), UseKept{"top", "first"})
	if order(q, "top") != "B1 A1" {
		t.Errorf("order %s", order(q, "top"))
	}
	// A2 has been sawn and is not in the arrangement: it must not be lost.
	if _, ok := findStrip(q.Spares, "A2"); !ok {
		t.Errorf("spares %+v", q.Spares)
	}

	// Moved and sawn since it was kept: the cut stands, the order comes back.
	p := must(t, table(), PlaceStrip{"top", "A1", "A", 44, 9, 0})
	p = must(t, p, SetStage{"top", "A1", Sawn})
	p = must(t, p, TurnStrip{"top", "A1"})
	q = must(t, p, UseKept{"top", "first"})
	if s := strip(t, q, "top", "A1"); s.X != 44 || s.Stage != Sawn || s.Turned {
		t.Errorf("got %+v", s)
	}
}

func TestPlanedWidths(t *testing.T) {
	q := must(t, table(), SetPlaned{"top", "B1", &PlanedSap{Near: Tape{4, 5, 6}}})
	s := strip(t, q, "top", "B1")
	if s.Stage != Planed || s.Planed.Face != 2 || !s.MeasuredAsShown() {
		t.Errorf("got %+v, %+v", s, s.Planed)
	}
	q = must(t, q, FlipStrip{"top", "B1"})
	if strip(t, q, "top", "B1").MeasuredAsShown() {
		t.Error("rolled over, the measured face no longer shows")
	}
	_, err := Apply(table(), SetPlaned{"top", "3", &PlanedSap{}})
	wantRule(t, err, RuleEmptyPlace)
	_, err = Apply(table(), SetPlaned{"top", "B1", &PlanedSap{Near: Tape{91, 0, 0}}})
	wantRule(t, err, RuleTape)
}

func TestSawnStaysAsSawn(t *testing.T) {
	sawn := strip(t, table(), "top", "A2")
	change := func(f func(*Strip)) Edit {
		s := sawn
		f(&s)
		return SetStrip{"top", s, ""}
	}
	bad := []Edit{
		PlaceStrip{"top", "A2", "A", 1101, 8, 0},
		PlaceStrip{"top", "A2", "B", 1100, 8, 0},
		LiftStrip{"top", "A2"},
		change(func(s *Strip) { s.W-- }),
		change(func(s *Strip) { s.L++ }),
		change(func(s *Strip) { s.Angle = 1 }),
		change(func(s *Strip) { s.Y++; s.Stage = Planned }),
		RemoveBoard{"A"},
		SetStrips{"top", []Strip{change(func(s *Strip) { s.X++ }).(SetStrip).Strip}, nil, ""},
	}
	for _, e := range bad {
		_, err := Apply(table(), e)
		if r := wantRule(t, err, RuleStage); r.Strip != "A2" || r.Panel != "top" {
			t.Errorf("%s: %+v", e.Label(), r)
		}
	}
	for _, e := range []Edit{
		FlipStrip{"top", "A2"}, TurnStrip{"top", "A2"}, ShiftStrip{"top", "A2", 5}, MoveStrip{"top", "A2", 0},
		SetStage{"top", "A2", Planned}, SetStage{"top", "A2", Glued}, ToSpares{"top", "A2"}, RemoveStrip{"top", "A2"},
		RenameBoard{"A", "H"},
	} {
		must(t, table(), e)
	}
	p := must(t, table(), SetStage{"top", "A2", Planned})
	must(t, p, PlaceStrip{"top", "A2", "A", 1101, 8, 0})

	// A spare that is sawn is bound as well.
	p = must(t, table(), ToSpares{"top", "A2"})
	s := p.Spares[1]
	s.X++
	_, err := Apply(p, SetStrips{"top", p.Panel("top").Strips, []Strip{s}, ""})
	wantRule(t, err, RuleStage)
}

func TestUnknownIDs(t *testing.T) {
	for rule, list := range map[Rule][]Edit{
		RuleUnknownBoard: {PlaceStrip{"top", "3", "Z", 0, 0, 0}, RemoveBoard{"Z"}, RenameBoard{"Z", "Y"}, SetFace{"Z", 1, Face{}}, SetBoard{NewBoard("Z", "teak", 1, 1, 1)}, SpoilBoard{"Z", true}, SetGrain{"Z", 1, nil, ""}},
		RuleUnknownPanel: {FlipStrip{"nope", "A1"}, RemovePanel{"nope"}, Keep{Panel: "nope", Name: "k"}, ToSpares{"nope", "A1"}, FromSpares{"B2", "nope", 0}, RenamePanel{"nope", "n"}, PutSet{"", NewSet("x", "top", "nope")}, SetPlan{Panels: []PlanPanel{{"nope", nil}}}},
		RuleUnknownStrip: {FlipStrip{"top", "Z9"}, SwapStrips{"top", "A1", "Z9"}, SwapStrips{"top", "Z9", "A1"}, MoveStrip{"top", "Z9", 0}, RemoveStrip{"top", "Z9"}, ToSpares{"top", "Z9"}, FromSpares{"Z9", "top", 0}, RemoveSpare{"Z9"}},
		RuleUnknownSet:   {DropSet{"x"}, PutSet{"x", NewSet("case", "top", "side")}},
		RuleUnknownPart:  {DropPart{"x"}, PlacePart{"x", nil, ""}, PutPart{"x", NewPart("leg", Leg, 1, 9, 9, 9)}, SetPlan{Parts: []PlanPart{{"x", nil}}}},
		RuleUnknownKept:  {UseKept{"top", "none"}, DropKept{"top", "none"}},
		RuleFace:         {SetFace{"A", 0, Face{}}, SetZones{"A", 3, nil, ""}, SetGrain{"A", 0, nil, ""}},
		RuleDuplicateID:  {AddBoard{NewBoard("A", "teak", 10, 10, 10)}, AddPanel{NewPanel("top", RoleTop, 10, 10, 10)}, AddStrip{"top", NewPlace("A1", 10, 10), 0}, RenamePanel{"side", "top"}, AddPanel{NewPanel("leg", RoleTop, 10, 10, 10)}, RenamePanel{"side", "leg"}, PutPart{"", NewPart("top", Leg, 1, 9, 9, 9)}, PutPart{"leg", NewPart("side", Leg, 1, 9, 9, 9)}},
	} {
		for _, e := range list {
			_, err := Apply(table(), e)
			wantRule(t, err, rule)
		}
	}
}
