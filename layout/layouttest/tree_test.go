package layouttest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// longest is how many lines a file that is no test may have.
const longest = 400

// long are the files that may be longer, with the reason.
var long = map[string]string{}

// top is what may stand at the top level; names with a leading dot may too.
var top = map[string]bool{
	"app": true, "layout": true, "model": true, "assets": true, "testdata": true,
	"README.md": true, "DEVELOPERS.md": true, "go.mod": true, "go.sum": true,
}

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(Root(t))
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, e := range entries {
		name := e.Name()
		found[name] = true
		if !top[name] && !strings.HasPrefix(name, ".") {
			t.Errorf("%s does not belong at the top level", name)
		}
	}
	for name := range top {
		if !found[name] {
			t.Errorf("%s is missing at the top level", name)
		}
	}
}

func TestFilesAreShort(t *testing.T) {
	_, files := Sources(t, Root(t))
	seen := map[string]bool{}
	for _, f := range files {
		if f.Test {
			continue
		}
		seen[f.Name] = true
		switch why, n := long[f.Name], f.Lines(); {
		case n > longest && why == "":
			t.Errorf("%s has %d lines, at most %d: split it or list it with a reason", f.Name, n, longest)
		case n <= longest && why != "":
			t.Errorf("%s is listed as long and has %d lines: take it off the list", f.Name, n)
		}
	}
	for name := range long {
		if !seen[name] {
			t.Errorf("%s is listed as long and does not exist", name)
		}
	}
}

func TestPackagesAreDocumentedAndTested(t *testing.T) {
	_, files := Sources(t, Root(t))
	type facts struct{ doc, test bool }
	packages := map[string]*facts{}
	for _, f := range files {
		p := packages[f.Dir]
		if p == nil {
			p = &facts{}
			packages[f.Dir] = p
		}
		if f.Test {
			p.test = true
		} else if f.File.Doc != nil {
			p.doc = true
			want := "Package " + f.File.Name.Name + " "
			if f.File.Name.Name == "main" {
				want = ""
			}
			if !strings.HasPrefix(f.File.Doc.Text(), want) {
				t.Errorf("%s: the package comment should begin with %q", f.Name, want)
			}
		}
	}
	for dir, p := range packages {
		if !p.doc {
			t.Errorf("%s: no package comment", dir)
		}
		if !p.test {
			t.Errorf("%s: no test file", dir)
		}
	}
}

func TestTestdataIsExplained(t *testing.T) {
	// Every folder of testdata is explained, so that nobody guesses whether a
	// file is an input, an expected value or a source.
	root := filepath.Join(Root(t), "testdata")
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.IsDir() && !strings.Contains(string(readme), "`"+e.Name()+"/`") {
			t.Errorf("testdata/README.md does not say what %s/ holds", e.Name())
		}
	}
}
