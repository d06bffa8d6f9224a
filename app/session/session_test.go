package session

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heartside/assets"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// embedded reads the demo's pictures.
type embedded struct{}

func (embedded) Open(name string) (io.ReadCloser, error) { return assets.Demo.Open("demo/" + name) }

func demo(t testing.TB) *Session {
	t.Helper()
	data, err := assets.Demo.ReadFile("demo/project.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s := New(Blank(), Options{})
	t.Cleanup(s.Close)
	if err := s.OpenFrom(data, "project.yaml", embedded{}); err != nil {
		t.Fatal(err)
	}
	return s
}

// placed returns the first strip of the first panel that lies on a board.
func placed(t testing.TB, s *Session) (panel string, st model.Strip) {
	t.Helper()
	for _, m := range s.Project().Panels {
		for _, st := range m.Strips {
			if st.Board != "" {
				return m.ID, st
			}
		}
	}
	t.Fatal("nothing is placed")
	return "", model.Strip{}
}

func TestPreviewLeavesNoTrace(t *testing.T) {
	s := demo(t)
	start := s.Project()
	panel, st := placed(t, s)
	was := s.Reading(panel).Clone()
	if err := s.Preview(model.FlipStrip{Panel: panel, Strip: st.ID}); err != nil {
		t.Fatal(err)
	}
	if s.Project() == start || s.Committed() != start || s.CanUndo() || !s.Previewing() {
		t.Error("a preview shows without becoming part of the project")
	}
	s.Cancel()
	if s.Project() != start || s.Dirty() {
		t.Error("a cancelled preview leaves the very project it began from")
	}
	if now := s.Reading(panel); now.Show.Light != was.Show.Light {
		t.Errorf("light share %v after a cancelled preview, %v before", now.Show.Light, was.Show.Light)
	}
}

func TestCommitUndoRedo(t *testing.T) {
	s := demo(t)
	start := s.Project()
	panel, st := placed(t, s)
	calls := 0
	s.OnChange(func() { calls++ })
	if err := s.Commit(model.TurnStrip{Panel: panel, Strip: st.ID}); err != nil {
		t.Fatal(err)
	}
	if calls == 0 || !s.Dirty() || !s.CanUndo() || s.Before() != start {
		t.Error("a commit tells, makes an entry and keeps what was before")
	}
	if got := s.BeforePanel(panel); got == nil || got.Strips[0].ID == "" {
		t.Error("the panel before the change can be shown")
	}
	turned := s.Project()
	if !s.Undo() || s.Project() != start || s.Dirty() {
		t.Error("undo gives the very project back, clean again")
	}
	if !s.Redo() || s.Project() != turned {
		t.Error("redo gives the changed project back")
	}
}

func TestRefusedEditChangesNothing(t *testing.T) {
	s := demo(t)
	start := s.Project()
	if err := s.Commit(model.FlipStrip{Panel: "no such panel", Strip: "x"}); err == nil {
		t.Error("an edit of nothing is refused")
	}
	if s.Project() != start || s.CanUndo() {
		t.Error("a refused edit changes nothing")
	}
}

// An unchanged board keeps its pointer from view to view, since readers know
// boards by it.
func TestViewsShareBoards(t *testing.T) {
	s := demo(t)
	panel, st := placed(t, s)
	was := s.Board(st.Board)
	if err := s.Commit(model.FlipStrip{Panel: panel, Strip: st.ID}); err != nil {
		t.Fatal(err)
	}
	if s.Board(st.Board) != was {
		t.Error("rolling a strip over made its board anew")
	}
}

func TestFaceNotLookedAtIsTakenThrough(t *testing.T) {
	b := &model.Board{ID: "A", Species: "walnut-black", Length: 1000, Width: 200, Thickness: 26}
	b.Faces[0] = model.Face{Known: true, Zones: []model.Zone{{Kind: model.Sap, Polygon: rect(0, 0, 1000, 30)}}}
	fb := boardOf(Blank(), b, lookedAt{})
	f := fb.Faces[1]
	if !f.Guessed || len(f.Zones) != 1 {
		t.Fatalf("face 2 is taken from face 1, got %+v", f)
	}
	// A point (x, y) of face 1 lies over (x, width - y) of face 2.
	if got := f.Zones[0].Polygon.Bounds(); got.Min.Y != 170 || got.Max.Y != 200 {
		t.Errorf("sapwood of y 0 to 30 lies at %g to %g of face 2, want 170 to 200", got.Min.Y, got.Max.Y)
	}
	b.Faces[0].Known = false
	b.Faces[0].Zones = nil
	for i, f := range boardOf(Blank(), b, lookedAt{}).Faces {
		if f.Base != face.Heart || !f.Guessed {
			t.Errorf("face %d of a board nobody looked at is heartwood, marked as a guess: %+v", i+1, f)
		}
	}
}

func TestSaveAsTakesPicturesAlong(t *testing.T) {
	s := demo(t)
	dir := t.TempDir()
	if err := s.Save(); err != ErrNoPath {
		t.Errorf("saving without a file gave %v", err)
	}
	if err := s.SaveAs(filepath.Join(dir, "hall")); err != nil {
		t.Fatal(err)
	}
	if s.Dirty() || !strings.HasSuffix(s.Path(), "hall.yaml") {
		t.Errorf("after saving: dirty %v, path %s", s.Dirty(), s.Path())
	}
	again := New(Blank(), Options{})
	defer again.Close()
	if err := again.Open(filepath.Join(dir, "hall.yaml")); err != nil {
		t.Fatal(err)
	}
	if bad := again.PhotoTrouble(); len(bad) > 0 {
		t.Errorf("pictures lost: %v", bad)
	}
	// States before the saving find their pictures too.
	panel, st := placed(t, s)
	if err := s.Commit(model.FlipStrip{Panel: panel, Strip: st.ID}); err != nil {
		t.Fatal(err)
	}
	if err := s.SaveAs(filepath.Join(t.TempDir(), "elsewhere.yaml")); err != nil {
		t.Fatal(err)
	}
	if !s.Undo() || !s.Dirty() || len(s.PhotoTrouble()) > 0 {
		t.Errorf("after undoing: dirty %v, %v", s.Dirty(), s.PhotoTrouble())
	}
	if n := s.Notes(panel); len(n) > 0 && !n[0].FixesKnown {
		t.Error("fixes were lost with the saving")
	}
	// Named from another folder, the same pictures are found again.
	other := filepath.Join(t.TempDir(), "copy.yaml")
	if err := again.SaveAs(other); err != nil {
		t.Fatal(err)
	}
	third := New(Blank(), Options{})
	defer third.Close()
	if err := third.Open(other); err != nil {
		t.Fatal(err)
	}
	if bad := third.PhotoTrouble(); len(bad) > 0 {
		t.Errorf("pictures lost: %v", bad)
	}
}

func TestMissingPhotoIsToldAndTolerated(t *testing.T) {
	s := demo(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "p.yaml")
	if err := s.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	var name string
	for _, b := range s.Project().Boards {
		if b.Faces[0].Photo != "" {
			name = b.Faces[0].Photo
		}
	}
	if err := os.Remove(filepath.Join(dir, filepath.FromSlash(name))); err != nil {
		t.Fatal(err)
	}
	again := New(Blank(), Options{})
	defer again.Close()
	if err := again.Open(path); err != nil {
		t.Fatal(err)
	}
	if bad := again.PhotoTrouble(); len(bad) != 1 || !strings.Contains(bad[0], "not found") {
		t.Errorf("told %v", bad)
	}
}

func TestOpenKeepsProjectOnError(t *testing.T) {
	s := demo(t)
	was := s.Project()
	bad := filepath.Join(t.TempDir(), "bad.yaml")
	if err := os.WriteFile(bad, []byte("heartside: 1\nboards: 7\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{bad, filepath.Join(t.TempDir(), "none.yaml")} {
		if err := s.Open(path); err == nil {
			t.Errorf("%s opened", filepath.Base(path))
		}
	}
	if s.Project() != was {
		t.Error("a failed open leaves the project on screen")
	}
}

func TestSelectionDropsWhatIsGone(t *testing.T) {
	s := demo(t)
	panel, st := placed(t, s)
	s.Select(Selection{Panel: panel, Strip: st.ID, Zone: -1})
	if got := s.Selected(); got.Board != st.Board || got.Strip != st.ID {
		t.Errorf("picking a strip takes its board in hand: %+v", got)
	}
	if err := s.Commit(model.RemovePanel{ID: panel}); err != nil {
		t.Fatal(err)
	}
	if got := s.Selected(); got.Strip != "" || got.Panel == panel {
		t.Errorf("the panel is gone, still selected: %+v", got)
	}
}

func rect(x0, y0, x1, y1 float64) geom.Polygon { return geom.R(x0, y0, x1, y1).Polygon() }

// The demo holds one streak, and a fix pressed mends it and makes none.
func TestFixMendsTheStreak(t *testing.T) {
	s := demo(t)
	panel, note := "", Note{}
	for _, m := range s.Project().Panels {
		for _, n := range s.Notes(m.ID) {
			if n.Kind == face.LoneStreak {
				panel, note = m.ID, n
			}
		}
	}
	if panel == "" || !note.FixesKnown || len(note.Fixes) == 0 {
		t.Fatalf("no streak with a fix: %+v", note)
	}
	start, before := s.Project(), len(s.Notes(panel))
	if err := s.Apply(note.Fixes[0]); err != nil {
		t.Fatal(err)
	}
	for _, n := range s.Notes(panel) {
		if n.Kind == face.LoneStreak {
			t.Errorf("still there after %q: %s", note.Fixes[0].Text, n.Title)
		}
	}
	if after := len(s.Notes(panel)); after >= before {
		t.Errorf("%d warnings after the fix, %d before", after, before)
	}
	if got := s.Reading(panel).Show.Light.Value; got != note.Fixes[0].Readings.Light {
		t.Errorf("light share %g, the fix promised %g", got, note.Fixes[0].Readings.Light)
	}
	if !s.Undo() || s.Project() != start {
		t.Error("a fix is one entry of the history")
	}
}
