package sheet

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
)

// every chooses all pages there are.
func every(t testing.TB) Pages {
	t.Helper()
	p, err := ParsePages("all")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Text leaves no page, is nowhere under 8 points and nowhere lies over other
// text, on the kept projects and on many drawn at random; and everything but
// the client's page is black, white or grey.
func TestPagesAreLegible(t *testing.T) {
	f := faces(t)
	papers := Papers()
	if testing.Short() {
		papers = papers[:1]
	}
	for _, path := range projects(t) {
		for _, paper := range papers {
			in := load(t, path, paper, f)
			in.Pages = every(t)
			d, err := Build(in)
			if err != nil {
				t.Fatal(err)
			}
			for i := range d.Pages {
				look(t, d, i, f).judge(fmt.Sprintf("%s, %s, page %d", filepath.Base(path), paper, i+1))
			}
		}
	}
}

func TestRandomPagesAreLegible(t *testing.T) {
	f := faces(t)
	n := 500
	if testing.Short() {
		n = 8
	}
	for seed := range uint64(n) {
		in := anyInput(rand.New(rand.NewPCG(seed, 1)), f)
		in.Pages = every(t)
		in.Pages.Joints = seed%8 == 0 // they are many
		d, err := Build(in)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for i := range d.Pages {
			look(t, d, i, f).judge(fmt.Sprintf("seed %d, page %d", seed, i+1))
		}
		if t.Failed() {
			return
		}
	}
}

// The judge itself must see what it is for.
func TestJudgeSees(t *testing.T) {
	f := faces(t)
	for name, draw := range map[string]func(k *ink){
		"over each other": func(k *ink) {
			k.text(50, 50, "one", style(body))
			k.text(51, 51, "two", style(body))
		},
		"out of the page": func(k *ink) { k.text(196, 50, "sawdust", style(body)) },
		"too small":       func(k *ink) { k.text(50, 50, "small", style(2.7)) },
	} {
		k := ink{faces: f}
		draw(&k)
		rec := &failures{TB: t}
		look(rec, &Document{Pages: []*Page{{W: 210, H: 297, ink: k}}}, 0, f).judge("page")
		if rec.n != 1 {
			t.Errorf("%s: %d complaints, want 1", name, rec.n)
		}
	}
}

type failures struct {
	testing.TB
	n int
}

func (r *failures) Helper()               {}
func (r *failures) Errorf(string, ...any) { r.n++ }

func TestPaperSizes(t *testing.T) {
	// ISO 216: A4 is 210 x 297 mm, A3 297 x 420. ANSI Y14.1: letter is 8.5 x 11 inches,
	// tabloid 11 x 17.
	for _, c := range []struct {
		paper Paper
		lying bool
		w, h  float64
	}{{A4, false, 210, 297}, {A4, true, 297, 210}, {A3, false, 297, 420}, {Tabloid, true, 17 * 25.4, 11 * 25.4}, {Letter, false, 8.5 * 25.4, 11 * 25.4}, {Letter, true, 11 * 25.4, 8.5 * 25.4}} {
		if w, h := c.paper.size(c.lying); w-c.w > 1e-9 || c.w-w > 1e-9 || h-c.h > 1e-9 || c.h-h > 1e-9 {
			t.Errorf("%s lying %v: %g x %g, want %g x %g", c.paper, c.lying, w, h, c.w, c.h)
		}
	}
	for _, s := range []string{"a5", "A4 ", "LETTER", "A3", "Tabloid", ""} {
		if _, err := ParsePaper(s); (err != nil) != (s == "a5") {
			t.Errorf("%q: %v", s, err)
		}
	}
}

func TestEveryPageHasLegendAndNumber(t *testing.T) {
	f := faces(t)
	d, err := Build(load(t, demo(t), A4, f))
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range d.Pages {
		text := look(t, d, i, f).all()
		marks := []string{"heartwood", "knot, split, wane", "not seen yet", "marked end"}
		if strings.HasPrefix(p.Title, "Glue-up") {
			marks = []string{"growth rings"}
		}
		if p.Kind == KindSources {
			marks = []string{"from memory"}
		}
		for _, want := range append(marks, "sapwood", fmt.Sprintf("%d of %d", i+1, len(d.Pages)), "Hall console", "25 November 2026   Code "+Code(load(t, demo(t), A4, f).Project)) {
			if !strings.Contains(text, want) {
				t.Errorf("page %d does not say %q", i+1, want)
			}
		}
	}
}

func TestBuildRefuses(t *testing.T) {
	f := faces(t)
	in := load(t, demo(t), A4, f)
	for name, spoil := range map[string]func(*Input){
		"no project": func(in *Input) { in.Project = nil },
		"no faces":   func(in *Input) { in.Faces = nil },
		"no paper":   func(in *Input) { in.Paper = "a5" },
		"nothing":    func(in *Input) { in.Panels, in.Boards = nil, nil },
		"not read":   func(in *Input) { in.Panels = []Panel{{Panel: in.Panels[0].Panel}} },
	} {
		bad := in
		spoil(&bad)
		if _, err := Build(bad); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A sheet of a 12-strip panel and 8 boards takes at most 5 MB; how long it takes
// is a benchmark.
func TestSheetIsSmall(t *testing.T) {
	f := faces(t)
	in := load(t, project(t, "block-thirty-strips.yaml"), A4, f) // 30 strips, 30 boards: more than is asked
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	data, err := d.PDF()
	if err != nil {
		t.Fatal(err)
	}
	if len(data) > 5<<20 {
		t.Errorf("%d bytes", len(data))
	}
}
