package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// sentence parts: two words of small letters beside each other.
var twoWords = regexp.MustCompile(`[a-z]{2,}'?,? [a-z]{2,}`)

// unsaid are calls whose texts no maker reads: the program's own trace, what makes
// faults of its tables and typefaces known to us, and marks of drawings.
var unsaid = map[string]bool{"panic": true, "line": true, "add": true, "Fprintln": true, "MustCompile": true}

// bare are texts that stay as they are.
var bare = func() map[string]bool {
	out := map[string]bool{}
	for _, s := range []string{
		// Parts of a project, as its file calls them; shown by model.RuleError.
		"limits, streak", "limits, mix", "unwanted-limit, face", "unwanted-limit, back", "joined, entry %d", "colours, entry %d", "printed, entry %d",
		"record, step %d", "pith, place %d", "grain line %d", "hidden region %d", "kept arrangement ", "hidden region", "grain line", "kept arrangement",
		// What decoders and other programs say.
		"<!doctype html", "not enough pixel data",
		// Never shown.
		"asked about", "too large", "yard photos", "cut off ",
		// Printed before any language is known.
		"there is no display to open a window on (DISPLAY and WAYLAND_DISPLAY are empty): start it from a desktop session, or use the commands check and sheet",
		// A unit.
		" bd ft",
		// Spanish already.
		" de el ", " a el ",
	} {
		out[s] = true
	}
	return out
}()

// What a maker reads goes through package say: a sentence that stands bare in what
// makes screens, sheets and errors is one that stays English.
func TestNoSentenceStandsBare(t *testing.T) {
	said := saidTexts(t)
	n := 0
	for _, top := range []string{"../../app", "../../model"} {
		eachPackage(t, top, func(dir string, paths []string) {
			switch {
			case strings.HasSuffix(dir, "command"), strings.HasSuffix(dir, "drive"), strings.HasSuffix(dir, "demophotos"), strings.HasSuffix(dir, "boardset"), // English, or for us
				strings.HasSuffix(dir, "render"), strings.HasSuffix(dir, "rendertest"), strings.HasSuffix(dir, "catalog"), strings.HasSuffix(dir, "faulty"), dir == "../../app":
				return
			}
			for _, p := range paths {
				n += barely(t, p, said)
			}
		})
	}
	if n < 100 {
		t.Fatalf("only %d files were looked at", n)
	}
}

// barely tells the bare sentences of a file.
func barely(t *testing.T, path string, said map[string]string) int {
	t.Helper()
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, path, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.ImportSpec, *ast.Field:
			return false
		case *ast.CallExpr:
			name := ""
			switch fun := x.Fun.(type) {
			case *ast.SelectorExpr:
				if id, ok := fun.X.(*ast.Ident); ok && id.Name == "say" {
					return false
				}
				name = fun.Sel.Name
			case *ast.Ident:
				name = fun.Name
			}
			if unsaid[name] {
				return false
			}
		case *ast.BasicLit:
			text, ok := literal(x)
			if ok && twoWords.MatchString(verbForm.ReplaceAllString(text, "")) && said[text] == "" && !bare[text] {
				t.Errorf("%s:%d: %q is said bare", filepath.ToSlash(path), set.Position(x.Pos()).Line, text)
			}
		}
		return true
	})
	return 1
}
