package session

import (
	"context"
	"strings"
	"testing"

	"heartside/model"
)

// Board A splits: spare E1 takes the place of A1, in one step that can be taken
// back; when B goes too there is nothing left and it says what is needed.
func TestMendTakesTheSpareAndSaysWhatIsMissing(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	if _, err := s.Mend(); err == nil || !strings.Contains(err.Error(), "no board is spoiled") {
		t.Fatalf("%v", err)
	}
	mended := func() Mended {
		t.Helper()
		m, err := s.Mend()
		if err != nil {
			t.Fatal(err)
		}
		got, err := m.Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	if err := s.Commit(model.SpoilBoard{ID: "A", Spoiled: true}); err != nil {
		t.Fatal(err)
	}
	got := mended()
	if len(got.Changes) != 1 || len(got.Missing) != 0 || !strings.Contains(got.Changes[0], "top, strip A1 on board A: take spare E1 of board E") {
		t.Fatalf("%q, missing %q", got.Changes, got.Missing)
	}
	if err := s.Commit(got.Edit); err != nil {
		t.Fatal(err)
	}
	p := s.Project()
	if p.Panels[0].Strips[1].ID != "E1" || len(p.Spares) != 0 || s.UndoLabel() != "Replace what is lost" {
		t.Errorf("strips %v, spares %v, %q", p.Panels[0].Strips, p.Spares, s.UndoLabel())
	}
	if err := s.Commit(model.SpoilBoard{ID: "B", Spoiled: true}); err != nil {
		t.Fatal(err)
	}
	// A blank for 940 x 100 is 990 x 109; every board is 106 wide and taken.
	got = mended()
	if len(got.Changes) != 0 || got.Edit != nil || len(got.Missing) != 1 || !strings.Contains(got.Missing[0], "needs a blank of 990 mm by 109 mm; no free piece is so wide") {
		t.Errorf("%q, missing %q", got.Changes, got.Missing)
	}
	s.Undo()
	s.Undo()
	if s.Project().Panels[0].Strips[1].ID != "A1" {
		t.Error("it cannot be taken back")
	}
}
