package layouttest

import (
	"fmt"
	"slices"
	"strings"
)

// Arrows says which of our own packages each package may import. Paths are
// below the module; an entry ending in /... stands for the package and all
// below it.
type Arrows map[string][]string

// Check returns one line for each import that the arrows do not allow, naming
// the file, and for each package they do not mention. Test files may in
// addition import the packages in tests and, as files of package x_test, x
// itself.
func (a Arrows) Check(files []*Source, tests []string) []string {
	var wrong []string
	told := map[string]bool{}
	for _, f := range files {
		allowed, ok := a[f.Dir]
		if !ok {
			if !told[f.Dir] {
				wrong = append(wrong, fmt.Sprintf("%s: package %s is not in the table: add a row that says what it may import", f.Name, f.Dir))
			}
			told[f.Dir] = true
			continue
		}
		for _, p := range f.Imports() {
			own, ours := Own(p)
			switch {
			case !ours, covers(allowed, own):
			case f.Test && (own == f.Dir || covers(tests, own)):
			default:
				wrong = append(wrong, fmt.Sprintf("%s: package %s may not import %s", f.Name, f.Dir, own))
			}
		}
	}
	return wrong
}

// Rule keeps a library to the packages that are made for it.
type Rule struct {
	Import   string   // path, with /... for all below
	Only     []string // packages that may import it
	TestOnly bool     // test files of every package may as well, other files only those of Only
	Why      string
}

// Check returns one line for each file that breaks the rule.
func (r Rule) Check(files []*Source) []string {
	var wrong []string
	for _, f := range files {
		for _, p := range f.Imports() {
			if !covers([]string{r.Import}, p) || (f.Test && r.TestOnly) || covers(r.Only, f.Dir) {
				continue
			}
			wrong = append(wrong, fmt.Sprintf("%s: may not import %s: %s", f.Name, p, r.Why))
		}
	}
	return wrong
}

// covers reports whether one of the patterns stands for the path.
func covers(patterns []string, path string) bool {
	return slices.ContainsFunc(patterns, func(pattern string) bool {
		base, all := strings.CutSuffix(pattern, "/...")
		return path == base || (all && strings.HasPrefix(path, base+"/"))
	})
}
