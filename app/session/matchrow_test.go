package session

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/face"
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
	// One cut parts them: nothing is left between two of a row.
	if len(r.Told) != 0 || r.Note != "" {
		t.Errorf("told %q, %q", r.Told, r.Note)
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
		if len(st) == 1 && st[0].Row != "1" {
			t.Errorf("%s lies in row %q", id, st[0].Row)
		}
		if got := overlaps(s, id); got != 0 {
			t.Errorf("%s: %d strips cut from the same wood", id, got)
		}
	}
	// Moved by a millimetre the middle one is cut by itself: it would need its
	// 25 mm at either end, and both its neighbours are told.
	st := s.Committed().Panel("middle").Strips[0]
	if err := s.Commit(model.PlaceStrip{Panel: "middle", Strip: st.ID, Board: "A", X: 429, Y: st.Y}); err != nil {
		t.Fatal(err)
	}
	for i, want := range []int{1, 2, 1} {
		if got := overlaps(s, w.Panels[i]); got != want {
			t.Errorf("%s: %d strips cut from the same wood, want %d", w.Panels[i], got, want)
		}
	}
	s.Undo()
	if got := overlaps(s, "middle"); got != 0 {
		t.Errorf("taken back: %d", got)
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

// overlaps counts what a panel is told of wood that is cut twice.
func overlaps(s *Session, panel string) int {
	n := 0
	for _, f := range s.fit() {
		if f.Panel == panel && f.Kind == face.PartsOverlap {
			n++
		}
	}
	return n
}

// An inch saw cuts 3.175 wide. The row is moved to where a rule can measure as
// one, so that no cut in it becomes narrower. A thinner saw than the project's
// is told, with what to do.
func TestRowKeepsItsCuts(t *testing.T) {
	p := drawers()
	p.Allowances.Kerf = 3.175
	s := New(p, Options{})
	defer s.Close()
	w, _ := s.RowWishOf()
	w.Board = "A"
	r, err := s.Row(w)
	if err != nil || len(r.Told) != 0 || len(r.Strips) != 3 {
		t.Fatalf("told %q, %v", r.Told, err)
	}
	for i := range 2 {
		if gap := r.Strips[i+1].X - r.Strips[i].X - r.Strips[i].L; math.Abs(gap-3.175) > 1e-6 {
			t.Errorf("the cut after front %d is %g wide", i+1, gap)
		}
	}
	if r.Strips[0].X != 25 {
		t.Errorf("it begins at %g", r.Strips[0].X)
	}
	w.Kerf, w.Gap = 1, 0
	if r, err = s.Row(w); err != nil || len(r.Told) != 2 || !strings.Contains(r.Note, "The saw of the project cuts 3.2 mm wide") {
		t.Errorf("a thin saw: told %q, note %q, %v", r.Told, r.Note, err)
	}
}
