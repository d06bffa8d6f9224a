package session

import (
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// drawers are three drawer fronts of 400, 300 and 400 by 150 and a board of
// 1300 x 200.
func drawers() *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5}
	b := model.NewBoard("A", "walnut-black", 1300, 200, 25)
	b.Faces[0] = model.Face{Known: true, Base: model.Heart}
	b.Faces[1] = model.Face{Known: true, Base: model.Heart}
	p.Boards = append(p.Boards, b)
	for i, id := range []string{"left", "middle", "right"} {
		m := model.NewPanel(id, model.RoleDrawerFront, []float64{400, 300, 400}[i], 150, 18)
		p.Panels = append(p.Panels, m)
	}
	p.Sets = []model.Set{{Name: "chest", Panels: []string{"left", "middle", "right"}, Gap: 2, Way: model.Along, Match: model.MatchInOrder}}
	return p
}

// By hand: 1100 mm of fronts, two cuts of 3 mm between them where the gap is 2,
// so the picture jumps 1 mm at each; 25 mm stay at both ends: 1156 of 1300.
// Across 150 with 5 mm over at each edge and 4.5 for jointing: 169 of 200. The
// fronts begin at 25, 428 and 731, at 4.5 from the marked edge.
func TestRowOfDrawerFronts(t *testing.T) {
	p := drawers()
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	s := New(p, Options{})
	defer s.Close()
	w, ok := s.RowWishOf()
	if !ok || w.Gap != 2 || w.Kerf != 3 || w.Across || strings.Join(w.Panels, " ") != "left middle right" {
		t.Fatalf("asked at first %+v", w)
	}
	w.Board = "A"
	r, err := s.Row(w)
	if err != nil {
		t.Fatal(err)
	}
	if !r.Enough || r.Need != "The row takes 1156 mm of the board's length of 1300 mm and 169 mm of its width of 200 mm." {
		t.Errorf("need %q", r.Need)
	}
	for i, want := range []float64{25, 428, 731} {
		if st := r.Strips[i]; st.X != want || st.Y != 4.5 || st.W != 160 || st.Up != 1 {
			t.Errorf("front %d at %g, %g, %g wide", i+1, st.X, st.Y, st.W)
		}
	}
	if r.Places[1] != "middle: 428 mm from the marked end, 4.5 mm from the marked edge; 300 mm by 160 mm" {
		t.Errorf("place %q", r.Places[1])
	}
	if len(r.Lost) != 2 || r.Lost[0] != "left and middle: 3 mm lost to the cut for a gap of 2 mm; the picture jumps by 1 mm." {
		t.Errorf("lost %q", r.Lost)
	}
	// What the project wants to be left at the ends of every blank is not there.
	if len(r.Told) != 2 || !strings.Contains(r.Told[0], "Cut from the same wood") || !strings.Contains(r.Note, "The project keeps 25 mm at each end of a blank") {
		t.Errorf("told %q", r.Told)
	}
	if err := s.Commit(r.Edit); err != nil {
		t.Fatal(err)
	}
	if n, _ := s.Depth(); n != 1 {
		t.Errorf("%d steps", n)
	}
	for i, id := range w.Panels {
		st := s.Committed().Panel(id).Strips
		if len(st) != 1 || st[0].Board != "A" || st[0].X != []float64{25, 428, 731}[i] {
			t.Errorf("%s: %+v", id, st)
		}
	}
	s.Undo()
	if len(s.Committed().Panel("left").Strips) != 0 {
		t.Error("it cannot be taken back")
	}
}

// With a gap of 5 the kerf is less than the gap and 2 mm more is cut away; a
// board of 1100 is 60 mm too short: 1100 + 2 x 5 + 50.
func TestRowThatDoesNotFit(t *testing.T) {
	p := drawers()
	p.Boards[0].Length = 1100
	s := New(p, Options{})
	defer s.Close()
	w := RowWish{Board: "A", Panels: []string{"left", "middle", "right"}, Gap: 5, Kerf: 3, Up: 1}
	r, err := s.Row(w)
	if err != nil || r.Enough || r.Edit != nil {
		t.Fatalf("%+v, %v", r, err)
	}
	if !strings.HasPrefix(r.Need, "Board A is 60 mm too short.") || !strings.Contains(r.Lost[0], "2 mm more is cut away so that the grain runs on") {
		t.Errorf("%q, %q", r.Need, r.Lost)
	}
	for _, c := range []struct {
		change func(*RowWish)
		want   string
	}{
		{func(w *RowWish) { w.Board = "Z" }, "choose the board"},
		{func(w *RowWish) { w.Panels = nil }, "choose the panels"},
		{func(w *RowWish) { w.Panels = []string{"left", "left"} }, "twice"},
		{func(w *RowWish) { w.Gap = -1 }, "0 or more"},
	} {
		x := w
		c.change(&x)
		if _, err := s.Row(x); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v", c.want, err)
		}
	}
}

// What else is cut from the board is passed by where there is room: a strip of
// a shelf whose blank takes the first 120 mm, to 4.5 + 3 beyond it along.
// A knot that cannot be passed by is told.
func TestRowPassesBy(t *testing.T) {
	p := drawers()
	p.Boards[0].Length = 2000
	q := model.NewPanel("shelf", model.RoleShelf, 60, 80, 18)
	q.Strips = []model.Strip{{ID: "A1", Board: "A", X: 25, Y: 10, L: 70, W: 90, Up: 1}}
	p.Panels = append(p.Panels, q)
	s := New(p, Options{})
	defer s.Close()
	w := RowWish{Board: "A", Panels: []string{"left", "middle", "right"}, Gap: 3, Kerf: 3, Up: 1}
	r, err := s.Row(w)
	if err != nil {
		t.Fatal(err)
	}
	// Its blank ends at 25 + 70 + 25 = 120, then a kerf and the 25 mm that the
	// row's own blank begins before its first front.
	if r.Strips[0].X != 148 {
		t.Errorf("the row begins at %g", r.Strips[0].X)
	}
	if len(r.Flaws) != 0 {
		t.Errorf("flaws %q", r.Flaws)
	}
	p = drawers()
	p.Boards[0].Length = 1200 // the row has 44 mm to spare
	p.Boards[0].Faces[0].Zones = []model.Zone{{Kind: model.Flaw, Polygon: geom.R(600, 80, 620, 100).Polygon()}}
	p.Panels[0].Strips = []model.Strip{{ID: "A1", Board: "A", X: 30, Y: 10, L: 430, W: 100, Up: 1, Stage: model.Sawn}, model.NewPlace("2", 430, 60)}
	s2 := New(p, Options{})
	defer s2.Close()
	r, err = s2.Row(w)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Flaws) != 1 || !strings.HasPrefix(r.Flaws[0], "middle: a flaw shows") {
		t.Errorf("flaws %q", r.Flaws)
	}
	if len(r.Leaves) != 1 || r.Leaves[0] != "Strip A1 of left is sawn already and goes to the spares." {
		t.Errorf("leaves %q", r.Leaves)
	}
	if err := s2.Commit(r.Edit); err != nil {
		t.Fatal(err)
	}
	if sp := s2.Committed().Spares; len(sp) != 1 || sp[0].ID != "A1" {
		t.Errorf("spares %+v", sp)
	}
}
