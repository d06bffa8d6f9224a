package layouttest

import (
	"slices"
	"strings"
	"testing"
)

// clockFiles are the files of layout and model that may read the clock.
var clockFiles = map[string]string{}

// randFiles are the files of layout and model that may use numbers nobody can
// repeat.
var randFiles = map[string]string{}

// impure are the parts of the standard library that a pure package leaves
// alone.
var impure = []Rule{
	{Import: "os/...", Why: "layout reads no files and no environment"},
	{Import: "io/ioutil", Why: "layout reads no files"},
	{Import: "net/...", Why: "layout talks to nobody"},
	{Import: "syscall", Why: "layout is pure"},
	{Import: "unsafe", Why: "layout is pure"},
	{Import: "log/...", Why: "layout returns what it has to say"},
	{Import: "embed", Why: "data comes from assets through model"},
}

func TestLayoutIsPure(t *testing.T) {
	_, files := Sources(t, Root(t))
	pure := slices.DeleteFunc(slices.Clone(files), func(f *Source) bool {
		return f.Test || !strings.HasPrefix(f.Dir, "layout/") || f.Dir == "layout/layouttest"
	})
	if len(pure) == 0 {
		t.Fatal("no file of layout found")
	}
	for _, r := range impure {
		for _, line := range r.Check(pure) {
			t.Error(line)
		}
	}
}

func TestLayoutAndModelRepeat(t *testing.T) {
	set, files := Sources(t, Root(t))
	judged := 0
	for _, f := range files {
		if !covers([]string{"layout/...", "model/..."}, f.Dir) {
			continue
		}
		judged++
		excuse(t, f.Name, RandUse(set, f), randFiles)
		if !f.Test {
			excuse(t, f.Name, ClockUse(set, f), clockFiles)
		}
	}
	if judged == 0 {
		t.Fatal("no file of layout or model found")
	}
}

// excuse reports the lines unless the file is listed, and a file that is listed
// for nothing.
func excuse(t *testing.T, name string, lines []string, listed map[string]string) {
	t.Helper()
	if why := listed[name]; why != "" {
		if len(lines) == 0 {
			t.Errorf("%s is listed (%s) and needs it no more: take it off the list", name, why)
		}
		return
	}
	for _, line := range lines {
		t.Error(line)
	}
}

func TestNoPackageHoldsState(t *testing.T) {
	set, files := Sources(t, Root(t))
	packages := map[string][]*Source{}
	for _, f := range files {
		if !f.Test {
			packages[f.Dir] = append(packages[f.Dir], f)
			for _, line := range VarsOf(set, f, "fyne.io/fyne/v2/...", "sync/...") {
				// What is worked out once and never changes is no state. The language
				// is the process's: it is set once, before anything is said.
				if !strings.Contains(line, " holds sync.OnceValue") && !strings.HasPrefix(line, "model/say/say.go:") {
					t.Error(line)
				}
			}
		}
	}
	for _, files := range packages {
		for _, line := range MutableState(set, files) {
			t.Error(line)
		}
	}
}

func TestClockAndRandUse(t *testing.T) {
	set, files := fromText(t, map[string]string{
		"a/a.go": "package a\nimport (\"time\"; r \"math/rand/v2\")\n" +
			"var Limit time.Duration = time.Second\n" +
			"func f() { _ = time.Now(); time.Sleep(1) }\n" +
			"func g(s uint64) { _ = r.New(r.NewPCG(s, s)).IntN(3); _ = r.IntN(3); r.Shuffle(1, nil) }\n",
		"b/b.go": "package b\nimport \"math/rand\"\nvar X = rand.Int",
		"c/c.go": "package c\nvar time, rand struct{ Now, IntN func() }\nfunc f() { time.Now(); rand.IntN() }",
	})
	var clock, random []string
	for _, f := range files {
		clock = append(clock, ClockUse(set, f)...)
		random = append(random, RandUse(set, f)...)
	}
	same(t, clock, []string{
		"a/a.go:4:16: time.Now reads the clock; pass the time in",
		"a/a.go:4:28: time.Sleep reads the clock; pass the time in",
	})
	const why = " uses the shared unseeded source; make a rand.New(rand.NewPCG(...)) from a seed passed in"
	same(t, random, []string{
		"a/a.go:5:59: r.IntN" + why,
		"a/a.go:5:70: r.Shuffle" + why,
		"b/b.go: imports math/rand; use math/rand/v2 with a seed passed in",
	})
}

func TestMutableState(t *testing.T) {
	set, files := fromText(t, map[string]string{
		"a/a.go": `package a

import "fmt"

var table = map[string]int{"a": 1}
var count int
var deep struct{ list []int }

func (x point) read() int { return table["a"] + count }

type point struct{ count int }
`,
		"a/b.go": `package a

import "fmt"

func f(p *point) {
	table["b"] = 2
	count++
	deep.list[0] = 1
	for _, count = range deep.list {
	}
	p.count = 3
	count := 4
	count = 5
	var table = map[string]int{}
	table["c"] = fmt.Sprint(count)
}
`,
	})
	same(t, MutableState(set, files), []string{
		"a/b.go:6:2: changes package-level variable table",
		"a/b.go:7:2: changes package-level variable count",
		"a/b.go:8:2: changes package-level variable deep",
		"a/b.go:9:9: changes package-level variable count",
	})
}

func TestVarsOf(t *testing.T) {
	set, files := fromText(t, map[string]string{
		"a/a.go": `package a

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"sync"
)

var _ fyne.Widget = (*panel)(nil)

var window fyne.Window
var label, size = widget.NewLabel("x"), 3
var mu sync.Mutex
var names = []string{"fyne"}

type panel struct{ widget.BaseWidget }
`,
	})
	same(t, VarsOf(set, files[0], "fyne.io/fyne/v2/..."), []string{
		"a/a.go:11:5: package-level variable window holds fyne.Window; make it when the window is made",
		"a/a.go:12:5: package-level variable label holds widget.NewLabel; make it when the window is made",
	})
	same(t, VarsOf(set, files[0], "sync/..."), []string{
		"a/a.go:13:5: package-level variable mu holds sync.Mutex; make it when the window is made",
	})
}
