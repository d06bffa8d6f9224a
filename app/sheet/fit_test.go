package sheet

import (
	"strings"
	"testing"

	"heartside/app/session"
	"heartside/layout/wood/moisture"
	"heartside/model"
	"heartside/model/say"
)

// saidOn is all text of the pages whose title begins so.
func saidOn(t testing.TB, d *Document, in Input, title string) string {
	all := ""
	for i, p := range d.Pages {
		if strings.HasPrefix(p.Title, title) {
			all += flat(look(t, d, i, in.Faces)) + " "
		}
	}
	return all
}

// The page on gluing up carries what the session works out, boxes to fill and
// what is done in which order.
func TestFitPageSays(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	text := saidOn(t, d, in, "Glue-up and fit: top")
	for _, want := range []string{
		"Driest season, right end, show face up", "Dampest season", "front", "back", "A1, bark side up",
		"Read now, %", "☐ Dry run", "☐ Faces of the joints marked in and out", "its point to the back edge",
		// 1180 long: 1080 between the outer clamps, 3.6 lengths of 300 and 5.4 of 200.
		"Clamps: 5 to 7, 200 mm to 300 mm apart, above and below by turns (common practice, no source)",
		"as the glue's label says", "Wait about a week", "Stand it on edge", "turn it daily",
		"Cautions.", "Oily rags",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	from := saidOn(t, d, in, "Sources")
	for _, want := range []string{"Where the numbers come from", "from memory, not confirmed", "Table 13-5 (read in the source)"} {
		if n := strings.Count(from, want); n == 0 || want == "Table 13-5 (read in the source)" && n > 1 {
			t.Errorf("the page of sources says %q %d times", want, n)
		}
	}
	if panel := saidOn(t, d, in, "Panel left-side"); !strings.Contains(panel, "Bottom end, show face up") {
		t.Error("the panel's page has no end")
	}
	for _, s := range in.Panels[0].Behaviour.Sections {
		for _, r := range s.Rows {
			if s.ID == stackID || r.Head {
				continue
			}
			for _, v := range r.Values {
				if !strings.Contains(text, v) {
					t.Errorf("%s, %s: %q is not on the page", s.ID, r.Name, v)
				}
			}
		}
	}
	if side := saidOn(t, d, in, "Glue-up and fit: left-side"); !strings.Contains(side, "season, bottom end, show") {
		t.Error("a side's end has another panel's name")
	}
	for _, once := range []string{"Oily rags", "Walnut shavings", "not durable outdoors", "Hearing and eye protection at"} {
		if n := strings.Count(text+saidOn(t, d, in, "Panel top"), once); n != 1 {
			t.Errorf("%q stands %d times in the pages of one panel", once, n)
		}
	}
}

// Each source once, what is from memory first and marked, arithmetic left out.
func TestSources(t *testing.T) {
	how := func(list ...moisture.Step) moisture.Working { return list }
	got := sourceText([]session.Section{
		{Title: "Width", How: how(
			moisture.Step{Formula: "Strip A1, driest: CT", Source: "Handbook, Table 5", Flag: moisture.Read},
			moisture.Step{Formula: "width = a + b", Flag: moisture.Derived})},
		{Title: "Cup", How: how(
			moisture.Step{Formula: "CT", Source: "Handbook, Table 5", Flag: moisture.Read},
			moisture.Step{Formula: "bow = f(x)", Source: "a column", Flag: moisture.Memory},
			moisture.Step{Formula: "limit", Flag: moisture.Choice})},
	})
	want := []string{"Where the numbers come from",
		"A column (from memory, not confirmed): bow = f(x).",
		"limit: engineering choice, no published source.",
		"Handbook, Table 5 (read in the source): width; cup."}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i].text != want[i] {
			t.Errorf("line %d: %q, want %q", i, got[i].text, want[i])
		}
	}
	if got[1].bullet != "!" || got[2].bullet == "!" {
		t.Error("what is from memory is not marked, or something else is")
	}
}

func TestPagesChosen(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	for words, want := range map[string]string{
		"":               "Panel Board Glue-up Sources",
		"panel":          "Panel",
		" Boards ,PANEL": "Panel Board",
		"fit":            "Glue-up",
		"sources":        "Sources",
		"fit,sources":    "Glue-up Sources",
	} {
		p, err := ParsePages(words)
		if err != nil {
			t.Fatal(err)
		}
		in.Pages = p
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		var kinds []string
		for _, p := range d.Pages {
			if k, _, _ := strings.Cut(p.Title, " "); len(kinds) == 0 || kinds[len(kinds)-1] != k {
				kinds = append(kinds, k)
			}
		}
		if got := strings.Join(kinds, " "); got != want {
			t.Errorf("%q: pages %s, want %s", words, got, want)
		}
		if has := strings.Contains(saidOn(t, d, in, ""), "Where the numbers come from"); has != p.Sources {
			t.Errorf("%q: sources printed: %v", words, has)
		}
	}
	if _, err := ParsePages("panel,lid"); err == nil || !strings.Contains(err.Error(), "fit") {
		t.Errorf("an unknown page: %v", err)
	}
	in.Pages, in.Boards = Pages{Boards: true}, nil
	if _, err := Build(in); err == nil || !strings.Contains(err.Error(), "choose others") {
		t.Errorf("no page to print: %v", err)
	}
}

// The code changes with all that the figures rest on.
func TestCodeChangesWithBehaviour(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	seen := map[string]string{Code(in.Project): "the project"}
	for name, change := range map[string]func(p *model.Project, b *model.Board, n *model.Panel){
		"stock off": func(_ *model.Project, _ *model.Board, n *model.Panel) { n.Strips[0].Off = &[2]float64{1, 2} },
		"pith":      func(_ *model.Project, b *model.Board, _ *model.Panel) { b.Pith = []model.Pith{{Across: 3, Depth: 90}} },
		"heart":     func(_ *model.Project, b *model.Board, _ *model.Panel) { b.Heart = 123 },
		"moisture":  func(_ *model.Project, b *model.Board, _ *model.Panel) { b.Moisture = 11.5 },
		"shape":     func(_ *model.Project, b *model.Board, _ *model.Panel) { b.Shape.Cup = 2.5 },
		"fitting": func(_ *model.Project, _ *model.Board, n *model.Panel) {
			n.Fitting = &model.Fitting{Held: model.HeldSlots, Rows: []float64{60}}
		},
		"rows of it": func(_ *model.Project, _ *model.Board, n *model.Panel) {
			n.Fitting = &model.Fitting{Held: model.HeldSlots, Rows: []float64{70}}
		},
		"profiles": func(_ *model.Project, _ *model.Board, n *model.Panel) {
			n.Profiles[0] = model.Profile{Kind: model.ProfileBevel, Across: 10, Down: 5}
		},
		"joined":    func(p *model.Project, _ *model.Board, _ *model.Panel) { p.Joined = nil },
		"climate":   func(p *model.Project, _ *model.Board, _ *model.Panel) { p.Climate.Dry.RH = 22 },
		"behaviour": func(p *model.Project, _ *model.Board, _ *model.Panel) { p.Behaviour.SapFactor = 1.1 },
		"limits":    func(p *model.Project, _ *model.Board, _ *model.Panel) { p.Limits.Streak = 0.2 },
		"machines":  func(p *model.Project, _ *model.Board, _ *model.Panel) { p.Machines.Thickness = 250 },
		"measured": func(_ *model.Project, _ *model.Board, n *model.Panel) {
			n.Strips[0].Planed = &model.PlanedSap{Near: model.Tape{1, 2, 3}}
		},
	} {
		p := *in.Project
		b, n := *p.Boards[0], *p.Panels[0]
		n.Strips = append([]model.Strip(nil), n.Strips...)
		change(&p, &b, &n)
		p.Boards = append([]*model.Board{&b}, p.Boards[1:]...)
		p.Panels = append([]*model.Panel{&n}, p.Panels[1:]...)
		if was, ok := seen[Code(&p)]; ok {
			t.Errorf("%s has the code of %s", name, was)
		}
		seen[Code(&p)] = name
	}
}

// Sapwood 20 wide on the sawn face and 14 on the finished one: the board's page
// gives both, the panel's page and the search for like strips take the finished.
func TestFinishedFaceIsDrawn(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	sawn, planed := sapBoard(20, 30), sapBoard(14, 30)
	p := whole(sawn, 1, false)
	after := *p.strip
	after.Board = planed
	p.planed, p.panel = &after, &model.Panel{ID: "top", Thickness: 20}
	b := newBuilder(&in)
	row := strings.Join(b.checkTable(sawn, []place{p}).rows[0], "|")
	if !strings.Contains(row, "20 / 20 / 20|14 / 14 / 14||") {
		t.Errorf("row %s", row)
	}
	if len(findAlike([]place{p, whole(sapBoard(14, 30), 1, false)})) != 1 || len(findAlike([]place{p, whole(sapBoard(20, 30), 1, false)})) != 0 {
		t.Error("strips are told apart by their sawn faces")
	}
}

// The two seasons are drawn as what they are, whatever language they are named in,
// with the bow that the words beside them say.
func TestSeasonsAreDrawnInAnyLanguage(t *testing.T) {
	t.Cleanup(func() { say.Use("", nil) })
	for _, texts := range []map[string]string{nil, {"Driest season": "Trockenste Jahreszeit", "Dampest season": "Feuchteste Jahreszeit"}} {
		say.Use("de", texts)
		in := load(t, demo(t), A4, faces(t))
		for _, p := range in.Panels {
			if len(p.Ends) != 2 || p.Ends[0].Season != say.T("Driest season") || p.Ends[1].Season != say.T("Dampest season") {
				t.Fatalf("%s: %d seasons are drawn", p.Panel.ID, len(p.Ends))
			}
			dry, wet, ok := kept.session(t, demo(t)).YearCup(p.Panel.ID)
			if !ok || p.Ends[0].View.Bow != dry || p.Ends[1].View.Bow != wet {
				t.Errorf("%s: drawn with a bow of %g and %g, want %g and %g", p.Panel.ID, p.Ends[0].View.Bow, p.Ends[1].View.Bow, dry, wet)
			}
		}
	}
}
