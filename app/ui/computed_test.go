package ui

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
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
	eachPackage(t, "../../layout", func(dir string, paths []string) {
		switch {
		case strings.HasSuffix(dir, "layouttest"), strings.HasSuffix(dir, "snapshot"), strings.HasSuffix(dir, "arrange/order"), strings.HasSuffix(dir, "layout/grain"):
			return // nothing of these reaches a maker
		}
		for _, p := range paths {
			computedIn(t, p, out)
		}
	})
	computedIn(t, "../../model/catalog/species.go", out)
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
	f, err := parser.ParseFile(set, path, nil, 0)
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
	sentences := func(list []ast.Expr) {
		for _, e := range list {
			if text, ok := literal(e); ok && strings.Contains(text, " ") {
				add(e)
			}
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
			sentences(n.Results)
		case *ast.AssignStmt:
			sentences(n.Rhs)
		case *ast.CompositeLit: // lists of texts
			sentences(n.Elts)
		case *ast.ValueSpec:
			sentences(n.Values)
		}
		return true
	})
}
