package sheet

import (
	"encoding/csv"
	"encoding/xml"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/app/render/rendertest"
)

// printed writes a sheet of all pages as PDF.
func printed(t *testing.T, path string, paper Paper) (Input, *Document, string) {
	t.Helper()
	in := load(t, path, paper, faces(t))
	in.Pages, in.Author, in.Date = every(t), "A Maker", "2026-11-25"
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if _, err := Write(d, name); err != nil {
		t.Fatal(err)
	}
	return in, d, name
}

// tool runs a program of poppler or qpdf, and skips the test without it.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed: what other programs read in the PDF is not checked", name)
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func TestOtherProgramsFindNoFault(t *testing.T) {
	_, _, name := printed(t, project(t, "legs-and-doors.yaml"), Letter)
	if out := tool(t, "qpdf", "--check", name); strings.Contains(strings.ToLower(out), "warning") {
		t.Errorf("qpdf: %s", out)
	}
	fonts := strings.Split(strings.TrimSpace(tool(t, "pdffonts", name)), "\n")
	for _, l := range fonts[2:] {
		if !strings.Contains(l, "yes yes yes") { // embedded, a subset, with its text
			t.Errorf("pdffonts: %s", l)
		}
	}
	info := tool(t, "pdfinfo", name)
	for _, want := range []string{"Title:           Cabinet with legs", "Author:          A Maker", "2026"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo lacks %q:\n%s", want, info)
		}
	}
}

// Another program reads the numbers of the project off the page: of every
// strip its number, and of every cut the distances.
func TestTextIsThatOfTheProject(t *testing.T) {
	in, d, name := printed(t, demo(t), A4)
	pages := strings.Split(tool(t, "pdftotext", "-layout", name, "-"), "\f")
	if len(pages) < len(d.Pages) {
		t.Fatalf("%d pages of text, want %d", len(pages), len(d.Pages))
	}
	for i, p := range d.Pages {
		text := strings.Join(strings.Fields(pages[i]), " ")
		if !strings.Contains(text, Code(in.Project)) {
			t.Errorf("page %d has no code", i+1)
		}
		if p.Kind != KindPanel || p.Again {
			continue
		}
		m := in.Project.Panel(p.Panel)
		for _, want := range []float64{m.Length, m.Width, m.Thickness} {
			if !strings.Contains(text, strconv.FormatFloat(want, 'f', -1, 64)) {
				t.Errorf("panel %s: no %g", m.ID, want)
			}
		}
		for _, s := range m.Strips {
			if s.Board != "" && !strings.Contains(text, in.number(m.ID, s.ID)) {
				t.Errorf("panel %s: no strip %s", m.ID, in.number(m.ID, s.ID))
			}
		}
	}
}

// Measured in another program's drawing of the PDF, in points of 1/72 inch: the
// bar is 50 mm long, and a board as long and wide as the scale says.
func TestScaleIsTrueInThePDF(t *testing.T) {
	in, d, name := printed(t, demo(t), A4)
	i := slices.IndexFunc(d.Pages, func(p *Page) bool { return p.Kind == KindBoards })
	n := strconv.Itoa(i + 1)
	svg := filepath.Join(t.TempDir(), "page.svg")
	tool(t, "pdftocairo", "-svg", "-f", n, "-l", n, name, svg)
	data, err := os.ReadFile(svg)
	if err != nil {
		t.Fatal(err)
	}
	const mm = 25.4 / 72
	bd, ratio := in.Boards[0], d.Pages[i].ratio
	bar, board := false, false
	number := regexp.MustCompile(`-?\d+(?:\.\d+)?`)
	move := regexp.MustCompile(`matrix\(([^)]*)\)`)
	for _, el := range regexp.MustCompile(`<path[^>]*>`).FindAllString(string(data), -1) {
		at := regexp.MustCompile(` d="([^"]*)"`).FindStringSubmatch(el)
		if at == nil {
			continue
		}
		scale := 1.0
		if m := move.FindStringSubmatch(el); m != nil {
			scale, _ = strconv.ParseFloat(strings.Split(m[1], ",")[0], 64)
		}
		var x, y []float64
		for k, s := range number.FindAllString(at[1], -1) {
			v, _ := strconv.ParseFloat(s, 64)
			if k%2 == 0 {
				x = append(x, v*scale*mm)
			} else {
				y = append(y, v*scale*mm)
			}
		}
		if len(x) < 2 || len(y) < 2 {
			continue
		}
		w, h := slices.Max(x)-slices.Min(x), slices.Max(y)-slices.Min(y)
		bar = bar || len(x) == 2 && h < 0.01 && math.Abs(w-50) < 0.1
		board = board || math.Abs(w-bd.Length/ratio) < 0.1 && math.Abs(h-bd.Width/ratio) < 0.1
	}
	if !bar || !board {
		t.Errorf("bar of 50 mm: %v; board of %.2f x %.2f mm: %v", bar, bd.Length/ratio, bd.Width/ratio, board)
	}
}

// Strips at least 8 mm high have their number 8 mm high in them, the others
// beside: everywhere on the pages of panels and boards each number stands once
// or more in that size, also where thirty crowd.
func TestNumbersAreReadAtArmsLength(t *testing.T) {
	f := faces(t)
	for _, path := range projects(t) {
		in := load(t, path, A4, f)
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		big := map[string]bool{}
		for i, p := range d.Pages {
			for _, w := range look(t, d, i, f).texts {
				if f.CapHeight(w.st) >= 8 {
					big[string(p.Kind)+p.Panel+" "+w.s] = true
				}
			}
		}
		for _, p := range in.Panels {
			for _, s := range p.Panel.Strips {
				number := in.number(p.Panel.ID, s.ID)
				if !big["panel"+p.Panel.ID+" "+number] {
					t.Errorf("%s, panel %s: %s is not 8 mm high", filepath.Base(path), p.Panel.ID, number)
				}
				if s.Board != nil && !big["boards "+number] {
					t.Errorf("%s, a board: %s is not 8 mm high", filepath.Base(path), number)
				}
			}
		}
	}
}

// The drawings are of true size: the finished panel 900 x 200 and the board 1200
// x 240 of the shelf stand in them at that size.
func TestDrawingsAreOfTrueSize(t *testing.T) {
	in := load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t))
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	list := d.Drawings()
	if len(list) != 2 || list[0].Kind != KindPanel || list[1].Kind != KindBoards {
		t.Fatalf("%d drawings", len(list))
	}
	for i, want := range [][2]float64{{in.Panels[0].Panel.Length, in.Panels[0].Panel.Width}, {in.Boards[0].Length, in.Boards[0].Width}} {
		data, err := list[i].SVG()
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for x := xml.NewDecoder(strings.NewReader(string(data))); ; {
			tok, err := x.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			e, ok := tok.(xml.StartElement)
			if !ok || e.Name.Local != "path" {
				continue
			}
			for _, a := range e.Attr {
				var xs, ys []float64
				if a.Name.Local != "d" {
					continue
				}
				for _, q := range strings.FieldsFunc(a.Value, func(r rune) bool { return strings.ContainsRune("MLZ", r) }) {
					xy := strings.Fields(q)
					vx, _ := strconv.ParseFloat(xy[0], 64)
					vy, _ := strconv.ParseFloat(xy[1], 64)
					xs, ys = append(xs, vx), append(ys, vy)
				}
				if len(xs) == 4 {
					found = found || math.Abs(slices.Max(xs)-slices.Min(xs)-want[0]) < 0.02 && math.Abs(slices.Max(ys)-slices.Min(ys)-want[1]) < 0.02
				}
			}
		}
		if !found {
			t.Errorf("%s: nothing of %g x %g mm", list[i].fileName(), want[0], want[1])
		}
	}
}

// By hand, see TestWidthsOfTurnedStrip: the shelf's strip lies at 130, 15, is 930
// x 212, turned; blank 980 x 221; finished 900 x 200; its sap 22.18, 13.93 and
// 7.86 along the back edge.
func TestCuttingList(t *testing.T) {
	d, err := Build(load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t)))
	if err != nil {
		t.Fatal(err)
	}
	data, err := d.CSV()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil || len(rows) != 2 {
		t.Fatalf("%v, %d rows", err, len(rows))
	}
	yaml, err := d.YAML()
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{
		"mark": "A1", "board": "A", "x": "130", "y": "15", "length": "930", "width": "212", "angle": "0", "turned": "true",
		"rough_length": "980", "rough_width": "221", "finished_length": "900", "finished_width": "200",
		"sap_front_left": "0", "sap_back_left": "22.18", "sap_back_middle": "13.93", "sap_back_right": "7.86", "kind": "strip",
	} {
		i := slices.Index(rows[0], key)
		if i < 0 {
			t.Fatalf("no column %s", key)
		}
		got := rows[1][i]
		a, errA := strconv.ParseFloat(got, 64)
		b, errB := strconv.ParseFloat(want, 64)
		if near := errA == nil && errB == nil && math.Abs(a-b) < 0.3; got != want && (!near || !strings.HasPrefix(key, "sap_")) {
			t.Errorf("%s: %q, want %q", key, got, want) // the line between the faces is smoothed a little
		}
		want = d.in.CutList()[0].Get(key)
		line := key + ": " + want
		if key == "mark" || key == "board" || key == "kind" {
			line = key + `: "` + want + `"`
		}
		if !strings.Contains(string(yaml), line+"\n") {
			t.Errorf("the YAML lacks %s", line)
		}
	}
}

// A name no typeface holds stands as numbers, and every legend says so.
func TestMissingLettersAreSaid(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	p := *in.Project
	p.Name = "木"
	in.Project = &p
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	for i := range d.Pages {
		if text := flat(look(t, d, i, in.Faces)); !strings.Contains(text, "by its Unicode number") {
			t.Errorf("page %d does not say what the number is", i+1)
		}
	}
}

// What the pages of other kinds must say, and that each knows what it is of.
func TestOtherPagesSay(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	in.Pages = every(t)
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	said := map[Kind]string{}
	for i, p := range d.Pages {
		said[p.Kind] += flat(look(t, d, i, in.Faces)) + " "
		if (p.Panel == "") == (p.Kind == KindPanel || p.Kind == KindFit || p.Kind == KindClient || p.Kind == KindJoints) || (p.Board == "") == (p.Kind == KindBoards) {
			t.Errorf("page %d, %s, is of panel %q and board %q", i+1, p.Kind, p.Panel, p.Board)
		}
	}
	for kind, wants := range map[Kind][]string{
		KindLabels: {"never on faces", "marked end, left", "other end, right", "top, 1 of 4 from the front", "50 mm if printed"},
		KindClient: {"Now", "What is natural", "Signature", "In ten years"},
		KindYard:   {"What the job needs", "Keep", "Leave", "Price", "panel top"},
		KindJoints: {"Joint 1,", "1a", "piece 2 of 5", "drawn full size"},
		KindBoards: {"square off past the checks, measure from here", "expected", "found"},
	} {
		for _, want := range wants {
			if !strings.Contains(said[kind], want) {
				t.Errorf("%s does not say %q", kind, want)
			}
		}
	}
	if strings.Contains(said[KindClient], "joint") {
		t.Error("the client is told of joints")
	}
}

func TestMoreGoldens(t *testing.T) {
	f := faces(t)
	for name, path := range map[string]string{"maple": project(t, "maple-door.yaml"), "block": project(t, "block-thirty-strips.yaml")} {
		in := load(t, path, A4, f)
		in.Panels = slices.Clone(in.Panels)
		for i := range in.Panels {
			in.Panels[i].Notes = nil // what is said is others' to pin
		}
		in.Pages = Pages{Panel: true, Boards: true, Labels: true, Client: true, Yard: true}
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		for i, p := range d.Pages {
			if i < 2 || p.Kind != KindBoards && i < 40 && !p.Again {
				var rec render.Recorder
				p.Draw(&rec)
				all.WriteString("page " + p.Title + "\n" + rec.String())
			}
		}
		rendertest.Golden(t, "sheet/"+name+".txt", all.String())
	}
}

// Pictures of a panel's and a board's page, at few dots.
func TestPictureGoldens(t *testing.T) {
	f := faces(t)
	for name, path := range map[string]string{"shelf": project(t, "shelf-one-strip.yaml"), "maple": project(t, "maple-door.yaml")} {
		in := load(t, path, A4, f)
		in.Pages = Pages{Panel: true, Boards: true}
		in.Panels = slices.Clone(in.Panels)
		for i := range in.Panels {
			in.Panels[i].Notes = nil
		}
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range d.Pages {
			if i > 1 {
				break
			}
			img, err := d.Raster(i, 50)
			if err != nil {
				t.Fatal(err)
			}
			rendertest.Image(t, "sheet/"+name+"-"+string(p.Kind)+".png", img, 4, 40)
		}
	}
}
