package session

import (
	"context"
	"math"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/depth"
	"heartside/model"
)

// sapShelf is one strip of a board 20 mm thick in a panel of 16 mm. The sapwood
// lies along the marked edge, 65 mm wide on face 1; face 2 has none. With 1.5 mm
// for after glue-up, 2.5 of the 4 mm come off before, and the show face lies at
// z = share x 2.5 + 0.75. By the rule of distances the line is there at y with
// (1 - z/20)(65 - y) = 40 z/20, so it moves by 40 z / (20 - z).
func sapShelf(wanted model.Wanted) *model.Project {
	p := model.NewProject()
	p.Allowances.AfterGlue = 1.5
	b := model.NewBoard("A", "walnut-black", 1000, 220, 20)
	for i := range b.Faces {
		b.Faces[i] = model.Face{Known: true, Base: model.Heart}
	}
	b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.R(0, 0, 1000, 65).Polygon()}}
	p.Boards = []*model.Board{b}
	n := model.NewPanel("shelf", model.RoleShelf, 900, 200, 16)
	n.Wanted = wanted
	n.Strips = []model.Strip{{ID: "A1", Board: "A", X: 30, Y: 5, L: 930, W: 210, Up: 1, Stage: model.Planned}}
	p.Panels = []*model.Panel{n}
	return p
}

// lineAt is how far the line of sapShelf has moved at depth z, by hand:
// z = 0.75 1.5584, 1.375 2.9530, 2 4.4444, 2.625 6.0432, 3.25 7.7612.
var lineAt = [5]float64{1.5584, 2.9530, 4.4444, 6.0432, 7.7612}

func closeTo(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

func TestWhatPlaningDoesToAStrip(t *testing.T) {
	s := New(sapShelf(model.WantHeart), Options{})
	list := s.StripPlanings("shelf")
	if len(list) != 1 {
		t.Fatalf("%+v", list)
	}
	k := list[0]
	if k.Stock.Off != [2]float64{1.25, 1.25} || k.Stock.After != 1.5 || k.Stock.Chosen || k.Stock.Thickness != 20 || k.Stock.Finished != 16 {
		t.Errorf("stock %+v", k.Stock)
	}
	// 10 mm of the board lie before the panel's front edge.
	closeTo(t, "sawn", k.Sawn, 55.0/200, 1e-9)
	closeTo(t, "finished", k.Finished, (55-lineAt[2])/200, 1e-5)
	closeTo(t, "the line moves", k.Move, lineAt[2], 1e-3)
	if !k.Known || k.Note.How != depth.Between || k.Show != "face 1" {
		t.Errorf("%+v", k)
	}
	if w := s.HowKnown(k.Note); !strings.HasPrefix(w, "worked out from both faces") {
		t.Errorf("in words: %s", w)
	}
}

// What is taken off adds up to what the readings take off, whoever chose it.
func TestStockAddsUpToWhatIsRead(t *testing.T) {
	for _, off := range []*[2]float64{nil, {2.5, 0}, {0, 2.5}, {1, 0.5}, {6, 2}, {4, 0}} {
		p := sapShelf(model.WantHeart)
		p.Panels[0].Strips[0].Off = off
		s := New(p, Options{})
		fp := s.Panel("shelf")
		want := fp.Strips[0].Taken(16)
		k := s.StripPlanings("shelf")[0].Stock
		got := k.Taken()
		for i := range got {
			closeTo(t, "off a face", got[i], want[i], 1e-9)
		}
		closeTo(t, "all", k.All(), 4, 1e-9)
	}
}

func planings(t *testing.T, s *Session) *Planings {
	t.Helper()
	got, err := s.Planings("shelf")(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// The light share of each choice, worked by hand; heartwood wanted, most comes
// off the face with the sapwood, and one undo takes a choice back.
func TestChoiceOfTheFaceTheStockComesOff(t *testing.T) {
	s := New(sapShelf(model.WantHeart), Options{})
	p := planings(t, s)
	x := &p.Strips[0]
	for i := range lineAt {
		closeTo(t, "strip", x.Light[i], (55-lineAt[i])/200, 1e-4) // depths are kept in hundredths
		closeTo(t, "panel", p.Light[i], (55-lineAt[i])/200, 1e-4)
	}
	if x.Now != 2 || p.Now != 2 || x.Best != 4 || p.Best != 4 || x.Why != "" {
		t.Errorf("now %d, best %d (%s)", x.Now, x.Best, x.Why)
	}
	e, ok := s.PlaneEdit(p, "A1", 4)
	if !ok || s.Commit(e) != nil {
		t.Fatal("all off the show face cannot be chosen")
	}
	if got := s.Project().Panels[0].Strips[0].Off; got == nil || *got != [2]float64{2.5, 0} {
		t.Errorf("off %v", got)
	}
	closeTo(t, "the reading", s.Reading("shelf").Show.Light.Value, (55-lineAt[4])/200, 1e-5)
	if s.Renew(p); x.Now != 4 || p.Now != 4 {
		t.Errorf("now %d", x.Now)
	}
	if _, again := s.PlaneEdit(p, "", 4); again {
		t.Error("the same choice is a change")
	}
	s.Undo()
	if undo, _ := s.Depth(); undo != 0 || s.Project().Panels[0].Strips[0].Off != nil {
		t.Error("one undo does not take the choice back")
	}
}

// With sapwood wanted nothing comes off that face; with both wanted none is best.
func TestBestChoiceIsOfTheWantedWood(t *testing.T) {
	if p := planings(t, New(sapShelf(model.WantSap), Options{})); p.Strips[0].Best != 0 || p.Best != 0 {
		t.Errorf("sapwood wanted: %d, %d", p.Strips[0].Best, p.Best)
	}
	if p := planings(t, New(sapShelf(model.WantBoth), Options{})); p.Strips[0].Best != -1 || p.Best != -1 {
		t.Errorf("both wanted: %d, %d", p.Strips[0].Best, p.Best)
	}
}

// Rolled over, the face that shows has no sapwood, and all off it is 2.5 mm off
// face 2. At most 3.25 mm below it the other face's line stays at
// (1 - z/20) 65 ... on the show face none: 40 z'/20 with z' = 16.75 is more than
// any (65 - y) x 3.25/20 can make up for.
func TestTheOtherFaceUp(t *testing.T) {
	p := sapShelf(model.WantHeart)
	p.Panels[0].Strips[0].Up = 2
	s := New(p, Options{})
	got := planings(t, s)
	e, ok := s.PlaneEdit(got, "", 4)
	if !ok || s.Commit(e) != nil {
		t.Fatal("not chosen")
	}
	if off := s.Project().Panels[0].Strips[0].Off; off == nil || *off != [2]float64{0, 2.5} {
		t.Errorf("off %v", off)
	}
	if x := got.Strips[0]; x.Best != -1 || x.Light != [5]float64{} {
		t.Errorf("%+v", x)
	}
}

// Nothing is offered where nothing can be chosen, and it is said why.
func TestWhyNothingCanBeChosen(t *testing.T) {
	for want, change := range map[string]func(*model.Project){
		"no thicker than the panel":         func(p *model.Project) { p.Panels[0].Thickness = 20 },
		"all of it comes off after glue-up": func(p *model.Project) { p.Panels[0].Thickness = 18.5 },
		"planed already":                    func(p *model.Project) { p.Panels[0].Strips[0].Stage = model.Planed },
		"its faces are not known":           func(p *model.Project) { p.Boards[0].Faces[1].Known = false },
	} {
		p := sapShelf(model.WantHeart)
		change(p)
		s := New(p, Options{})
		got := planings(t, s)
		if got.Strips[0].Why != want || got.Best != -1 {
			t.Errorf("%q, want %q", got.Strips[0].Why, want)
		}
		if _, ok := s.PlaneEdit(got, "", 4); ok {
			t.Errorf("%s: it can be chosen", want)
		}
	}
}

// A slider half way: 1 mm off each face, the line of the show face at z = 1:
// 40/19 = 2.1053 from where it was. Sawn and finished are told as such, and
// readings do not move.
func TestDepthView(t *testing.T) {
	s := New(sapShelf(model.WantHeart), Options{})
	before := s.Reading("shelf").Show.Light.Value
	v := s.DepthView("shelf", "A", "A1", 0.5)
	if v.Why != "" || v.Panel == nil || v.Hand == nil {
		t.Fatalf("%+v", v)
	}
	r := face.ReadFull(v.Panel)
	closeTo(t, "half way", r.Show.Light.Value, (55-40.0/19)/200, 1e-5)
	if v.Says != "1 mm off face 1, 1 mm off face 2: 18 mm left" {
		t.Errorf("says %q", v.Says)
	}
	if v.PanelBadge == "" {
		t.Errorf("%+v", v)
	}
	if v = s.DepthView("shelf", "A", "A1", 0); v.Says != "Sawn: 20 mm" || v.PanelBadge == "" || v.Hand != s.Board("A") {
		t.Errorf("sawn: %+v", v)
	}
	if v = s.DepthView("shelf", "A", "A1", 1); v.Says != "Finished: 16 mm" || v.PanelBadge != "" {
		t.Errorf("finished: %+v", v)
	}
	if now := s.Reading("shelf").Show.Light.Value; now != before {
		t.Errorf("the reading moved from %g to %g", before, now)
	}
}

func TestDepthViewSaysWhyNot(t *testing.T) {
	p := sapShelf(model.WantHeart)
	p.Panels[0].Thickness = 20
	if v := New(p, Options{}).DepthView("shelf", "A", "", 0.5); v.Panel != nil || !strings.Contains(v.Why, "no thicker") {
		t.Errorf("%+v", v)
	}
	p = sapShelf(model.WantHeart)
	p.Boards[0].Faces[1].Known = false
	if v := New(p, Options{}).DepthView("shelf", "A", "", 0.5); v.Panel != nil || !strings.Contains(v.Why, "Both faces of board A must be known") {
		t.Errorf("%+v", v)
	}
	p = sapShelf(model.WantHeart)
	p.Panels[0].Strips = nil
	if v := New(p, Options{}).DepthView("shelf", "", "", 0.5); !strings.Contains(v.Why, "No strip lies on a board") {
		t.Errorf("%+v", v)
	}
}

// In the background nothing waits: the view shows what was there, and what was
// asked for last comes after OnDepth was called.
func TestDepthViewDoesNotWait(t *testing.T) {
	jobs := make(chan func(), 100)
	s := New(sapShelf(model.WantHeart), Options{Post: func(f func()) { jobs <- f }})
	defer s.Close()
	called := false
	s.OnDepth(func() { called = true })
	for _, done := range []float64{0.25, 0.75, 0.5} {
		s.DepthView("shelf", "A", "A1", done)
	}
	closeTo(t, "before it is there", face.ReadFull(s.DepthView("shelf", "A", "A1", 0.5).Panel).Show.Light.Value, 55.0/200, 0.02)
	for {
		select {
		case f := <-jobs:
			f()
		case <-t.Context().Done():
			t.Fatal("never there")
		}
		v := s.DepthView("shelf", "A", "A1", 0.5)
		if called && math.Abs(face.ReadFull(v.Panel).Show.Light.Value-(55-40.0/19)/200) < 1e-5 {
			return
		}
	}
}

func TestPlaningSection(t *testing.T) {
	sec := func(p *model.Project) Section {
		t.Helper()
		for _, x := range New(p, Options{}).Behaviour("shelf").Sections {
			if x.ID == "planing" {
				return x
			}
		}
		t.Fatal("no section")
		return Section{}
	}
	x := sec(sapShelf(model.WantHeart))
	rows := ""
	for _, r := range x.Rows {
		rows += r.Name + "|" + strings.Join(r.Values, "|") + "\n"
	}
	for _, want := range []string{"A1|20|1.3|1.3|1.5|16\n", "A1: A, face 1|28 %|25 %|4.4 mm\n"} {
		if !strings.Contains(rows, want) {
			t.Errorf("%q is not in\n%s", want, rows)
		}
	}
	how := ""
	for _, h := range x.How {
		how += h.Formula + "\n"
	}
	if !strings.Contains(how, "(1 - z/T) d1 + (z/T) d2 > 0") || !strings.Contains(how, "40 mm") {
		t.Errorf("the formula is not told: %s", how)
	}
	p := sapShelf(model.WantHeart)
	p.Panels[0].Thickness = 20
	if x = sec(p); !strings.Contains(x.Lead, "no thicker than the panel") {
		t.Errorf("lead %q", x.Lead)
	}
}
