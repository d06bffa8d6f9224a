package session

import (
	"context"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
)

// bareBoard is a board of heartwood.
func bareBoard(id string, length, width float64) *model.Board {
	b := model.NewBoard(id, "walnut-black", length, width, 25)
	for f := range b.Faces {
		b.Faces[f] = model.Face{Known: true, Base: model.Heart}
	}
	return b
}

func plannedNow(t *testing.T, s *Session, w PlanWish) Planned {
	t.Helper()
	q, err := s.Plan(w)
	if err != nil {
		t.Fatal(err)
	}
	got, err := q.Run(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.List) == 0 {
		t.Fatal("no plan")
	}
	return got.List[0]
}

// Two empty panels from three boards: both are whole, nothing lies over
// anything else, and it is one step.
func TestPlanFromBoards(t *testing.T) {
	p := model.NewProject()
	p.Boards = []*model.Board{bareBoard("A", 2400, 210), bareBoard("B", 2000, 180), bareBoard("C", 1500, 160)}
	for _, b := range p.Boards {
		b.Price = &model.Price{Amount: 12, Per: "board-foot"}
	}
	p.Panels = append(p.Panels, model.NewPanel("top", model.RoleTop, 900, 350, 20), model.NewPanel("shelf", model.RoleShelf, 700, 150, 20))
	s := New(p, Options{})
	defer s.Close()
	for _, aim := range []stock.Objective{stock.LeastWood, stock.LeastCost, stock.BestLook, stock.FewestJoints, stock.WholeBoards} {
		got := plannedNow(t, s, PlanWish{Panels: []string{"top", "shelf"}, Aim: aim})
		if got.Missing != 0 || len(got.Lines) != 2 || got.Edit == nil || !(got.Cost > 0) || !(got.Used > got.Lost) {
			t.Fatalf("%s: %+v", aim, got)
		}
		if err := s.Commit(got.Edit); err != nil {
			t.Fatal(err)
		}
		for _, f := range s.fit() {
			if f.Kind == face.PartsOverlap || f.Kind == face.OutsideBoard || f.Kind == face.UnderMachineLimit {
				t.Errorf("%s: %s %v", aim, f.Kind, f.Strips)
			}
		}
		for _, id := range []string{"top", "shelf"} {
			for _, w := range s.Reading(id).Warnings {
				if w.Kind == face.PanelTooSmall {
					t.Errorf("%s: the strips do not cover %s", aim, id)
				}
			}
		}
		if s.UndoLabel() != "Plan strips from the boards" || !s.Undo() || len(s.Project().Panel("top").Strips) != 0 {
			t.Errorf("%s: it is not one step", aim)
		}
	}
}

// What cannot be made is said with its size, and the board that comes nearest:
// a blank is 900 and 25 at each end, and the board 800 long.
func TestPlanSaysWhatIsShort(t *testing.T) {
	p := model.NewProject()
	p.Boards = append(p.Boards, bareBoard("A", 800, 210))
	p.Panels = append(p.Panels, model.NewPanel("top", model.RoleTop, 900, 150, 20))
	s := New(p, Options{})
	defer s.Close()
	got := plannedNow(t, s, PlanWish{Panels: []string{"top"}, Aim: stock.LeastWood})
	if got.Missing != 1 || got.Edit != nil || len(got.Short) != 1 || !strings.Contains(got.Short[0], "top: needs") || !strings.Contains(got.Short[0], "no board is long enough; board A lacks 150 mm of length") {
		t.Errorf("%+v", got)
	}
}

func TestPlanRefuses(t *testing.T) {
	p := fourStrips()
	p.Panels[0].Strips[0].Pinned = true
	s := New(p, Options{})
	defer s.Close()
	for _, c := range []struct {
		panels []string
		want   string
	}{{nil, "tick at least one"}, {[]string{"nowhere"}, "no panel"}, {[]string{"top"}, "pinned or sawn"}} {
		if _, err := s.Plan(PlanWish{Panels: c.panels, Aim: stock.LeastWood}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v", c.panels, err)
		}
	}
	if len(s.Plannable()) != 0 {
		t.Errorf("plannable are %v", s.Plannable())
	}
}

// What other panels and spares take of the boards stays theirs.
func TestPlanLeavesTheRest(t *testing.T) {
	p := fourStrips()
	p.Boards = append(p.Boards, bareBoard("W", 1000, 250))
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 700, 150, 20))
	s := New(p, Options{})
	defer s.Close()
	got := plannedNow(t, s, PlanWish{Panels: []string{"shelf"}, Aim: stock.LeastWood})
	if got.Missing != 0 {
		t.Fatalf("%+v", got)
	}
	if err := s.Commit(got.Edit); err != nil {
		t.Fatal(err)
	}
	for _, st := range s.Project().Panel("shelf").Strips {
		if st.Board != "W" {
			t.Errorf("strip %s is cut from %s, which is taken", st.ID, st.Board)
		}
	}
}

// A price is by volume, the plan's by area: a board foot is 144 cubic inches,
// so at 12 a foot and an inch thick a square foot costs 12.
func TestPriceOfABoardByArea(t *testing.T) {
	b := bareBoard("A", 1000, 200)
	b.Thickness = 25.4
	const foot = 304.8 * 304.8
	for per, want := range map[string]float64{"board-foot": 12, "cubic-foot": 1, "cubic-metre": 12 * 25.4 * foot / 1e9} {
		b.Price = &model.Price{Amount: 12, Per: per}
		if got := priceOf(b).PerArea * foot; got < want*0.999999 || got > want*1.000001 {
			t.Errorf("%s: %g a square foot, want %g", per, got, want)
		}
	}
	b.Price = &model.Price{Amount: 30, Per: "board"}
	if got := priceOf(b); got.Whole != 30 || got.PerArea != 0 {
		t.Errorf("%+v", got)
	}
}
