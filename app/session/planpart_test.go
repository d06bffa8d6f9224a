package session

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
)

func placesOn(n model.Part) []string {
	var out []string
	for _, k := range n.Places {
		out = append(out, k.Board)
	}
	return out
}

// By hand, with 25 at each end and 4.5 at each edge of a blank: the leg of 720
// by 60 needs 770 by 69 and lies only in A, 800 by 80; the shelf of 400 by 60
// needs 450 by 79 (5 excess at each edge) and lies in A and in B, 480 by 90.
// Least wood for the shelf alone would take A's remnant first.
func TestPlanSharesBoardsBetweenPanelsAndParts(t *testing.T) {
	p := model.NewProject()
	p.Allowances.Snipe = 0
	p.Boards = []*model.Board{bareBoard("A", 800, 80), bareBoard("B", 480, 90)}
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 400, 60, 20))
	p.Parts = []model.Part{model.NewPart("leg", model.Leg, 1, 720, 60, 22)}
	s := New(p, Options{})
	defer s.Close()
	for _, aim := range []stock.Objective{stock.LeastWood, stock.BestLook, stock.FewestJoints, stock.WholeBoards} {
		q, err := s.Plan(PlanWish{Panels: []string{"shelf"}, Parts: []string{"leg"}, Aim: aim})
		if err != nil {
			t.Fatal(err)
		}
		all, err := q.Run(context.Background(), nil)
		if err != nil || len(all.List) != 1 {
			t.Fatalf("%s: %d plans, %v", aim, len(all.List), err)
		}
		if len(all.Only) != 1 || all.Only[0] != "only board A gives leg; shelf could come from it too and must leave it that room" {
			t.Errorf("%s: it minds %q", aim, all.Only)
		}
		got := all.List[0]
		if got.Missing != 0 || got.Edit == nil || !slices.Equal(got.Cut, []string{"A", "B"}) {
			t.Fatalf("%s: %+v", aim, got)
		}
		if err := s.Commit(got.Edit); err != nil {
			t.Fatal(err)
		}
		leg, _ := s.Project().Part("leg")
		if want := s.Project().Panel("shelf").Strips; !slices.Equal(placesOn(leg), []string{"A"}) || len(want) != 1 || want[0].Board != "B" {
			t.Errorf("%s: the leg on %v, the shelf on %+v", aim, leg.Places, want)
		}
		for _, f := range s.fit() {
			t.Errorf("%s: %s %v", aim, f.Kind, f.Strips)
		}
		if !s.Undo() || len(s.Project().Panel("shelf").Strips) != 0 {
			t.Errorf("%s: it is not one step", aim)
		}
	}
}

// One leg of three is sawn and one lies on a board: what is missing of them is
// one, the other only where the maker says, the sawn one never.
func TestPlanOfPartsKeepsWhatLies(t *testing.T) {
	sawn := model.PartPlace{Board: "F", X: 30, Y: 10, L: 730, W: 56, Stage: model.Sawn}
	lies := model.PartPlace{Board: "F", X: 30, Y: 90, L: 730, W: 56, Stage: model.Planned}
	p := legged(sawn, lies)
	p.Parts[0].Count = 3
	s := New(p, Options{})
	defer s.Close()
	if got, want := s.PartsToPlan(), []PartToPlan{{ID: "leg", Missing: 1, Lie: 1, Layers: 1}}; !reflect.DeepEqual(got, want) {
		t.Fatalf("%+v, want %+v", got, want)
	}
	for _, again := range []bool{false, true} {
		w := PlanWish{Parts: []string{"leg"}, Aim: stock.LeastWood}
		if again {
			w.Again = w.Parts
		}
		got := plannedNow(t, s, w)
		if got.Missing != 0 {
			t.Fatalf("%+v", got)
		}
		if err := s.Commit(got.Edit); err != nil {
			t.Fatal(err)
		}
		leg, _ := s.Project().Part("leg")
		if len(leg.Places) != 3 || leg.Places[0] != sawn || (leg.Places[1] == lies) == again {
			t.Errorf("again %v: %+v", again, leg.Places)
		}
		for _, f := range s.fit() {
			if f.Kind == face.PartsOverlap && slices.ContainsFunc(f.Strips, func(id string) bool { return strings.HasPrefix(id, "leg/") }) {
				t.Errorf("again %v: %s %v", again, f.Kind, f.Strips)
			}
		}
		s.Undo()
	}
}

// A leg 50 thick of boards 25 thick is two layers, so two legs are four pieces.
func TestPlanOfLayers(t *testing.T) {
	p := model.NewProject()
	p.Boards = []*model.Board{bareBoard("A", 2000, 200)}
	p.Parts = []model.Part{model.NewPart("leg", model.Leg, 2, 700, 60, 50)}
	s := New(p, Options{})
	defer s.Close()
	if got := s.PartsToPlan(); len(got) != 1 || got[0].Missing != 4 || got[0].Layers != 2 {
		t.Fatalf("%+v", got)
	}
	got := plannedNow(t, s, PlanWish{Parts: []string{"leg"}, Aim: stock.LeastWood})
	if got.Missing != 0 || len(got.Boards) != 1 || len(got.Boards[0].New) != 4 || !strings.Contains(got.Lines[0], "glued up of 2") {
		t.Errorf("%+v", got)
	}
}

// What could not be placed is named with the reason: A is in use by the panel
// beside, B is too short by 720 + 2 x 25 - 500.
func TestPlanSaysWhatIsInTheWay(t *testing.T) {
	p := model.NewProject()
	p.Boards = []*model.Board{bareBoard("A", 800, 110), bareBoard("B", 500, 110)}
	side := model.NewPanel("side", model.RoleSide, 700, 80, 20)
	side.Strips = []model.Strip{{ID: "A1", Board: "A", X: 40, Y: 8, L: 720, W: 90, Up: 1}}
	p.Panels = append(p.Panels, side)
	p.Parts = []model.Part{model.NewPart("leg", model.Leg, 2, 720, 60, 22)}
	s := New(p, Options{})
	defer s.Close()
	got := plannedNow(t, s, PlanWish{Parts: []string{"leg"}, Aim: stock.LeastWood})
	want := "leg: 2 pieces of 720 mm by 60 mm cannot be placed: board A is in use by side; board B lacks 270 mm of length"
	if got.Edit != nil || len(got.Short) != 1 || got.Short[0] != want {
		t.Errorf("%q, want %q", got.Short, want)
	}
}

// Boards of another species than asked for are left alone.
func TestPlanKeepsToASpecies(t *testing.T) {
	p := model.NewProject()
	a, b := bareBoard("A", 800, 110), bareBoard("B", 1500, 210)
	a.Species = "maple-sugar"
	p.Boards = []*model.Board{a, b}
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 700, 80, 20))
	s := New(p, Options{})
	defer s.Close()
	for species, want := range map[string]string{"walnut-black": "B", "maple-sugar": "A"} {
		got := plannedNow(t, s, PlanWish{Panels: []string{"shelf"}, Species: species, Aim: stock.LeastWood})
		if !slices.Equal(got.Cut, []string{want}) {
			t.Errorf("%q: from %v, want %s", species, got.Cut, want)
		}
	}
}
