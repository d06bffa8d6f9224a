package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The sapwood of the shelf lies along its back edge, 22 mm of it at the left end of
// the finished face and more below: a bevel of 30 by 6 mm there is light in part, one
// at the front, where it is heartwood through and through, is not.
func TestWorkedEdgesAreOnTheSheet(t *testing.T) {
	data, err := os.ReadFile(project(t, "shelf-one-strip.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "shelf.yaml")
	text := strings.Replace(string(data), "    thickness: 20\n", "    thickness: 20\n    profiles: {front: {kind: round, across: 4, down: 3}, back: {kind: bevel, across: 30, down: 6}}\n", 1)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	in := load(t, path, A4, faces(t))
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	all := look(t, d, 0, in.Faces).all()
	if !strings.Contains(all, "front edge: round-over, 4 mm into the face, 3 mm into the thickness: 0 % light") {
		t.Error("the round-over is not told, or not as heartwood")
	}
	_, after, ok := strings.Cut(all, "back edge: bevel, 30 mm into the face, 6 mm into the thickness: ")
	share, _, _ := strings.Cut(after, " %")
	if !ok || share == "0" || len(share) > 4 {
		t.Errorf("the bevel is not told, or not as partly light: %q", share)
	}
}
