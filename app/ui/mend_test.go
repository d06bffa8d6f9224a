package ui

import (
	"strings"
	"testing"

	"heartside/model"
)

// Board A is spoiled: its strip comes from board B, which has room, after it
// was asked; one step that can be taken back.
func TestReplaceWhatIsLost(t *testing.T) {
	p := model.NewProject()
	for _, id := range []string{"A", "B"} {
		b := model.NewBoard(id, "walnut-black", 1000, 120, 25)
		for f := range b.Faces {
			b.Faces[f] = model.Face{Known: true, Base: model.Heart}
		}
		p.Boards = append(p.Boards, b)
	}
	n := model.NewPanel("top", model.RoleTop, 900, 85, 20)
	n.Strips = []model.Strip{{ID: "A1", Board: "A", X: 30, Y: 8, L: 930, W: 100, Up: 1}}
	p.Panels = append(p.Panels, n)
	s := open(t, p, 100)
	if s.acts.byID["mend"].Can() {
		t.Error("something is lost where no board is spoiled")
	}
	if err := s.ses.Commit(model.SpoilBoard{ID: "A", Spoiled: true}); err != nil {
		t.Fatal(err)
	}
	if !s.act("mend") {
		t.Fatal("nothing can be replaced")
	}
	s.q.wait(t, "the question", func() bool { return s.asks != nil })
	if got := saidIn(s); !strings.Contains(got, "strip A1 on board A: saw it from board B") {
		t.Fatalf("it says %q", got)
	}
	s.asks.confirm()
	if got := s.ses.Project().Panel("top").Strips[0].Board; got != "B" {
		t.Errorf("the strip lies on board %q", got)
	}
	s.act("undo")
	if got := s.ses.Project().Panel("top").Strips[0].Board; got != "A" {
		t.Errorf("taken back, it lies on board %q", got)
	}
}

// saidIn is what the dialog that is up says.
func saidIn(s stage) string {
	var out []string
	for _, o := range inside(s.asks.q.body) {
		if l, ok := o.(interface{ AccessibilityLabel() string }); ok {
			out = append(out, l.AccessibilityLabel())
		}
	}
	return strings.Join(out, " ")
}
