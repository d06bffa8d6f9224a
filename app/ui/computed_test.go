package ui

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"heartside/assets"
)

// keysOfTexts are the fields of the computations that hold a text for the maker.
var keysOfTexts = map[string]bool{"Formula": true, "Source": true, "Name": true, "Text": true, "Note": true}

// wordOf is a word, as against the parts of a formula.
var wordOf = regexp.MustCompile(`[a-z]{3}`)

// computedTexts gathers what the computations say, which package say puts into a
// language by the whole text or its format: errors, what is printed by a format,
// texts of fields and of named values, and constants of several words; and the
// names of the woods.
func computedTexts(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir("../../layout", func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		switch {
		case strings.HasSuffix(dir, "layouttest"), strings.HasSuffix(dir, "snapshot"), strings.HasSuffix(dir, "arrange/order"), strings.HasSuffix(dir, "layout/grain"):
			return nil // nothing of these reaches a maker
		}
		paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			return err
		}
		for _, p := range paths {
			if !strings.HasSuffix(p, "_test.go") {
				computedIn(t, p, out)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []string{"../../model/catalog/species.go"} {
		computedIn(t, p, out)
	}
	data, err := fs.ReadFile(assets.Tables, "tables/species.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		out[r[0]] = "species.csv"
	}
	return out
}

func computedIn(t *testing.T, path string, out map[string]string) {
	t.Helper()
	set := token.NewFileSet()
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	f, err := parser.ParseFile(set, path, src, 0)
	if err != nil {
		t.Fatal(err)
	}
	add := func(e ast.Expr) {
		text, ok := literal(e)
		plain := verbForm.ReplaceAllString(text, "")
		if ok && wordOf.MatchString(plain) {
			out[text] = set.Position(e.Pos()).String()
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			name := ""
			switch fun := n.Fun.(type) {
			case *ast.Ident:
				name = fun.Name
			case *ast.SelectorExpr:
				if x, ok := fun.X.(*ast.Ident); ok {
					name = x.Name + "." + fun.Sel.Name
				}
			}
			switch name {
			case "fmt.Errorf", "fmt.Sprintf", "errors.New", "mm":
				add(n.Args[0])
			}
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && keysOfTexts[key.Name] {
				add(n.Value)
			}
		case *ast.ReturnStmt: // what a value is called
			for _, e := range n.Results {
				if text, ok := literal(e); ok && strings.Contains(text, " ") {
					add(e)
				}
			}
		case *ast.AssignStmt:
			for _, e := range n.Rhs {
				if text, ok := literal(e); ok && strings.Contains(text, " ") {
					add(e)
				}
			}
		case *ast.CompositeLit: // lists of texts
			for _, e := range n.Elts {
				if text, ok := literal(e); ok && strings.Contains(text, " ") {
					add(e)
				}
			}
		case *ast.ValueSpec:
			for _, e := range n.Values {
				if text, ok := literal(e); ok && strings.Contains(text, " ") {
					add(e)
				}
			}
		}
		return true
	})
}
