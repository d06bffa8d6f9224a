package session

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// planks is a project with a panel of 900 by 20 mm less than n strips of 100
// and a board of 109 by 2000 for each name, as thick as the panel, so that the
// sawn faces show; nothing is drawn on them yet.
func planks(names ...string) *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5}
	m := model.NewPanel("top", model.RoleTop, 900, 100*float64(len(names))-20, 25)
	for _, id := range names {
		b := model.NewBoard(id, "walnut-black", 2000, 109, 25)
		b.Faces[0] = model.Face{Known: true, Base: model.Heart}
		b.Faces[1] = model.Face{Known: true, Base: model.Heart}
		p.Boards = append(p.Boards, b)
		m.Strips = append(m.Strips, model.Strip{ID: id + "1", Board: id, X: 30, Y: 4.5, L: 940, W: 100, Up: 1})
	}
	p.Panels = append(p.Panels, m)
	return p
}

// nearSap draws sapwood along the marked edge of face 1 that is w0 + k x wide
// of the strips of planks, which begin 4.5 mm in.
func nearSap(p *model.Project, board string, w0, k float64) {
	b := p.Board(board)
	b.Faces[0].Zones = append(b.Faces[0].Zones, model.Zone{Kind: model.Sap, Polygon: geom.Polygon{
		{X: 0, Y: 0}, {X: b.Length, Y: 0}, {X: b.Length, Y: 4.5 + w0 + k*b.Length}, {X: 0, Y: 4.5 + w0}}})
}

// farSap is the same along the other edge.
func farSap(p *model.Project, board string, w0, k float64) {
	b := p.Board(board)
	b.Faces[0].Zones = append(b.Faces[0].Zones, model.Zone{Kind: model.Sap, Polygon: geom.Polygon{
		{X: 0, Y: 104.5 - w0}, {X: b.Length, Y: 104.5 - w0 - k*b.Length}, {X: b.Length, Y: 109}, {X: 0, Y: 109}}})
}

func matched(t *testing.T, p *model.Project, ask func(*MatchSearch)) (*Session, Matches) {
	t.Helper()
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	q, err := s.Matches("top")
	if err != nil {
		t.Fatal(err)
	}
	if ask != nil {
		ask(q)
	}
	return s, q.Run(context.Background())
}

func inOrder(p *face.Panel) string {
	var out []string
	for i := range p.Strips {
		out = append(out, p.Strips[i].ID)
	}
	return strings.Join(out, " ")
}

func around(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s is %.4g, want %.4g", what, got, want)
	}
}

// Two wedges, by hand: at x from the marked end A has 10 + 0.04 x along its
// other edge and B 26 + 0.04 x along its marked edge. Both strips begin at x =
// 30, so A has to be sawn (26 - 10) / 0.04 = 400 mm further on. Then both
// have 26 + 0.04 (30 + s), in the middle (s = 470) 46 mm, together 92. A's other
// edge is its back one with face 1 up, B's marked edge its front one, so A lies
// in front of B.
func TestTwoWedges(t *testing.T) {
	p := planks("B", "A")
	farSap(p, "A", 10, 0.04)
	nearSap(p, "B", 26, 0.04)
	s, got := matched(t, p, nil)
	if len(got.List) != 1 || got.More != 0 || got.Why != "" {
		t.Fatalf("%d pairs, %d more, %q", len(got.List), got.More, got.Why)
	}
	m := got.List[0]
	if m.Title != "A1's back edge to B1's front edge" || m.Kind != EdgeMatch || m.Same {
		t.Errorf("it is called %q, same %v", m.Title, m.Same)
	}
	around(t, "the band", m.Width, 92, 0.01)
	around(t, "the mean difference", m.Mean, 0, 0.01)
	if m.Text != "A light band of 92 mm. Its halves differ by 0 mm on the mean, 0 mm at most, and agree along 100 % of the joint." {
		t.Errorf("it says %q", m.Text)
	}
	if inOrder(m.Pair) != "A1 B1" || m.Pair.Width != 200 {
		t.Errorf("the picture shows %s, %g wide", inOrder(m.Pair), m.Pair.Width)
	}
	l := m.Lays[0]
	if l.Change != "move A1 and B1; slide A1 400 mm away from the marked end of its board" || len(m.Lays) != 1 || l.For != "" {
		t.Errorf("%d ways, the first %q for %q", len(m.Lays), l.Change, l.For)
	}
	if err := s.Commit(l.Edit); err != nil {
		t.Fatal(err)
	}
	strips := s.Committed().Panel("top").Strips
	if strips[0].ID != "A1" || strips[1].ID != "B1" || strips[0].X != 430 || strips[1].X != 30 || strips[0].Turned || strips[1].Turned {
		t.Errorf("the panel lies as %+v", strips)
	}
	if r := s.Reading("top"); math.Abs(r.Show.Light.Value-l.After.Light) > 1e-9 || r.Show.Coverage != l.After.Coverage {
		t.Errorf("sapwood %.4f, said %.4f", r.Show.Light.Value, l.After.Light)
	}
	if n, _ := s.Depth(); n != 1 || s.UndoLabel() != "Lay A1 and B1 side by side" {
		t.Errorf("%d steps, %q", n, s.UndoLabel())
	}
	// Asked again, they lie so now.
	q, _ := s.Matches("top")
	if again := q.Run(context.Background()); len(again.List) != 1 || !again.List[0].Same || again.List[0].Lays[0].Change != "" {
		t.Errorf("as it lies now: %+v", again.List)
	}
	s.Undo()
	if inOrder(s.Panel("top")) != "B1 A1" {
		t.Error("it cannot be taken back")
	}
}

// The same wedges planed from 25 to 20 mm, 2.5 off each face. The other faces are
// all heart, so each line moves by 40 x 0.1 / 0.9 = 4.444 mm and the band is
// narrower by twice that.
func TestEdgesMatchAsPlaned(t *testing.T) {
	p := planks("B", "A")
	p.Panels[0].Thickness = 20
	farSap(p, "A", 10, 0.04)
	nearSap(p, "B", 26, 0.04)
	_, got := matched(t, p, nil)
	if len(got.List) != 1 {
		t.Fatalf("%d pairs, %q", len(got.List), got.Why)
	}
	around(t, "the band", got.List[0].Width, 92-2*40.0/9, 0.01)
}

// A sawn strip slides no more, and the other has no room worth a slide: its
// blank, from 5 to 995 of a board of 1000, has 5 mm either way, which is 0.2 mm
// in width. The wedges differ by 16.
func TestSawnStripsDoNotSlide(t *testing.T) {
	p := planks("B", "A")
	farSap(p, "A", 10, 0.04)
	nearSap(p, "B", 26, 0.04)
	p.Panels[0].Strips[1].Stage = model.Sawn
	b := p.Board("B")
	b.Length = 1000
	b.Faces[0].Zones[0].Polygon = geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 70.5}, {X: 0, Y: 30.5}}
	_, got := matched(t, p, nil)
	if len(got.List) != 0 || !strings.Contains(got.Why, "The nearest miss is A1's back edge to B1's front edge: the widths differ by up to 16 mm") ||
		!strings.Contains(got.Why, "No two edges agree within 4 mm") || math.Abs(got.Need-16) > 1e-9 {
		t.Fatalf("%d pairs; %q", len(got.List), got.Why)
	}
	_, got = matched(t, p, func(q *MatchSearch) { q.Tolerance = 16 })
	if len(got.List) != 1 || got.List[0].Lays[0].Change != "move A1 and B1" {
		t.Errorf("with that tolerance: %+v", got)
	}
}

func TestWhyNothingMatches(t *testing.T) {
	p := planks("A", "B")
	_, got := matched(t, p, nil)
	if !strings.Contains(got.Why, "No strip carries light wood along a long edge") {
		t.Errorf("all heartwood: %q", got.Why)
	}
	p = planks("A", "B")
	nearSap(p, "A", 20, 0)
	nearSap(p, "B", 3, 0)
	_, got = matched(t, p, nil)
	if !strings.Contains(got.Why, "no two of them carry 5 mm or more") {
		t.Errorf("20 and 3 mm: %q", got.Why)
	}
	p.Panels[0].Wanted = model.WantBoth
	_, got = matched(t, p, nil)
	if !strings.Contains(got.Why, "Both kinds of wood are welcome") {
		t.Errorf("both wanted: %q", got.Why)
	}
	p = planks("A", "B")
	p.Panels[0].Strips[1] = model.NewPlace("2", 940, 100)
	if _, got = matched(t, p, nil); !strings.Contains(got.Why, "takes two strips") {
		t.Errorf("one strip: %q", got.Why)
	}
	if _, err := New(p, Options{}).Matches("none"); err == nil {
		t.Error("a panel that is not there")
	}
}

// A1 has 20 mm along its other edge and B1 21 along the marked one; C1 has none.
// B1 is pinned in the middle of C1, B1, A1: A1 comes to the front for C1.
func TestPinnedStaysWhereItIs(t *testing.T) {
	p := planks("C", "B", "A")
	farSap(p, "A", 20, 0)
	nearSap(p, "B", 21, 0)
	p.Panels[0].Strips[1].Pinned = true
	s, got := matched(t, p, nil)
	if len(got.List) != 1 || inOrder(got.List[0].Lays[0].Panel) != "A1 B1 C1" || got.List[0].Lays[0].Change != "move A1 and C1" {
		t.Fatalf("%+v", got)
	}
	if err := s.Commit(got.List[0].Lays[0].Edit); err != nil {
		t.Fatal(err)
	}
	// Pinned at the front, nothing comes before it.
	p = planks("B", "C", "A")
	farSap(p, "A", 20, 0)
	nearSap(p, "B", 21, 0)
	p.Panels[0].Strips[0].Pinned = true
	if _, got = matched(t, p, nil); len(got.List) != 0 || !strings.Contains(got.Why, "pinned") {
		t.Errorf("%+v", got)
	}
}

// Face 2 of B has 21 mm along its marked edge, which is the upper one as seen:
// B is rolled over. As it lies with face 1 up that edge is its front one, and
// rolled over its back one, which has to meet A's front edge: A behind B, or
// turned both.
func TestRolledOver(t *testing.T) {
	p := planks("B", "A")
	nearSap(p, "A", 20, 0)
	b := p.Board("B")
	b.Faces[1].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 109}, {X: 0, Y: 109 - 25.5}, {X: 2000, Y: 109 - 25.5}, {X: 2000, Y: 109}}}}
	s, got := matched(t, p, nil)
	if len(got.List) != 1 || got.List[0].Lays[0].Change != "roll over B1" || got.List[0].Lays[0].Panel.Strips[0].Up != 2 {
		t.Fatalf("%+v", got)
	}
	// The edge that meets A's is told as it lies now.
	if got.List[0].Title != "B1's front edge to A1's front edge" {
		t.Errorf("it is called %q", got.List[0].Title)
	}
	around(t, "the mean difference", got.List[0].Mean, 1, 1e-6)
	around(t, "the band", got.List[0].Width, 41, 1e-6)
	if err := s.Commit(got.List[0].Lays[0].Edit); err != nil {
		t.Fatal(err)
	}
	if j := s.Reading("top").Joints[0]; math.Abs(j.FrontW[1]-21) > 1e-6 || math.Abs(j.RearW[1]-20) > 1e-6 {
		t.Errorf("the joint reads %v and %v", j.FrontW, j.RearW)
	}
}

// The spare A1 goes with B1 in the middle. It comes in for the neighbour, for
// the strip beyond, or as one strip more; what leaves is a spare then.
func TestSpareComesIn(t *testing.T) {
	p := planks("C", "B", "D", "A")
	farSap(p, "A", 20, 0)
	nearSap(p, "B", 21, 0)
	m := p.Panels[0]
	m.Width = 280
	p.Spares = []model.Strip{m.Strips[3]}
	m.Strips = m.Strips[:3]
	s, got := matched(t, p, nil)
	if len(got.List) != 1 || got.List[0].Title != "spare A1's edge at the other side to B1's front edge" {
		t.Fatalf("%+v", got)
	}
	var says []string
	for i := range got.List[0].Lays {
		l := &got.List[0].Lays[i]
		l.Weigh()
		says = append(says, l.For+": "+inOrder(l.Panel))
		if _, err := model.Apply(s.Committed(), l.Edit); err != nil {
			t.Error(err)
		}
	}
	want := []string{"in the place of strip C1: A1 B1 D1", "in the place of strip D1: C1 A1 B1", "one strip more: C1 A1 B1 D1"}
	if !slices.Equal(says, want) {
		t.Errorf("ways:\n%s\nwant\n%s", strings.Join(says, "\n"), strings.Join(want, "\n"))
	}
	l := got.List[0].Lays[0]
	if l.Change != "take in spare A1; put C1 among the spares" {
		t.Errorf("change %q", l.Change)
	}
	if err := s.Commit(l.Edit); err != nil {
		t.Fatal(err)
	}
	if q := s.Committed(); len(q.Spares) != 1 || q.Spares[0].ID != "C1" || len(q.Panels[0].Strips) != 3 {
		t.Errorf("spares %+v", q.Spares)
	}
	s.Undo()
	if q := s.Committed(); q.Spares[0].ID != "A1" || q.Panels[0].Strips[0].ID != "C1" {
		t.Error("one undo does not bring it back")
	}
	// An empty place is filled before any strip is sent away.
	p = planks("C", "B", "D", "A")
	farSap(p, "A", 20, 0)
	nearSap(p, "B", 21, 0)
	m = p.Panels[0]
	m.Width = 280
	p.Spares = []model.Strip{m.Strips[3]}
	m.Strips = []model.Strip{m.Strips[0], m.Strips[1], model.NewPlace("9", 940, 100)}
	if _, got = matched(t, p, nil); got.List[0].Lays[0].For != "in the place of the empty place 3" {
		t.Errorf("an empty place: %q", got.List[0].Lays[0].For)
	}
}

// Sliding A by 400 mm would lay its blank over that of another panel's strip
// at 1000 to 1500 of the same board: it may not come nearer than the kerf.
func TestSlideStopsAtOtherStrips(t *testing.T) {
	p := planks("B", "A")
	farSap(p, "A", 10, 0.04)
	nearSap(p, "B", 26, 0.04)
	q := model.NewPanel("shelf", model.RoleShelf, 400, 80, 20)
	q.Strips = []model.Strip{{ID: "A2", Board: "A", X: 1100, Y: 4.5, L: 440, W: 100, Up: 1}}
	p.Panels = append(p.Panels, q)
	_, got := matched(t, p, func(q *MatchSearch) { q.Tolerance = 20 })
	// A's blank ends at 995, the other begins at 1075: 1075 - 3 - 995 = 77.
	// B may slide back by its 5 mm, which is less.
	if len(got.List) != 1 || got.List[0].Lays[0].Change != "move A1 and B1; slide A1 77 mm away from the marked end of its board" || len(got.List[0].Lays[0].Told) != 0 {
		t.Fatalf("%+v", got.List[0].Lays[0])
	}
	around(t, "what is left", got.List[0].Mean, 16-0.04*77, 1e-6)
}

// A solid part holds its wood as a strip does: a rail at 1075 to 1480.
func TestSlideStopsAtSolidParts(t *testing.T) {
	p := planks("B", "A")
	farSap(p, "A", 10, 0.04)
	nearSap(p, "B", 26, 0.04)
	part := model.NewPart("rail", model.Rail, 1, 355, 90, 20)
	part.Places = []model.PartPlace{{Board: "A", X: 1100, Y: 9.5, L: 355, W: 90}}
	p.Parts = []model.Part{part}
	_, got := matched(t, p, func(q *MatchSearch) { q.Tolerance = 20 })
	if len(got.List) != 1 || !strings.Contains(got.List[0].Lays[0].Change, "slide A1 77 mm") {
		t.Fatalf("%+v", got)
	}
	// What is still to be cut from a spoiled board matches nothing.
	p.Boards[0].Spoiled = true
	if _, got = matched(t, p, nil); !strings.Contains(got.Why, "takes two strips") {
		t.Errorf("%q", got.Why)
	}
}

func TestOnlyOneStripsEdges(t *testing.T) {
	p := planks("A", "B", "C")
	for _, id := range []string{"A", "B", "C"} {
		nearSap(p, id, 20, 0)
	}
	_, all := matched(t, p, nil)
	_, one := matched(t, p, func(q *MatchSearch) { q.Strip = "C1" })
	if len(all.List) != 3 || len(one.List) != 2 {
		t.Fatalf("%d in all, %d of one", len(all.List), len(one.List))
	}
	for _, m := range one.List {
		if m.Front != "C1" && m.Rear != "C1" {
			t.Errorf("%s", m.Title)
		}
	}
}

func TestMatchesEndEarly(t *testing.T) {
	p := planks("A", "B")
	nearSap(p, "A", 20, 0)
	nearSap(p, "B", 20, 0)
	s := New(p, Options{})
	defer s.Close()
	q, _ := s.Matches("top")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if got := q.Run(ctx); len(got.List) != 0 || got.Why != "" {
		t.Errorf("%+v", got)
	}
}
