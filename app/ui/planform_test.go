package ui

import (
	"strings"
	"testing"

	"heartside/model"
)

// A panel's strips are planned from the boards by keys: the dialog, the plan in
// words, and one step that can be taken back.
func TestPlanByKeys(t *testing.T) {
	p := model.NewProject()
	for _, id := range []string{"A", "B"} {
		b := model.NewBoard(id, "walnut-black", 2000, 200, 25)
		for f := range b.Faces {
			b.Faces[f] = model.Face{Known: true, Base: model.Heart}
		}
		p.Boards = append(p.Boards, b)
	}
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 700, 240, 20))
	s := open(t, p, 100)
	if !s.act("plan") || s.asks == nil {
		t.Fatal("it does not ask")
	}
	s.asks.confirm()
	s.q.wait(t, "the plan", func() bool { return s.asks != nil && strings.Contains(saidIn(s), "used up") })
	if got := saidIn(s); !strings.Contains(got, "Shelf") && !strings.Contains(got, "shelf") || !strings.Contains(got, "strip") {
		t.Errorf("it says %q", got)
	}
	s.asks.confirm()
	n := s.ses.Project().Panel("shelf")
	if len(n.Strips) == 0 || s.asks != nil {
		t.Fatalf("%d strips lie there", len(n.Strips))
	}
	for _, st := range n.Strips {
		if st.Board == "" {
			t.Errorf("strip %s lies on no board", st.ID)
		}
	}
	if s.ses.UndoLabel() != "Plan strips from the boards" {
		t.Errorf("the step is called %q", s.ses.UndoLabel())
	}
	s.act("undo")
	if len(s.ses.Project().Panel("shelf").Strips) != 0 {
		t.Error("it cannot be taken back")
	}
}

// A panel with a pinned strip cannot be planned anew, and that is said.
func TestPlanOfNothing(t *testing.T) {
	p := model.NewProject()
	b := model.NewBoard("A", "walnut-black", 1000, 120, 25)
	p.Boards = append(p.Boards, b)
	n := model.NewPanel("top", model.RoleTop, 900, 85, 20)
	n.Strips = []model.Strip{{ID: "A1", Board: "A", X: 30, Y: 8, L: 930, W: 100, Up: 1, Pinned: true}}
	p.Panels = append(p.Panels, n)
	s := open(t, p, 100)
	s.act("plan")
	if s.asks != nil || !strings.Contains(s.said, "pinned or sawn") {
		t.Errorf("it says %q", s.said)
	}
}
