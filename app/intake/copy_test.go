package intake

import (
	"os"
	"path/filepath"
	"testing"
)

func write(t *testing.T, text string, parts ...string) string {
	t.Helper()
	p := filepath.Join(parts...)
	if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(p, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return p
}

func TestCopyBeside(t *testing.T) {
	dir, from := t.TempDir(), t.TempDir()
	a := write(t, "first", from, "x", "a.jpg")
	b := write(t, "other", from, "y", "a.jpg")
	for _, c := range []struct{ path, want, text string }{
		{a, "photos/a.jpg", "first"},
		{b, "photos/a-2.jpg", "other"},
		{a, "photos/a.jpg", "first"},
		{b, "photos/a-2.jpg", "other"},
		{write(t, "here", dir, "own", "c.png"), "own/c.png", "here"},
	} {
		got, err := CopyBeside(dir, c.path)
		if err != nil || got != c.want {
			t.Errorf("%s: %q, %v; want %q", c.path, got, err, c.want)
			continue
		}
		if data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(got))); err != nil || string(data) != c.text {
			t.Errorf("%s holds %q, %v; want %q", got, data, err, c.text)
		}
	}
	if data, err := os.ReadFile(a); err != nil || string(data) != "first" {
		t.Errorf("the original holds %q, %v", data, err)
	}
	left, _ := filepath.Glob(filepath.Join(dir, "photos", ".copy-*"))
	if len(left) > 0 {
		t.Errorf("left over: %v", left)
	}
	if got, err := CopyBeside(dir, filepath.Join(from, "gone.jpg")); err == nil {
		t.Errorf("a picture that is not there became %q", got)
	}
	write(t, "in the way", from, "project", "photos")
	if got, err := CopyBeside(filepath.Join(from, "project"), a); err == nil {
		t.Errorf("no folder could be made, and yet %q", got)
	}
}
