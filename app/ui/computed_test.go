package ui

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"heartside/assets"
	"heartside/model/catalog"
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
	agesIn(out)
	return out
}

// agesIn adds what the tables say of how woods age, and of sources that are no
// publications.
func agesIn(out map[string]string) {
	for _, s := range catalog.Sources() {
		if s.Title[0] >= 'a' { // no name of a publication
			out[s.Title+", "+s.Where] = "sources.yaml"
		}
	}
	for _, s := range catalog.All() {
		ages := catalog.AgeingOf(s.ID)
		claims := slices.Concat(ages.Notes, ages.Cautions)
		claims = append(claims, ages.Heart.Claim, ages.Sap.Claim)
		for _, e := range slices.Concat(ages.Heart.Exposures, ages.Sap.Exposures) {
			claims = append(claims, e.Claim)
		}
		for _, c := range claims {
			if c.Text != "" {
				out[c.Text] = "ageing.yaml"
			}
		}
	}
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
