package ui

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2/lang"

	"heartside/model/say"
)

// saidTexts gathers what the program says: the texts that are given to package say,
// literally or as a constant of their package.
func saidTexts(t *testing.T) map[string]string {
	t.Helper()
	out := computedTexts(t)
	for _, top := range []string{"../../app", "../../model"} {
		eachPackage(t, top, func(_ string, paths []string) { textsIn(t, paths, out) })
	}
	return out
}

// eachPackage goes through the folders at and below top, with the Go files of each
// that are no tests.
func eachPackage(t *testing.T, top string, do func(dir string, paths []string)) {
	t.Helper()
	err := filepath.WalkDir(top, func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			return err
		}
		do(dir, slices.DeleteFunc(paths, func(p string) bool { return strings.HasSuffix(p, "_test.go") }))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func textsIn(t *testing.T, paths []string, out map[string]string) {
	fset := token.NewFileSet()
	consts := map[string]string{}
	var files []*ast.File
	for _, p := range paths {
		f, err := parser.ParseFile(fset, p, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
		for _, d := range f.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.CONST {
				for _, s := range g.Specs {
					v := s.(*ast.ValueSpec)
					for i, name := range v.Names {
						if i < len(v.Values) {
							if text, ok := literal(v.Values[i]); ok {
								consts[name.Name] = text
							}
						}
					}
				}
			}
		}
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			c, ok := n.(*ast.CallExpr)
			if !ok || len(c.Args) == 0 {
				return true
			}
			of := saying(c, f.Name.Name == "say")
			if of == "" {
				return true
			}
			text, ok := literal(c.Args[0])
			if id, is := c.Args[0].(*ast.Ident); is && !ok {
				text, ok = consts[id.Name]
			}
			at := fset.Position(c.Pos()).String()
			if of == "Print" && ok && twoWords.MatchString(verbForm.ReplaceAllString(text, "")) {
				t.Errorf("%s: %q has words: it is no format of numbers alone", at, text)
			}
			if of == "In" {
				said, is := literal(c.Args[1])
				if !ok || !is {
					t.Errorf("%s: what is said is no text of the program: it cannot be translated", at)
				}
				out[said+" ["+text+"]"] = at
				return true
			}
			switch of {
			case "T", "F", "Errorf", "Error", "Later", "Mark":
				if !ok {
					t.Errorf("%s: what is said is no text of the program: it cannot be translated", at)
					return true
				}
				if want := len(verbs(text)); of != "T" && of != "Error" && of != "Later" && of != "Mark" && !c.Ellipsis.IsValid() && want != len(c.Args)-1 {
					t.Errorf("%s: %q has %d places and %d values", at, text, want, len(c.Args)-1)
				}
				out[text] = at
			}
			return true
		})
	}
}

// saying is the function of package say that is called, "" where it is another;
// within the package dates and lists alone are said.
func saying(c *ast.CallExpr, within bool) string {
	switch fun := c.Fun.(type) {
	case *ast.Ident:
		if _, text := literal(c.Args[0]); within && text && (fun.Name == "T" || fun.Name == "F" || fun.Name == "In") {
			return fun.Name
		}
	case *ast.SelectorExpr:
		if id, is := fun.X.(*ast.Ident); is && id.Name == "say" {
			return fun.Sel.Name
		}
	}
	return ""
}

func literal(e ast.Expr) (string, bool) {
	b, ok := e.(*ast.BasicLit)
	if !ok || b.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(b.Value)
	return s, err == nil
}

var verbForm = regexp.MustCompile(`%(\[(\d+)\])?[-+# 0]*(\d+)?(\.\d+)?([a-zA-Z%])`)

// verbs are the places of a format, by the number of their value: its letter and
// precision.
func verbs(format string) map[int]string {
	out, next := map[int]string{}, 1
	for _, m := range verbForm.FindAllStringSubmatch(format, -1) {
		if m[5] == "%" {
			continue
		}
		if m[2] != "" {
			next, _ = strconv.Atoi(m[2])
		}
		out[next] = m[4] + m[5]
		next++
	}
	return out
}

// sameVerbs reports whether a translation has the same places for values as a
// text; a per cent sign before a blank is none.
func sameVerbs(text, as string) bool {
	x, y := verbs(text), verbs(as)
	if len(x) == 0 || len(verbs(strings.ReplaceAll(text, "% ", ""))) == 0 {
		return len(verbs(strings.ReplaceAll(as, "% ", ""))) == 0
	}
	if len(x) != len(y) {
		return false
	}
	for i, v := range x {
		if y[i] != v {
			return false
		}
	}
	return true
}

// Every text has its translation in every language, with the same places for values;
// no translation is of a text that is gone. UPDATE_WORDS=1 brings the files up to
// date: texts that are new stand empty, to be filled in.
func TestEveryTextIsTranslated(t *testing.T) {
	said := saidTexts(t)
	if len(said) < 1000 {
		t.Fatalf("only %d texts are found", len(said))
	}
	for _, l := range languages()[2:] {
		if strings.HasPrefix(string(l), "en-") {
			continue
		}
		path := filepath.Join("..", "..", "assets", "lang", string(l)+".json")
		var have map[string]string
		if data, err := os.ReadFile(path); err == nil {
			if err := json.Unmarshal(data, &have); err != nil {
				t.Fatal(err)
			}
		}
		if os.Getenv("UPDATE_WORDS") != "" {
			next := map[string]string{}
			for text := range said {
				next[text] = have[text]
			}
			writeTexts(t, path, next)
			have = next
		}
		var lacking []string
		for text, at := range said {
			switch got := have[text]; {
			case got == "":
				lacking = append(lacking, at+": "+text)
			case !sameVerbs(text, got):
				t.Errorf("%s: %q is said as %q: other places for values", l, text, got)
			case strings.Contains(got, "{{"):
				t.Errorf("%s: %q is taken for a template", l, got)
			case strings.HasPrefix(text, " ") != strings.HasPrefix(got, " ") || strings.HasSuffix(text, " ") != strings.HasSuffix(got, " "):
				t.Errorf("%s: %q is said as %q: the blanks at its ends join it to what stands beside it", l, text, got)
			}
		}
		slices.Sort(lacking)
		if n := len(lacking); n > 0 {
			t.Errorf("%s: %d of %d texts have no translation, such as\n%s", l, n, len(said), strings.Join(lacking[:min(n, 10)], "\n"))
		}
		for text := range have {
			if _, is := said[text]; !is {
				t.Errorf("%s: nobody says %q any more", l, text)
			}
		}
	}
}

// The toolkit keeps what the program says, words with a meaning of their own in its
// files included.
func TestSpokenLanguage(t *testing.T) {
	t.Cleanup(func() { say.Use("", nil) })
	if Language("en-GB").resolved() != English || Language("xx").resolved() != English {
		t.Error("the languages are not told apart")
	}
	texts := map[string]string{"other": "andere", "one": "eins", "description": "Beschreibung", "Boards": "Bretter", "%s to %s": "%[2]s vor %[1]s", "100 %": "100 Prozent"}
	if err := speakWith(German, texts); err != nil {
		t.Fatal(err)
	}
	for english, text := range texts {
		if say.T(english) != text {
			t.Errorf("%q is said as %q, want %q", english, say.T(english), text)
		}
	}
	if got := say.F("%s to %s", "A", "B"); got != "B vor A" {
		t.Error(got)
	}
	if lang.L("Paste") != "Paste" { // not among these texts
		t.Errorf("the toolkit says %q", lang.L("Paste"))
	}
	if err := speak(Spanish); err != nil || lang.L("Paste") != "Pegar" || lang.L("Cut") != "Cortar" || lang.L("Quit") != say.T("Quit") {
		t.Errorf("the toolkit says %q and %q in Spanish: %v", lang.L("Paste"), lang.L("Quit"), err)
	}
	if err := speak(English); err != nil || say.T("Boards") != "Boards" || lang.L("Paste") != "Paste" {
		t.Error("English is not spoken again")
	}
}

func TestLanguagesToChooseFrom(t *testing.T) {
	list := languages()
	if len(list) < 2 || list[0] != SystemLanguage || list[1] != English {
		t.Fatalf("%q", list)
	}
	for _, l := range list[1:] {
		if l.resolved() != l {
			t.Errorf("%q is spoken as %q", l, l.resolved())
		}
		if err := speak(l); err != nil {
			t.Error(err)
		}
	}
	say.Use("", nil)
}

// american are words that are spelled or called otherwise in the United States.
var american = map[string]string{
	"anticlockwise": "counterclockwise", "batten": "cleat", "battens": "cleats", "behaviour": "behavior", "bevelled": "beveled",
	"centimetre": "centimeter", "centimetres": "centimeters", "centre": "center", "colour": "color", "coloured": "colored", "colours": "colors",
	"grey": "gray", "labelled": "labeled", "metre": "meter", "metres": "meters", "millimetre": "millimeter", "millimetres": "millimeters",
	"neighbour": "neighbor", "neighbours": "neighbors", "sensitise": "sensitize", "towards": "toward", "waney": "live-edge",
}

var wordForm = regexp.MustCompile(`[A-Za-z]+`)

// inAmerican is a text as it is said in the United States.
func inAmerican(text string) string {
	text = strings.NewReplacer("waney edge", "live edge", "Waney edge", "Live edge", "waney-edge", "live-edge").Replace(text)
	return wordForm.ReplaceAllStringFunc(text, func(w string) string {
		to, ok := american[strings.ToLower(w)]
		if !ok {
			return w
		}
		if w[0] >= 'A' && w[0] <= 'Z' {
			to = strings.ToUpper(to[:1]) + to[1:]
		}
		return to
	})
}

// The American texts are those that differ, all of them.
func TestAmericanTexts(t *testing.T) {
	path := filepath.Join("..", "..", "assets", "lang", "en-US.json")
	want := map[string]string{}
	for text := range saidTexts(t) {
		if us := inAmerican(text); us != text {
			want[text] = us
		}
	}
	if os.Getenv("UPDATE_WORDS") != "" {
		writeTexts(t, path, want)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var have map[string]string
	if err := json.Unmarshal(data, &have); err != nil {
		t.Fatal(err)
	}
	for text, us := range want {
		if have[text] != us {
			t.Errorf("%q is said as %q, want %q", text, have[text], us)
		}
	}
	for text := range have {
		if want[text] == "" {
			t.Errorf("nobody says %q any more", text)
		}
	}
	if got := inAmerican("The Colours of a waney edge, towards grey"); got != "The Colors of a live edge, toward gray" {
		t.Error(got)
	}
}

func writeTexts(t *testing.T, path string, texts map[string]string) {
	t.Helper()
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "\t")
	if err := enc.Encode(texts); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o666); err != nil {
		t.Fatal(err)
	}
}
