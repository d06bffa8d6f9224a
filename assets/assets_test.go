package assets

import (
	"io/fs"
	"strings"
	"testing"
)

// Every typeface has its licence beside it.
func TestFontsCarryTheirLicence(t *testing.T) {
	fonts, licence := 0, false
	err := fs.WalkDir(Fonts, ".", func(path string, d fs.DirEntry, err error) error {
		if strings.HasSuffix(path, ".ttf") {
			fonts++
		}
		licence = licence || strings.Contains(path, "LICENSE")
		return err
	})
	if err != nil || fonts == 0 || !licence {
		t.Errorf("%d typefaces, licence %v, %v", fonts, licence, err)
	}
}

// The demo opens with its pictures.
func TestDemoIsWhole(t *testing.T) {
	data, err := Demo.ReadFile("demo/project.yaml")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, line := range strings.Split(string(data), "\n") {
		_, rest, ok := strings.Cut(line, "photo: ")
		if !ok {
			continue
		}
		name := strings.TrimRight(strings.FieldsFunc(rest, func(r rune) bool { return r == ',' || r == '}' })[0], " ")
		if _, err := fs.Stat(Demo, "demo/"+name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		n++
	}
	if n == 0 {
		t.Error("the demo names no photograph")
	}
}
