package session

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heartside/model"
	"heartside/model/file"
)

// tableIn saves a project in a folder and opens it.
func tableIn(t *testing.T) (*Session, string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "projects", "contract.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "table.yaml")
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	s := New(Blank(), Options{})
	t.Cleanup(s.Close)
	if err := s.Open(path); err != nil {
		t.Fatal(err)
	}
	return s, path
}

func rename(t *testing.T, s *Session, name string) {
	t.Helper()
	if err := s.Commit(model.SetSettings{Settings: model.Settings{Name: name, Units: "mm"}}); err != nil {
		t.Fatal(err)
	}
}

func TestSaveNoticesOtherPrograms(t *testing.T) {
	s, path := tableIn(t)
	rename(t, s, "Ours")
	if err := s.Save(); err != nil {
		t.Fatalf("nobody changed it: %v", err)
	}
	ours, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// Written anew with the same content is not changed.
	if err := os.WriteFile(path, ours, 0o666); err != nil {
		t.Fatal(err)
	}
	rename(t, s, "Ours again")
	if err := s.Save(); err != nil {
		t.Fatalf("touched, not changed: %v", err)
	}
	// Changed without another size.
	now, _ := os.ReadFile(path)
	theirs := strings.Replace(string(now), "Ours", "Hers", 1)
	if err := os.WriteFile(path, []byte(theirs), 0o666); err != nil {
		t.Fatal(err)
	}
	rename(t, s, "Ours at last")
	var changed *ChangedError
	for what, err := range map[string]error{"save": s.Save(), "save as its own name": s.SaveAs(path)} {
		if !errors.As(err, &changed) || changed.When.IsZero() || !strings.Contains(err.Error(), "table.yaml was changed by another program") {
			t.Errorf("%s: %v", what, err)
		}
	}
	if got, _ := os.ReadFile(path); string(got) != theirs || !s.Dirty() {
		t.Error("it was replaced without a question")
	}
	if err := s.SaveOver(); err != nil || s.Dirty() {
		t.Error(err)
	}
	if got, _ := os.ReadFile(path + file.BackupSuffix); string(got) != theirs {
		t.Error("theirs is not kept")
	}
	// Removed by another: there is nothing to lose by writing it.
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	rename(t, s, "Ours for good")
	if err := s.Save(); err != nil {
		t.Error(err)
	}
}

func TestLookOnly(t *testing.T) {
	s, path := tableIn(t)
	s.SetLookOnly(true)
	rename(t, s, "Changed")
	if err := s.Save(); !errors.Is(err, ErrLookOnly) || !strings.Contains(s.Title(), "(only looked at)") {
		t.Errorf("%v, %s", err, s.Title())
	}
	other := filepath.Join(filepath.Dir(path), "other.yaml")
	if err := s.SaveAs(other); err != nil || s.LookOnly() {
		t.Errorf("under another name: %v", err)
	}
	if err := s.OpenCopy(path); err != nil || s.Path() != "" || s.Committed().Name == "Changed" {
		t.Errorf("a copy: %v", err)
	}
	if err := s.OpenCopy(path + "x"); err == nil {
		t.Error("a copy of nothing")
	}
}

// What is told and taken up again is on screen as it was.
func TestResume(t *testing.T) {
	s, path := tableIn(t)
	rename(t, s, "One")
	rename(t, s, "Two")
	st := s.Standing(10)
	if len(st.States) != 3 || st.Saved != 0 || st.Path != path || st.Print.None() {
		t.Fatalf("%+v", st)
	}
	r := New(Blank(), Options{})
	defer r.Close()
	r.Resume(st, Folder(filepath.Dir(path)))
	if r.Committed() != s.Committed() || !r.Dirty() || r.UndoLabel() != s.UndoLabel() || r.Selected() != s.Selected() {
		t.Error("another project is on screen")
	}
	r.Undo()
	r.Undo()
	if r.Dirty() || r.CanUndo() {
		t.Error("back at the file it is not clean")
	}
	// The file changed meanwhile: nothing counts as saved, and saving asks.
	if err := os.WriteFile(path, []byte("heartside: 1\nname: Theirs\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	r.Resume(st, Folder(filepath.Dir(path)))
	r.Undo()
	r.Undo()
	var changed *ChangedError
	if err := r.Save(); !r.Dirty() || !errors.As(err, &changed) {
		t.Errorf("dirty %v, %v", r.Dirty(), err)
	}
}

// A file of a later version is refused with what to do, and what is on screen
// stays; so with one that is torn.
func TestRefusedFilesLeaveTheScreen(t *testing.T) {
	s, path := tableIn(t)
	rename(t, s, "On screen")
	before := s.Committed()
	for text, says := range map[string]string{
		"heartside: 2\nnews: 1\n":       "open it with a newer Heartside",
		"heartside: 1\nname: \"half of": "not YAML",
		"":                              "the file is empty",
	} {
		other := filepath.Join(filepath.Dir(path), "other.yaml")
		if err := os.WriteFile(other, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		if err := s.Open(other); err == nil || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), "other.yaml") {
			t.Errorf("%q: %v", text, err)
		}
		if s.Committed() != before || s.Path() != path || !s.Dirty() {
			t.Errorf("%q: another project is on screen", text)
		}
	}
}
