package session

import (
	"os"
	"path/filepath"
	"testing"

	"heartside/assets"
	"heartside/layout/geom"
	"heartside/model"
)

// A picture chosen before the project has a file is shown at once, and named
// from the project's folder once it has one.
func TestPhotoOfUnsavedProject(t *testing.T) {
	data, err := assets.Demo.ReadFile("demo/photos/a1.jpg")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	photo := filepath.Join(dir, "pictures", "board.jpg")
	if err := os.MkdirAll(filepath.Dir(photo), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(photo, data, 0o666); err != nil {
		t.Fatal(err)
	}
	s := New(Blank(), Options{})
	defer s.Close()
	b := &model.Board{ID: "A", Species: "walnut-black", Length: 1000, Width: 200, Thickness: 26}
	b.Faces[0] = model.Face{Known: true, Photo: filepath.ToSlash(photo),
		Corners: &[4]geom.Point{{X: 100, Y: 500}, {X: 1400, Y: 500}, {X: 1400, Y: 300}, {X: 100, Y: 300}}}
	if err := s.Commit(model.AddBoard{Board: b}); err != nil {
		t.Fatal(err)
	}
	if s.Picture("A", 1) == nil {
		t.Fatalf("the picture is not shown: %v", s.PhotoTrouble())
	}
	if err := s.SaveAs(filepath.Join(dir, "job.yaml")); err != nil {
		t.Fatal(err)
	}
	if got := s.Project().Board("A").Faces[0].Photo; got != "pictures/board.jpg" {
		t.Errorf("named %q, want pictures/board.jpg", got)
	}
	if s.Picture("A", 1) == nil {
		t.Error("the picture is lost with the saving")
	}
	// One more, chosen by its full path: saving again names it from the folder.
	c := *s.Project().Board("A")
	c.Faces[1] = c.Faces[0]
	c.Faces[1].Photo = filepath.ToSlash(photo)
	if err := s.Commit(model.SetBoard{Board: &c}); err != nil {
		t.Fatal(err)
	}
	if err := s.Save(); err != nil {
		t.Fatal(err)
	}
	if got := s.Project().Board("A").Faces[1].Photo; got != "pictures/board.jpg" {
		t.Errorf("named %q, want pictures/board.jpg", got)
	}
}
