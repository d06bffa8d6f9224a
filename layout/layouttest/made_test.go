package layouttest

import (
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// fromText makes a tree of Go files from their texts and reads it.
func fromText(t *testing.T, texts map[string]string) (*token.FileSet, []*Source) {
	t.Helper()
	root := t.TempDir()
	for name, text := range texts {
		full := filepath.Join(root, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(full), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return Sources(t, root)
}

func same(t *testing.T, got, want []string) {
	t.Helper()
	got, want = slices.Clone(got), slices.Clone(want)
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("got:\n%q\nwant:\n%q", got, want)
	}
}

func TestSourcesSkipsWhatGoSkips(t *testing.T) {
	_, files := fromText(t, map[string]string{
		"a/a.go":          "package a",
		"a/a_test.go":     "package a",
		"a/testdata/x.go": "not go",
		".hidden/x.go":    "not go",
		"_away/x.go":      "not go",
		"a/readme.md":     "text",
	})
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	same(t, names, []string{"a/a.go", "a/a_test.go"})
	if files[0].Test || !files[1].Test || files[0].Dir != "a" {
		t.Errorf("wrong facts: %+v %+v", files[0], files[1])
	}
}

func TestSourcesFails(t *testing.T) {
	empty, broken := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(broken, "x.go"), []byte("package"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, root := range []string{empty, broken, filepath.Join(empty, "none")} {
		if !failing(func(t testing.TB) { Sources(t, root) }) {
			t.Errorf("%s: read without complaint", root)
		}
	}
}
