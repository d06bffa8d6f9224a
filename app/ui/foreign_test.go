package ui

import (
	"fmt"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/app/sheet"
	"heartside/assets"
	"heartside/model/catalog"
	"heartside/model/say"
)

// foreign says every text in Cyrillic letters, one for each Latin one; places for
// values, blanks and signs stay. What is then shown in Latin letters did not come
// from a translation.
func foreign(t *testing.T) {
	t.Helper()
	out := map[string]string{}
	for text := range saidTexts(t) {
		body := text
		if at := strings.LastIndex(body, " ["); at > 0 && strings.HasSuffix(body, "]") { // of what it is said
			body = body[:at]
		}
		out[text] = cyrillic(body)
	}
	out[". [decimal]"] = ","
	say.Use("xx", out)
	t.Cleanup(func() { say.Use("", nil) })
}

func cyrillic(text string) string {
	var b strings.Builder
	from := 0
	plain := func(s string) {
		for _, r := range pointed.ReplaceAllStringFunc(s, func(n string) string { return strings.Replace(n, ".", ",", 1) }) {
			switch {
			case r >= 'a' && r <= 'z':
				r = 'а' + r - 'a'
			case r >= 'A' && r <= 'Z':
				r = 'А' + r - 'A'
			}
			b.WriteRune(r)
		}
	}
	for _, at := range verbForm.FindAllStringIndex(text, -1) {
		plain(text[from:at[0]])
		b.WriteString(text[at[0]:at[1]])
		from = at[1]
	}
	plain(text[from:])
	return b.String()
}

// pointed is a number with a decimal point, where the language has a comma.
var pointed = regexp.MustCompile(`\d\.\d`)

// latin are words in Latin letters: those a maker would read.
var latin = regexp.MustCompile(`[A-Za-z]*[a-z]{3,}`)

// shownTexts are the words of all that is seen of an object: whole, not as they are
// broken into lines.
func shownTexts(o fyne.CanvasObject) []string {
	if o == nil || !o.Visible() {
		return nil
	}
	var out []string
	switch x := o.(type) {
	case *canvas.Text:
		return []string{x.Text}
	case *widget.Label:
		return []string{x.Text}
	case *widget.RichText:
		return []string{x.String()}
	case *fyne.Container:
		for _, in := range x.Objects {
			out = append(out, shownTexts(in)...)
		}
	case fyne.Widget:
		for _, in := range test.WidgetRenderer(x).Objects() {
			out = append(out, shownTexts(in)...)
		}
	}
	return out
}

// drawnTexts are the words of a drawing.
func drawnTexts(draw func(render.Canvas)) []string {
	rec := &render.Recorder{}
	draw(rec)
	var out []string
	for _, l := range strings.Split(rec.String(), "\n") {
		if m := drawnText.FindStringSubmatch(l); m != nil {
			out = append(out, m[1])
		}
	}
	return out
}

var drawnText = regexp.MustCompile(`^ *text \S+ "(.*)" size `)

// signs are what stands in no language: endings of files, and publications.
var signs = regexp.MustCompile(`\.(csv|pdf|png|svg|ya?ml)\b|USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 \(2010\), Table|10\.1007/\S+`)

// alone are the words of no language, and those of names the demo and the examples
// give: what stands in their files is the maker's own.
func alone(projects ...string) map[string]bool {
	out := map[string]bool{"heartside": true}
	for _, s := range catalog.All() {
		projects = append(projects, s.Latin)
	}
	for _, p := range projects {
		for _, w := range latin.FindAllString(p, -1) {
			out[strings.ToLower(w)] = true
		}
	}
	return out
}

// told collects what is seen in no translation.
type told struct {
	own  map[string]bool
	seen map[string]string // text: where
}

func (f *told) look(where string, texts []string) {
	for _, text := range texts {
		if strings.HasPrefix(text, "/") { // a path
			continue
		}
		rest := signs.ReplaceAllString(text, "")
		if pointed.MatchString(rest) {
			f.seen[text] = where
		}
		for _, w := range latin.FindAllString(rest, -1) {
			if !f.own[strings.ToLower(w)] {
				if _, is := f.seen[text]; !is {
					f.seen[text] = where
				}
			}
		}
	}
}

func (f *told) tell(t *testing.T) {
	t.Helper()
	var list []string
	for text, where := range f.seen {
		list = append(list, fmt.Sprintf("%s: %q", where, text))
	}
	slices.Sort(list)
	for _, l := range list {
		t.Error(l)
	}
}

// screen looks at all that is on it.
func (f *told) screen(s stage, where string) {
	f.look(where, shownTexts(s.win.Content()))
	for _, o := range s.win.Canvas().Overlays().List() {
		f.look(where+", dialog", shownTexts(o))
	}
	f.look(where+", drawing", drawnTexts(s.surf.scene().Draw))
}

func fileText(t *testing.T, from fs.FS, path string) string {
	t.Helper()
	data, err := fs.ReadFile(from, path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Nothing on a page, in a dialog or on the drawing surface is said in English
// where another language is spoken, whatever is done.
func TestWindowSpeaksNoEnglish(t *testing.T) {
	foreign(t)
	f := &told{own: alone(fileText(t, assets.Demo, "demo/project.yaml")), seen: map[string]string{}}
	for _, a := range demo(t, 100).acts.list {
		if a.ID == "quit" || a.ID == "demo" || a.ID == "help" { // the help has pages of its own in each language
			continue
		}
		s := demo(t, 100)
		s.take("t2")
		s.q.drain()
		s.act(a.ID)
		s.q.drain()
		f.screen(s, a.ID)
		s.win.Close()
	}
	f.tell(t)
}

// Nor with other jobs, or with none.
func TestOtherJobsSpeakNoEnglish(t *testing.T) {
	foreign(t)
	for _, name := range exampleFiles() {
		f := &told{own: alone(), seen: map[string]string{}}
		var data string
		if name != "" {
			data = fileText(t, assets.Examples, "examples/"+name)
			f.own = alone(data)
		}
		for _, id := range append(pagesToReach(), "explain", "sets", "parts", "fitting", "joined", "edit-panel", "edit-board", "zones", "plan", "cuttings", "record", "terms") {
			if id == "help" {
				continue
			}
			s := open(t, session.Blank(), 100)
			if name != "" {
				if err := s.ses.OpenFrom([]byte(data), "example", nil); err != nil {
					t.Fatal(err)
				}
				s.opened()
			}
			s.q.drain()
			for range 3 {
				s.act("next-panel")
				s.act("next-strip")
				if id != "" {
					s.act(id)
				}
				s.q.drain()
				f.screen(s, name+", "+id)
				if s.asks != nil {
					s.asks.cancel()
				}
			}
			s.win.Close()
		}
		f.tell(t)
	}
}

// Nor on any page of the layout sheet.
func TestSheetSpeaksNoEnglish(t *testing.T) {
	foreign(t)
	for _, name := range exampleFiles() {
		data := fileText(t, assets.Demo, "demo/project.yaml")
		if name != "" {
			data = fileText(t, assets.Examples, "examples/"+name)
		}
		f := &told{own: alone(data, publications(t)), seen: map[string]string{}}
		s := open(t, session.Blank(), 100)
		if err := s.ses.OpenFrom([]byte(data), "job", nil); err != nil {
			t.Fatal(err)
		}
		for _, paper := range []sheet.Paper{sheet.A4, sheet.Letter} {
			in := sheet.FromSession(s.ses, "2024-05-06", paper, s.faces)
			in.Author = "A1"
			pages, err := sheet.ParsePages("all")
			if err != nil {
				t.Fatal(err)
			}
			in.Pages = pages
			doc, err := sheet.Build(in)
			if err != nil {
				t.Fatal(err)
			}
			for i, p := range doc.Pages {
				f.look(fmt.Sprintf("%s, page %d", name, i+1), drawnTexts(p.Draw))
			}
		}
		f.tell(t)
	}
}

// exampleFiles are the files of the examples; "" is none.
func exampleFiles() []string {
	out := []string{""}
	for _, x := range examples() {
		out = append(out, x.file)
	}
	return out
}

// publications are what the tables cite, and where in it.
func publications(t *testing.T) string {
	var out []string
	name, cited := "", false
	for _, l := range strings.Split(fileText(t, assets.Tables, "tables/sources.yaml"), "\n") {
		if _, rest, ok := strings.Cut(l, "title: "); ok {
			name, cited = rest, strings.ContainsAny(rest, "0123456789")
		}
		if _, where, ok := strings.Cut(l, "where: "); ok && cited {
			out = append(out, name, where)
		}
	}
	return strings.Join(out, " ")
}
