package command

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"heartside/layout/layouttest"
	"heartside/model/file"
)

func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(layouttest.Root(t), "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The README's example of a project file is a project file, with nothing left
// to remark.
func TestReadmeExampleIsAProject(t *testing.T) {
	_, rest, ok := strings.Cut(readme(t), "```yaml\n")
	if !ok {
		t.Fatal("the README holds no example of a project file")
	}
	text, _, _ := strings.Cut(rest, "```")
	p, notices, err := file.Read([]byte(text), "README.md")
	if err != nil {
		t.Fatal(err)
	}
	if len(notices) > 0 {
		t.Errorf("remarks: %v", notices)
	}
	if len(p.Boards) == 0 || len(p.Panels) == 0 || len(p.Panels[0].Strips) == 0 {
		t.Error("the example has no board, no panel or no strip")
	}
}

// Every key that check --json may print is in the README's table.
func TestReadmeNamesEveryKey(t *testing.T) {
	_, rest, ok := strings.Cut(readme(t), "### What `check --json` prints")
	if !ok {
		t.Fatal("the README has no table of the JSON keys")
	}
	table, _, _ := strings.Cut(rest, "\n## ")
	n := 0
	seen := map[reflect.Type]bool{}
	var walk func(reflect.Type)
	walk = func(typ reflect.Type) {
		for k := typ.Kind(); k == reflect.Pointer || k == reflect.Slice || k == reflect.Array; k = typ.Kind() {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || seen[typ] {
			return
		}
		seen[typ] = true
		for i := range typ.NumField() {
			f := typ.Field(i)
			key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			n++
			if !f.Anonymous && !hasWord(table, key) {
				t.Errorf("%s of %s is not in the table", key, typ.Name())
			}
			walk(f.Type)
		}
	}
	walk(reflect.TypeFor[reportJSON]())
	if n == 0 {
		t.Fatal("no key found")
	}
}

// hasWord reports whether the text holds word, in code marks or a code sample,
// not as a part of a longer name.
func hasWord(text, word string) bool {
	in := func(r byte) bool { return r == '_' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' }
	for from := 0; word != ""; {
		i := strings.Index(text[from:], word)
		if i < 0 {
			return false
		}
		i += from
		if end := i + len(word); (i == 0 || !in(text[i-1])) && (end == len(text) || !in(text[end])) {
			return true
		}
		from = i + 1
	}
	return false
}
