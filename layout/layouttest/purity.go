package layouttest

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strconv"
)

// clocks are the functions of package time that read the clock or wait on it.
var clocks = [...]string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"}

// seeded are the names of math/rand/v2 that do not use the shared, unseeded
// source.
var seeded = [...]string{"New", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "PCG", "ChaCha8", "Source", "Zipf"}

// ClockUse returns one line for each use of the clock in the file.
func ClockUse(set *token.FileSet, f *Source) []string {
	return uses(set, f, "time", func(name string) string {
		if slices.Contains(clocks[:], name) {
			return "reads the clock; pass the time in"
		}
		return ""
	})
}

// RandUse returns one line for each use of random numbers that cannot be
// repeated.
func RandUse(set *token.FileSet, f *Source) []string {
	wrong := uses(set, f, "math/rand/v2", func(name string) string {
		if slices.Contains(seeded[:], name) {
			return ""
		}
		return "uses the shared unseeded source; make a rand.New(rand.NewPCG(...)) from a seed passed in"
	})
	for _, p := range f.Imports() {
		if p == "math/rand" || p == "crypto/rand" {
			wrong = append(wrong, fmt.Sprintf("%s: imports %s; use math/rand/v2 with a seed passed in", f.Name, p))
		}
	}
	return wrong
}

// uses judges every selector on the package at path.
func uses(set *token.FileSet, f *Source, path string, judge func(name string) string) []string {
	local, ok := f.ImportName(path)
	if !ok {
		return nil
	}
	var wrong []string
	ast.Inspect(f.File, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if id, ok := sel.X.(*ast.Ident); ok && id.Name == local {
				if why := judge(sel.Sel.Name); why != "" {
					wrong = append(wrong, fmt.Sprintf("%s: %s.%s %s", set.Position(sel.Pos()), local, sel.Sel.Name, why))
				}
			}
		}
		return true
	})
	return wrong
}

// MutableState returns one line for each place where a function changes a
// package-level variable of its package or of the elements it holds. files are
// the non-test files of one package. Changes made through methods or pointers
// go unseen.
func MutableState(set *token.FileSet, files []*Source) []string {
	var trees []*ast.File
	for _, f := range files {
		trees = append(trees, f.File)
	}
	info := types.Info{Uses: map[*ast.Ident]types.Object{}}
	conf := types.Config{Error: func(error) {}, Importer: noImports{}, FakeImportC: true}
	pkg, _ := conf.Check(files[0].Dir, set, trees, &info) // errors are what noImports causes
	if pkg == nil {
		return []string{files[0].Dir + ": the package cannot be checked"}
	}
	var wrong []string
	changed := func(e ast.Expr) {
		id := root(e)
		if id == nil {
			return
		}
		if v, ok := info.Uses[id].(*types.Var); ok && v.Parent() == pkg.Scope() {
			wrong = append(wrong, fmt.Sprintf("%s: changes package-level variable %s", set.Position(e.Pos()), id.Name))
		}
	}
	for _, tree := range trees {
		ast.Inspect(tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.AssignStmt:
				if n.Tok != token.DEFINE {
					for _, e := range n.Lhs {
						changed(e)
					}
				}
			case *ast.IncDecStmt:
				changed(n.X)
			case *ast.RangeStmt:
				if n.Tok == token.ASSIGN {
					changed(n.Key)
					changed(n.Value)
				}
			}
			return true
		})
	}
	return wrong
}

// root returns the identifier an expression such as a.b[i].c starts from.
func root(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		default:
			return nil
		}
	}
}

type noImports struct{}

func (noImports) Import(path string) (*types.Package, error) {
	return nil, fmt.Errorf("package %s is not loaded", path)
}

// VarsOf returns one line for each package-level variable of the file whose
// type or value speaks of a package under one of the import paths (with /...
// for all below). Blank variables, which only state that a type satisfies an
// interface, are left out.
func VarsOf(set *token.FileSet, f *Source, patterns ...string) []string {
	local := map[string]string{}
	for _, spec := range f.File.Imports {
		p, err := strconv.Unquote(spec.Path.Value)
		if err != nil || !covers(patterns, p) {
			continue
		}
		if name, ok := f.ImportName(p); ok {
			local[name] = p
		}
	}
	var wrong []string
	for _, d := range f.File.Decls {
		gen, ok := d.(*ast.GenDecl)
		if !ok || gen.Tok != token.VAR {
			continue
		}
		for _, spec := range gen.Specs {
			v := spec.(*ast.ValueSpec)
			if v.Names[0].Name == "_" {
				continue
			}
			ast.Inspect(v, func(n ast.Node) bool {
				if sel, ok := n.(*ast.SelectorExpr); ok {
					if id, ok := sel.X.(*ast.Ident); ok && local[id.Name] != "" {
						wrong = append(wrong, fmt.Sprintf("%s: package-level variable %s holds %s.%s; make it when the window is made", set.Position(v.Pos()), v.Names[0].Name, id.Name, sel.Sel.Name))
						return false
					}
				}
				return true
			})
		}
	}
	return wrong
}
