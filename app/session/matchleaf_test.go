package session

import (
	"context"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// twins are boards A and B of 1000 x 200, cut 1 and 2 of one log. Face 2 of A
// and face 1 of B, which touched, have sapwood of 20 + 0.02 x and of 22 + 0.02 x
// along the marked edge. Face 1 of A is light over 90 mm, face 2 of B not at
// all, so that no other two faces agree as well. A1 shows face 2; behind it is
// an empty place.
func twins() *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	for i, id := range []string{"A", "B"} {
		b := model.NewBoard(id, "walnut-black", 1000, 200, 25)
		b.Log = &model.Log{Name: "L1", Order: i + 1}
		b.Faces[0] = model.Face{Known: true, Base: model.Heart}
		b.Faces[1] = model.Face{Known: true, Base: model.Heart}
		p.Boards = append(p.Boards, b)
	}
	sap := func(f *model.Face, poly ...geom.Point) {
		f.Zones = append(f.Zones, model.Zone{Kind: model.Sap, Polygon: poly})
	}
	sap(&p.Boards[0].Faces[0], geom.Pt(0, 110), geom.Pt(1000, 110), geom.Pt(1000, 200), geom.Pt(0, 200))
	sap(&p.Boards[0].Faces[1], geom.Pt(0, 180), geom.Pt(1000, 160), geom.Pt(1000, 200), geom.Pt(0, 200))
	sap(&p.Boards[1].Faces[0], geom.Pt(0, 0), geom.Pt(1000, 0), geom.Pt(1000, 42), geom.Pt(0, 22))
	m := model.NewPanel("top", model.RoleTop, 860, 220, 20)
	m.Strips = []model.Strip{{ID: "A1", Board: "A", X: 50, Y: 10, L: 900, W: 120, Up: 2}, model.NewPlace("9", 900, 120)}
	p.Panels = append(p.Panels, m)
	return p
}

func leaves(t *testing.T, p *model.Project, strip string) (*Session, Matches) {
	t.Helper()
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	q, err := s.Leaves("top", strip)
	if err != nil {
		t.Fatal(err)
	}
	return s, q.Run(context.Background())
}

func oneMatch(t *testing.T, list []Match, title string) *Match {
	t.Helper()
	for i := range list {
		if list[i].Title == title {
			return &list[i]
		}
	}
	t.Fatalf("there is no %q in %+v", title, list)
	return nil
}

// Two faces that touch see each other mirrored, and face 2 has y from the other
// edge: what lies at (x, y) of A, in face-1 coordinates, lay at (x, y) of B. So
// the book match is sawn at (50, 10) of B and shows face 1. The sap lines are 2
// mm off. A1 with face 2 up has its marked edge behind, and there the strip
// behind it has its own: 20 + 0.02 x - 10 and 22 + 0.02 x - 10 at x = 500, in
// the middle of both, make 42.
func TestBookMatchFromTheSibling(t *testing.T) {
	s, got := leaves(t, twins(), "A1")
	if len(got.List) != 4 {
		t.Fatalf("%d matches, %q", len(got.List), got.Why)
	}
	m := oneMatch(t, got.List, "Book match from board B, behind A1")
	around(t, "the mean", m.Mean, 2, 1e-6)
	around(t, "the greatest", m.Greatest, 2, 1e-6)
	around(t, "the band", m.Width, 42, 1e-6)
	if !strings.HasPrefix(m.Text, "The sap lines are off the exact mirror image by 2 mm on the mean, 2 mm at most. At the joint they make a light band of 42 mm.") {
		t.Errorf("it says %q", m.Text)
	}
	if !strings.HasPrefix(m.Assumed, "Assumed: face 2 of board A lay on face 1 of board B, the marked ends together.") {
		t.Errorf("assumed: %q", m.Assumed)
	}
	l := m.Lays[0]
	if l.For != "in the place of the empty place 2" || l.Change != "cut a strip from board B, 50 mm from the marked end and 10 mm from the marked edge" || len(l.Told) != 0 {
		t.Errorf("for %q: %q; %q", l.For, l.Change, l.Told)
	}
	if err := s.Commit(l.Edit); err != nil {
		t.Fatal(err)
	}
	st := s.Committed().Panel("top").Strips
	if len(st) != 2 || st[1].Board != "B" || st[1].X != 50 || st[1].Y != 10 || st[1].Up != 1 || st[1].Turned || st[1].L != 900 || st[1].W != 120 {
		t.Errorf("the panel lies as %+v", st)
	}
	if n, _ := s.Depth(); n != 1 {
		t.Errorf("%d steps", n)
	}
	// Asked again, the strip is there.
	q, _ := s.Leaves("top", "A1")
	again := q.Run(context.Background())
	if m := oneMatch(t, again.List, "Book match from board B, behind A1"); !m.Same {
		t.Errorf("as it lies now: %q", m.Lays[0].Change)
	}
}

// A strip of the sibling that is planned elsewhere is sawn there instead. Where
// that wood is taken already, it is told.
func TestLeafMovesAPlannedStrip(t *testing.T) {
	p := twins()
	p.Panels[0].Strips[1] = model.Strip{ID: "B1", Board: "B", X: 40, Y: 70, L: 900, W: 120, Up: 2}
	other := model.NewPanel("shelf", model.RoleShelf, 500, 60, 20)
	other.Strips = []model.Strip{{ID: "B2", Board: "B", X: 300, Y: 6, L: 540, W: 50, Up: 1}}
	p.Panels = append(p.Panels, other)
	s, got := leaves(t, p, "A1")
	l := oneMatch(t, got.List, "Book match from board B, behind A1").Lays[0]
	if l.For != "strip B1, sawn there instead" || l.Change != "saw B1 from board B, 50 mm from the marked end and 10 mm from the marked edge" {
		t.Errorf("for %q: %q", l.For, l.Change)
	}
	if len(l.Told) != 1 || !strings.HasPrefix(l.Told[0], "Cut from the same wood") {
		t.Errorf("told %q", l.Told)
	}
	if err := s.Commit(l.Edit); err != nil {
		t.Fatal(err)
	}
	if st := s.Committed().Panel("top").Strips; st[1].ID != "B1" || st[1].Y != 10 || st[1].Up != 1 || len(s.Committed().Spares) != 0 {
		t.Errorf("the panel lies as %+v", st)
	}
	// One that is sawn stays: a new strip, and the sawn one makes room.
	p = twins()
	p.Panels[0].Strips[1] = model.Strip{ID: "B1", Board: "B", X: 40, Y: 70, L: 900, W: 120, Up: 2, Stage: model.Sawn}
	_, got = leaves(t, p, "A1")
	if l := oneMatch(t, got.List, "Book match from board B, behind A1").Lays[0]; l.For != "in the place of strip B1" || len(l.Told) == 0 {
		t.Errorf("for %q, told %q", l.For, l.Told)
	}
}

// A strip that shows the other face is rolled over for a book match, and
// slipped as it lies.
func TestBookMatchRollsTheStripOver(t *testing.T) {
	p := twins()
	p.Panels[0].Strips[0].Up = 1
	_, got := leaves(t, p, "A1")
	if m := oneMatch(t, got.List, "Book match from board B, behind A1"); !strings.HasPrefix(m.Lays[0].Change, "roll over A1; cut a strip") {
		t.Errorf("%q", m.Lays[0].Change)
	}
	m := oneMatch(t, got.List, "Slip match from board B, in front of A1")
	if strings.Contains(m.Lays[0].Change, "roll") || m.Pair.Strips[0].Board.ID != "B" || m.Pair.Strips[0].Up != 1 {
		t.Errorf("%q, %+v", m.Lays[0].Change, m.Pair.Strips[0])
	}
	p.Panels[0].Strips[0].Pinned = true
	_, got = leaves(t, p, "A1")
	for _, m := range got.List {
		if m.Kind == BookMatch {
			t.Error("a pinned strip is rolled over")
		}
	}
}

func TestWhyThereAreNoLeaves(t *testing.T) {
	p := twins()
	p.Boards[1].Log = nil
	if _, got := leaves(t, p, "A1"); !strings.Contains(got.Why, "No board here is the cut before or after board A, which is cut 1 of log L1") {
		t.Errorf("%q", got.Why)
	}
	p.Boards[0].Log = nil
	if _, got := leaves(t, p, "A1"); !strings.Contains(got.Why, "which log board A came from") {
		t.Errorf("%q", got.Why)
	}
	p = twins()
	p.Boards[1].Spoiled = true
	if _, got := leaves(t, p, "A1"); !strings.Contains(got.Why, "spoiled") {
		t.Errorf("%q", got.Why)
	}
	s := New(twins(), Options{})
	defer s.Close()
	if _, err := s.Leaves("top", "9"); err == nil {
		t.Error("an empty place has leaves")
	}
}
