package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

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
	p1 := plansOf(t, s)
	if s.asks != nil || len(p1.plans) == 0 || len(p1.gallery.tiles) == 0 {
		t.Fatal("no plan is shown")
	}
	if got := p1.gallery.AccessibilityLabel(); !strings.Contains(got, "used up") || !strings.Contains(got, "1 joint") {
		t.Errorf("it says %q", got)
	}
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyReturn})
	n := s.ses.Project().Panel("shelf")
	if len(n.Strips) == 0 {
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
	if p1.nowUsed() != p1.plans[0].ID || !p1.current() {
		t.Error("it is not said that it lies so")
	}
	s.act("undo")
	if len(s.ses.Project().Panel("shelf").Strips) != 0 {
		t.Error("it cannot be taken back")
	}
	if !p1.current() || p1.nowUsed() != "" {
		t.Error("the plans are gone with it")
	}
	// The plans are kept for when it is asked again.
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if s.page != nil || !s.act("plan") || s.asks == nil || s.asks.q.other == "" {
		t.Fatal("the plans found before are not offered")
	}
	s.asks.cancel()
	n = s.ses.Project().Panel("shelf")
	e := *n
	e.Width = 150
	if err := s.ses.Commit(model.SetPanel{Panel: &e}); err != nil {
		t.Fatal(err)
	}
	s.act("plan")
	if s.asks.q.other != "" {
		t.Error("plans of what the project was before are offered")
	}
}

// plansOf waits until the search for plans is over.
func plansOf(t *testing.T, s stage) *planPage {
	t.Helper()
	s.q.drain()
	p, ok := s.page.(*planPage)
	if !ok {
		t.Fatalf("%T is shown, no plans", s.page)
	}
	s.q.wait(t, "the plans", func() bool { return !p.running })
	return p
}

// A shelf and a leg from a long board and a short one, a second board alike in
// nothing: one plan after the other is tried, each by a key, each one step.
func TestPlansTriedOneAfterAnother(t *testing.T) {
	p := model.NewProject()
	for i, id := range []string{"A", "B", "C"} {
		b := model.NewBoard(id, "walnut-black", float64(2000-300*i), float64(200+10*i), 25)
		for f := range b.Faces {
			b.Faces[f] = model.Face{Known: true, Base: model.Heart}
		}
		p.Boards = append(p.Boards, b)
	}
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 700, 240, 20))
	p.Parts = []model.Part{model.NewPart("leg", model.Leg, 2, 720, 60, 22)}
	s := open(t, p, 100)
	s.act("plan")
	s.asks.confirm()
	pp := plansOf(t, s)
	if len(pp.plans) < 2 {
		t.Fatalf("%d plans, want more", len(pp.plans))
	}
	before, steps := s.ses.Committed(), s.steps()
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if pp.gallery.at != len(pp.plans)-1 {
		t.Fatalf("plan %d is in hand", pp.gallery.at)
	}
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if s.steps() != steps+2 || pp.nowUsed() != pp.plans[len(pp.plans)-1].ID {
		t.Errorf("%d steps, %q", s.steps()-steps, s.said)
	}
	if leg, _ := s.ses.Project().Part("leg"); len(leg.Places) != 2 {
		t.Errorf("the leg lies at %+v", leg.Places)
	}
	s.act("undo")
	if pp.nowUsed() != pp.plans[0].ID {
		t.Error("undo does not lead to the plan before")
	}
	s.act("undo")
	if s.ses.Committed() != before || !pp.current() {
		t.Error("undo does not lead back")
	}
	for range 2 { // the pictures of panels, and of boards again
		pp.sign('p')
		s.q.drain()
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
