package layouttest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
)

// Module is the path every import of our own begins with.
const Module = "heartside"

// Source is one Go file of the tree.
type Source struct {
	Name string // path below the root, with forward slashes
	Dir  string // its folder below the root, "." at the top
	Test bool
	File *ast.File
	Text []byte
}

// Imports returns the paths the file imports.
func (s *Source) Imports() []string {
	var paths []string
	for _, spec := range s.File.Imports {
		paths = append(paths, strings.Trim(spec.Path.Value, `"`))
	}
	return paths
}

// ImportName returns the name by which the file calls the package at path, and
// false where it does not import it.
func (s *Source) ImportName(importPath string) (string, bool) {
	for _, spec := range s.File.Imports {
		if strings.Trim(spec.Path.Value, `"`) != importPath {
			continue
		}
		if spec.Name != nil {
			return spec.Name.Name, true
		}
		base := path.Base(importPath)
		if strings.HasPrefix(base, "v") && strings.Trim(base[1:], "0123456789") == "" {
			base = path.Base(path.Dir(importPath))
		}
		return base, true
	}
	return "", false
}

// Lines returns how many lines the file has.
func (s *Source) Lines() int { return strings.Count(string(s.Text), "\n") }

// Own strips the module from an import path: "layout/geom" for
// "heartside/layout/geom". It returns false for packages of others.
func Own(importPath string) (string, bool) {
	return strings.CutPrefix(importPath, Module+"/")
}

// Sources parses every Go file under root, in order of name, and fails the
// test on a file that does not parse and where there is none. Folders that the
// go command skips (testdata, leading dot or underscore) are skipped.
func Sources(t testing.TB, root string) (*token.FileSet, []*Source) {
	t.Helper()
	set := token.NewFileSet()
	var all []*Source
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if base := d.Name(); name != root && (base == "testdata" || strings.HasPrefix(base, ".") || strings.HasPrefix(base, "_")) {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") {
			return nil
		}
		below, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		below = filepath.ToSlash(below)
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(set, below, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		all = append(all, &Source{Name: below, Dir: path.Dir(below), Test: strings.HasSuffix(below, "_test.go"), File: file, Text: text})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(all) == 0 {
		t.Fatalf("no Go file under %s", root)
	}
	return set, all
}
