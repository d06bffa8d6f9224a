package sheet

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
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

// Measured in another program's drawing of the PDF, in points of 1/72 inch (its
// own fitting to a sheet of paper stands apart from them): the bar is 50 mm long, and a board as long and wide as the scale says.
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
	for _, el := range regexp.MustCompile(`<path[^>]*>`).FindAllString(string(data), -1) {
		at := regexp.MustCompile(` d="([^"]*)"`).FindStringSubmatch(el)
		if at == nil {
			continue
		}
		var x, y []float64
		for k, s := range number.FindAllString(at[1], -1) {
			v, _ := strconv.ParseFloat(s, 64)
			if k%2 == 0 {
				x = append(x, v*mm)
			} else {
				y = append(y, v*mm)
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
