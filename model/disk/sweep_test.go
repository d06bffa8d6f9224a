package disk

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// Of files half written those go that are old and of this project; another
// project's, new ones and whole files stay.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	noon := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	for name, age := range map[string]time.Duration{
		".table.yaml-0.tmp":                        2 * time.Hour,
		".table.yaml-0.tmp.bak":                    2 * time.Hour,
		"..table.yaml.7-a.heartside-journal-3.tmp": 2 * time.Hour,
		".table.yaml-1.tmp":                        time.Minute, // being written by another window
		".chair.yaml-0.tmp":                        2 * time.Hour,
		"table.yaml":                               2 * time.Hour,
		"table.yaml.bak":                           2 * time.Hour,
		".table.yaml-notes.tmp":                    2 * time.Hour, // somebody's own
		".table.yaml.7-a.heartside-journal":        2 * time.Hour,
		"table.yaml-0.tmp":                         2 * time.Hour,
	} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, nil, 0o666); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, noon.Add(-age), noon.Add(-age)); err != nil {
			t.Fatal(err)
		}
	}
	if n := Sweep(Real{}, filepath.Join(dir, "table.yaml"), noon.Add(-time.Hour)); n != 3 {
		t.Errorf("%d went", n)
	}
	left, err := Real{}.Names(dir)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{".chair.yaml-0.tmp", ".table.yaml-1.tmp", ".table.yaml-notes.tmp", ".table.yaml.7-a.heartside-journal", "table.yaml", "table.yaml-0.tmp", "table.yaml.bak"}
	if !slices.Equal(left, want) {
		t.Errorf("left %q, want %q", left, want)
	}
	if Sweep(Real{}, filepath.Join(dir, "none", "table.yaml"), noon) != 0 {
		t.Error("something went from a folder that is not there")
	}
}
