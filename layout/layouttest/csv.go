package layouttest

import (
	"encoding/csv"
	"os"
	"testing"
)

// CSV returns the rows of a table under its headings, and the headings. Lines
// that begin with # say where it comes from and are left out.
func CSV(t testing.TB, path string) (headings []string, rows [][]string) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 2 {
		t.Fatalf("%s holds no rows", path)
	}
	return all[0], all[1:]
}
