package layouttest

import (
	"os"
	"path/filepath"
	"sort"
	"testing"
)

// Glob returns the files that match pattern, sorted, and fails the test where
// none does: a loop over no files would pass without testing anything.
func Glob(t testing.TB, pattern string) []string {
	t.Helper()
	names, err := filepath.Glob(pattern)
	if err != nil {
		t.Fatalf("pattern %q: %v", pattern, err)
	}
	if len(names) == 0 {
		t.Fatalf("pattern %q matches no file", pattern)
	}
	sort.Strings(names)
	return names
}

// Root returns the folder that holds go.mod, found upwards from the folder the
// test runs in.
func Root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test's folder")
		}
		dir = up
	}
}
