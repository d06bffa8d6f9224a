package layouttest

import (
	"strings"
	"testing"
)

// arrows is the policy: assets and layout at the bottom, model on them, app on
// all. A new package gets a row.
var arrows = Arrows{
	"assets": nil,

	"layout/geom":           nil,
	"layout/colour":         nil,
	"layout/grain":          {"layout/geom", "layout/colour"},
	"layout/photo":          {"layout/geom", "layout/colour"},
	"layout/photo/trace":    {"layout/geom", "layout/photo"},
	"layout/photo/light":    {"layout/geom", "layout/colour", "layout/photo"},
	"layout/grain/snapshot": {"layout/geom", "layout/colour", "layout/photo"},
	"layout/photo/outline":  {"layout/geom", "layout/photo"},
	"layout/photo/split":    {"layout/geom", "layout/colour", "layout/photo"},
	"layout/photo/scale":    {"layout/geom", "layout/photo"},
	"layout/photo/wane":     {"layout/geom", "layout/colour", "layout/photo"},
	"layout/photo/rings":    {"layout/geom", "layout/colour", "layout/photo"},
	"layout/wood":           {"layout/geom", "layout/photo"},
	"layout/wood/moisture":  nil,
	"layout/wood/depth":     {"layout/geom", "layout/photo", "layout/photo/trace", "layout/face", "layout/grain/snapshot"},
	"layout/wood/movement":  {"layout/geom", "layout/wood/moisture"},
	"layout/wood/cup":       {"layout/geom", "layout/wood/moisture"},
	"layout/wood/flatten":   {"layout/wood/moisture"},
	"layout/colour/ageing":  {"layout/colour"},
	"layout/face":           {"layout/geom", "layout/colour"},
	"layout/cutting":        {"layout/geom", "layout/colour", "layout/face"},
	"layout/arrange":        {"layout/geom", "layout/colour", "layout/face", "layout/cutting"},
	"layout/arrange/order":  nil,
	"layout/arrange/look":   {"layout/geom", "layout/colour", "layout/face", "layout/figure"},
	"layout/arrange/seek":   {"layout/geom", "layout/colour", "layout/face", "layout/arrange/order", "layout/arrange/look", "layout/together"},
	"layout/together":       {"layout/geom", "layout/face"},
	"layout/stock":          {"layout/geom", "layout/face", "layout/cutting", "layout/arrange/look"},
	"layout/match":          {"layout/geom", "layout/face", "layout/cutting"},
	"layout/figure":         {"layout/geom", "layout/colour", "layout/face", "layout/grain", "layout/photo"},
	"layout/seen":           {"layout/geom", "layout/colour"},
	"layout/cost":           nil,
	"layout/buy":            {"layout/geom", "layout/face", "layout/cutting"},
	"layout/offcut":         {"layout/geom", "layout/face", "layout/cutting", "layout/stock"},
	"layout/terms":          {"layout/geom", "layout/face"},
	"layout/layouttest":     {"layout/geom"},

	"model/unit":    {"model/say"},
	"model/say":     nil,
	"model/catalog": {"model/say", "assets", "layout/colour", "layout/colour/ageing", "model/unit"},
	"model":         {"layout/geom", "layout/colour", "model/unit", "model/say"},
	"model/file":    {"layout/geom", "layout/colour", "model", "model/unit", "model/catalog", "model/disk", "model/disk/faulty", "model/say"},

	// The file system, and one that fails for tests.
	"model/disk":        {"model/say"},
	"model/disk/faulty": {"model/disk"},

	// None of these knows the window.
	"app/render":            {"layout/geom", "assets"},
	"app/render/rendertest": {"layout/layouttest"},
	"app/scene":             {"layout/...", "app/render", "model/say"},
	"app/tool":              {"layout/...", "model/..."},
	"app/picture":           {"layout/colour", "model/say"},
	"app/intake":            {"layout/...", "model/...", "app/picture"},
	"app/session":           {"layout/...", "model/...", "assets", "app/intake", "app/picture"},
	"app/sheet":             {"layout/...", "model/...", "assets", "app/render", "app/session"},
	"app/command":           {"layout/...", "model/...", "assets", "app/render", "app/session", "app/sheet", "app/intake", "app/picture"},
	"app/keep":              {"model/..."},
	"app/phone":             {"app/intake", "app/keep", "app/picture", "model/say"},
	"app/boardset":          {"layout/...", "app/intake"},
	"app/demophotos":        {"layout/...", "model/...", "assets", "app/session"},

	"app/ui":    {"layout/...", "model/...", "assets", "app/render", "app/session", "app/scene", "app/tool", "app/sheet", "app/intake", "app/picture", "app/keep", "app/phone"},
	"app":       {"app/command", "app/ui"},
	"app/drive": nil,
}

// rules keep libraries, and the parts of the standard library that are not
// pure, to the packages made for them.
var rules = []Rule{
	{Import: "fyne.io/fyne/v2/app", Only: []string{"app"}, Why: "only the program itself opens the driver; tests use the toolkit's test driver"},
	{Import: "fyne.io/fyne/v2/...", Only: []string{"app/ui", "app"}, Why: "the toolkit stays in app/ui"},
	{Import: "github.com/golang/freetype/...", Only: []string{"app/render"}, Why: "glyphs and antialiasing are app/render's"},
	{Import: "codeberg.org/go-pdf/fpdf", Only: []string{"app/render"}, Why: "PDF is a backend of app/render"},
	{Import: "github.com/bep/imagemeta", Only: []string{"app/picture"}, Why: "photographs are read by app/picture"},
	{Import: "github.com/gen2brain/heic", Only: []string{"app/picture"}, Why: "photographs are read by app/picture"},
	{Import: "gopkg.in/yaml.v3", Only: []string{"model/file", "model/catalog"}, Why: "the file format is model/file's"},
	{Import: "pgregory.net/rapid", TestOnly: true, Why: "it is a test library"},
	{Import: "heartside/layout/layouttest", TestOnly: true, Only: []string{"app/render/rendertest"}, Why: "it is for tests"},
	{Import: "heartside/model/disk/faulty", TestOnly: true, Why: "it is for tests"},
	{Import: "heartside/app/render/rendertest", TestOnly: true, Why: "it is for tests"},
}

func TestImportsGoOneWay(t *testing.T) {
	_, files := Sources(t, Root(t))
	for _, line := range arrows.Check(files, []string{"layout/layouttest", "app/render/rendertest"}) {
		t.Error(line)
	}
	for _, r := range rules {
		for _, line := range r.Check(files) {
			t.Error(line)
		}
	}
	seen := map[string]bool{}
	for _, f := range files {
		seen[f.Dir] = true
	}
	for dir := range arrows {
		if !seen[dir] {
			t.Errorf("the table has a row for %s, which holds no Go file", dir)
		}
	}
}

func TestArrowsTableIsLayered(t *testing.T) {
	// Whatever a row says, nothing in layout or model may reach up.
	rank := func(dir string) int {
		switch {
		case covers([]string{"assets", "layout/..."}, dir):
			return 0
		case covers([]string{"model/..."}, dir):
			return 1
		}
		return 2
	}
	for dir, allowed := range arrows {
		for _, p := range allowed {
			if rank(strings.TrimSuffix(p, "/...")) > rank(dir) {
				t.Errorf("%s may import %s, which lies above it", dir, p)
			}
		}
	}
}

func TestArrowsCheckNamesTheFile(t *testing.T) {
	a := Arrows{"layout/a": {"layout/b"}, "layout/b": nil, "app": {"layout/..."}}
	_, files := fromText(t, map[string]string{
		"layout/a/ok.go":      `package a; import ("fmt"; "heartside/layout/b")`,
		"layout/a/bad.go":     `package a; import "heartside/app"`,
		"layout/b/b.go":       `package b; import "heartside/layout/a"`,
		"layout/b/b_test.go":  `package b_test; import ("heartside/layout/b"; "heartside/help")`,
		"layout/b/helped.go":  `package b; import "heartside/help"`,
		"layout/new/n.go":     `package new`,
		"app/ok.go":           `package main; import ("heartside/layout/a"; "heartside/layout/b")`,
		"app/layoutish.go":    `package main; import "heartside/layouts"`,
		"app/other_module.go": `package main; import "heartsides/x"`,
	})
	same(t, a.Check(files, []string{"help"}), []string{
		"app/layoutish.go: package app may not import layouts",
		"layout/a/bad.go: package layout/a may not import app",
		"layout/b/b.go: package layout/b may not import layout/a",
		"layout/b/helped.go: package layout/b may not import help",
		"layout/new/n.go: package layout/new is not in the table: add a row that says what it may import",
	})
}

func TestRuleNamesTheFile(t *testing.T) {
	_, files := fromText(t, map[string]string{
		"app/ui/w.go":       `package ui; import "fyne.io/fyne/v2/widget"`,
		"app/ui/root.go":    `package ui; import "fyne.io/fyne/v2"`,
		"app/tool/t.go":     `package tool; import "fyne.io/fyne/v2"`,
		"model/m_test.go":   `package model; import "pgregory.net/rapid"`,
		"model/m.go":        `package model; import "pgregory.net/rapid"`,
		"app/tool/alike.go": `package tool; import "fyne.io/fyne/v20"`,
	})
	same(t, Rule{Import: "fyne.io/fyne/v2/...", Only: []string{"app/ui"}, Why: "no"}.Check(files), []string{"app/tool/t.go: may not import fyne.io/fyne/v2: no"})
	same(t, Rule{Import: "pgregory.net/rapid", TestOnly: true, Why: "no"}.Check(files), []string{"model/m.go: may not import pgregory.net/rapid: no"})
	// A library for tests may serve another one.
	same(t, Rule{Import: "pgregory.net/rapid", TestOnly: true, Only: []string{"model"}, Why: "no"}.Check(files), nil)
	same(t, Rule{Import: "fyne.io/fyne/v2", TestOnly: true, Only: []string{"app/tool"}, Why: "no"}.Check(files), []string{"app/ui/root.go: may not import fyne.io/fyne/v2: no"})
}
