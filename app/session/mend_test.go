package session

import (
	"context"
	"strings"
	"testing"

	"heartside/model"
)

// mended finds the least change for what is lost.
func mended(t *testing.T, s *Session) Mended {
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

// Board A splits: spare E1 takes the place of A1, in one step that can be taken
// back; when B goes too there is nothing left and it says what is needed.
func TestMendTakesTheSpareAndSaysWhatIsMissing(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	if _, err := s.Mend(); err == nil || !strings.Contains(err.Error(), "no board is spoiled") {
		t.Fatalf("%v", err)
	}
	if err := s.Commit(model.SpoilBoard{ID: "A", Spoiled: true}); err != nil {
		t.Fatal(err)
	}
	got := mended(t, s)
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
	// Every other board is 106 wide and holds a strip of 100, now in the top.
	got = mended(t, s)
	if len(got.Changes) != 0 || got.Edit != nil || len(got.Missing) != 1 || !strings.Contains(got.Missing[0], "top: 100 mm of its width cannot be replaced") || !strings.Contains(got.Missing[0], "boards C, D and E are in use by top") {
		t.Errorf("%q, missing %q", got.Changes, got.Missing)
	}
	s.Undo()
	s.Undo()
	if s.Project().Panels[0].Strips[1].ID != "A1" {
		t.Error("it cannot be taken back")
	}
}

// A leg that is not sawn yet is lost with its board, 55 thick: another is cut where there is room,
// 730 + 50 by 56 + 9 of board G.
func TestMendReplacesPiecesOfParts(t *testing.T) {
	p := legged(model.PartPlace{Board: "F", X: 30, Y: 90, L: 730, W: 56, Stage: model.Sawn}, model.PartPlace{Board: "F", X: 30, Y: 10, L: 730, W: 56})
	p.Boards = append(p.Boards, bareBoard("G", 800, 70))
	p.Boards[len(p.Boards)-1].Thickness = 54
	s := New(p, Options{})
	defer s.Close()
	if err := s.Commit(model.SpoilBoard{ID: "F", Spoiled: true}); err != nil {
		t.Fatal(err)
	}
	m, err := s.Mend()
	if err != nil {
		t.Fatal(err)
	}
	got, err := m.Run(context.Background())
	if err != nil || len(got.Changes) != 1 || !strings.Contains(got.Changes[0], "leg 2 on board F: saw it from board G") {
		t.Fatalf("%q, missing %q, %v", got.Changes, got.Missing, err)
	}
	if err := s.Commit(got.Edit); err != nil {
		t.Fatal(err)
	}
	leg, _ := s.Project().Part("leg")
	if len(leg.Places) != 2 || leg.Places[0].Board != "F" || leg.Places[1].Board != "G" || s.UndoLabel() != "Replace what is lost" {
		t.Errorf("%+v, %q", leg.Places, s.UndoLabel())
	}
}

// The new strip is laid the way round that suits the look: sapwood to the
// outside. E has 28 of sapwood at y = 0 of either face: face 1 up shows it in
// front, and so does face 2, whose y = 0 is the edge that rolling brings to the
// front. So at the back of the top the strip lies turned, whichever face is up.
func TestMendLaysForTheLook(t *testing.T) {
	p := fourStrips()
	p.Boards[4].Faces[0].Zones = p.Boards[0].Faces[0].Zones
	p.Boards[4].Faces[1].Zones = p.Boards[4].Faces[0].Zones
	n := p.Panels[0]
	n.Strips[0], n.Strips[1] = n.Strips[1], n.Strips[0] // A, C, D, B
	s := New(p, Options{})
	defer s.Close()
	if err := s.Commit(model.SpoilBoard{ID: "B", Spoiled: true}); err != nil {
		t.Fatal(err)
	}
	m, err := s.Mend()
	if err != nil {
		t.Fatal(err)
	}
	got, err := m.Run(context.Background())
	if err != nil || got.Edit == nil {
		t.Fatalf("%+v, %v", got, err)
	}
	if err := s.Commit(got.Edit); err != nil {
		t.Fatal(err)
	}
	st := s.Project().Panels[0].Strips[3]
	if st.ID != "E1" || !st.Turned {
		t.Errorf("%+v, want the sapwood at the back edge", st)
	}
}
