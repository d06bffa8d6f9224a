package sheet

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/app/render/rendertest"
	"heartside/model"
)

func TestWrite(t *testing.T) {
	f := faces(t)
	d, err := Build(load(t, project(t, "shelf-one-strip.yaml"), Letter, f))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	files, err := Write(d, filepath.Join(dir, "Sheet.PDF"))
	if err != nil || len(files) != 1 {
		t.Fatalf("%v, %v", files, err)
	}
	data, err := os.ReadFile(files[0])
	if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Fatalf("no document: %v", err)
	}
	if n := len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(data, -1)); n != len(d.Pages) {
		t.Errorf("%d pages in the document, want %d", n, len(d.Pages))
	}
	files, err = Write(d, filepath.Join(dir, "sheet.png"))
	if err != nil || len(files) != len(d.Pages) || len(files) < 2 {
		t.Fatalf("%v, %v", files, err)
	}
	if filepath.Base(files[0]) != "sheet.png" || filepath.Base(files[1]) != "sheet-2.png" {
		t.Errorf("pages written to %v", files)
	}
	for i, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		// 300 dots an inch: a letter page lying is 3300 x 2550.
		if d.Pages[i].W > d.Pages[i].H && (c.Width != 3300 || c.Height != 2550) {
			t.Errorf("page %d is %d x %d pixels", i+1, c.Width, c.Height)
		}
	}
	for _, bad := range []string{"sheet.bmp", "sheet", filepath.Join("nowhere", "sheet.pdf")} {
		if files, err := Write(d, filepath.Join(dir, bad)); err == nil {
			t.Errorf("%s: written as %v", bad, files)
		} else if strings.Contains(err.Error(), dir) {
			t.Errorf("%s: the error names the whole path: %v", bad, err)
		}
	}
	left, _ := filepath.Glob(filepath.Join(dir, ".*"))
	if len(left) > 0 {
		t.Errorf("files left behind: %v", left)
	}
	if _, err := d.PNG(99, 100); err == nil {
		t.Error("a page that is not there was drawn")
	}
	if _, err := d.PNG(0, 1e9); err == nil {
		t.Error("drawn at a billion dots an inch")
	}
}

// The same project gives the same bytes; a sheet says which layout it is of.
func TestCode(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	code := Code(in.Project)
	if len(code) != 4 || code != Code(in.Project) {
		t.Fatalf("code %q", code)
	}
	p := *in.Project
	p.Panels = append([]*model.Panel(nil), p.Panels...)
	m := *p.Panels[0]
	m.Strips = append([]model.Strip(nil), m.Strips...)
	m.Strips[0].Turned = !m.Strips[0].Turned
	p.Panels[0] = &m
	if Code(&p) == code {
		t.Error("turning a strip leaves the code as it was")
	}
	p = *in.Project
	p.Name = "Other name"
	if Code(&p) != code {
		t.Error("a new name changes the code")
	}
}

func TestGoldens(t *testing.T) {
	f := faces(t)
	for name, path := range map[string]string{"demo": demo(t), "shelf": project(t, "shelf-one-strip.yaml"), "desk": project(t, "desk-inch-waney.yaml")} {
		in := load(t, path, A4, f)
		for i := range in.Panels { // what is said is others' to pin
			in.Panels[i].Notes = []Note{{Title: "One light streak", Text: "Nothing balances it.", Strips: []string{in.Panels[i].Panel.Strips[0].ID}}}
		}
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		for i, p := range d.Pages {
			var rec render.Recorder
			p.Draw(&rec)
			all.WriteString("page " + p.Title + "\n" + rec.String())
			if i > 5 {
				break
			}
		}
		rendertest.Golden(t, "sheet/"+name+".txt", all.String())
	}
}

func BenchmarkSheet(b *testing.B) {
	f := faces(b)
	in := load(b, project(b, "block-thirty-strips.yaml"), A4, f)
	for b.Loop() {
		d, err := Build(in)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := d.PDF(); err != nil {
			b.Fatal(err)
		}
	}
}
