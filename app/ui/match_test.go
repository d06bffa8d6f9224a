package ui

import (
	"bytes"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/model"
)

// wedges is a top of two strips whose sapwood goes together once A1 lies in
// front of B1 and slides by 400 mm: at x from the marked end A has 10 + 0.04 x
// along its other edge and B 26 + 0.04 x along its marked one. The boards are
// cut 1 and 2 of one log, and as thick as the top: it is their sawn faces that show.
func wedges() *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	for i, id := range []string{"A", "B"} {
		b := model.NewBoard(id, "walnut-black", 2000, 109, 25)
		b.Log = &model.Log{Name: "L", Order: i + 1}
		b.Faces[0] = model.Face{Known: true, Base: model.Heart}
		b.Faces[1] = model.Face{Known: true, Base: model.Heart}
		p.Boards = append(p.Boards, b)
	}
	p.Boards[0].Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 94.5}, {X: 2000, Y: 14.5}, {X: 2000, Y: 109}, {X: 0, Y: 109}}}}
	p.Boards[1].Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 1900, Y: 0}, {X: 1900, Y: 106.5}, {X: 0, Y: 30.5}}}}
	m := model.NewPanel("top", model.RoleTop, 900, 190, 25)
	for _, id := range []string{"B", "A"} {
		m.Strips = append(m.Strips, model.Strip{ID: id + "1", Board: id, X: 30, Y: 4.5, L: 940, W: 100, Up: 1})
	}
	p.Panels = append(p.Panels, m)
	return p
}

// matchStage is a window with the page of edges that match.
type matchStage struct {
	arrangeStage
	m *matchPage
}

func matchAt(t *testing.T, s stage) *matchStage {
	t.Helper()
	out := &matchStage{arrangeStage: arrangeStage{stage: s}}
	out.m = s.showMatch()
	out.found(t)
	return out
}

// found waits for the end of the search.
func (s *matchStage) found(t *testing.T) {
	t.Helper()
	s.q.wait(t, "the matches", func() bool { return !s.m.running })
}

// images waits until every tile has its picture.
func (s *matchStage) images(t *testing.T) {
	t.Helper()
	s.q.wait(t, "the pictures", func() bool {
		for i, e := range s.m.entries {
			if tile := s.m.gallery.tiles[i]; tile.waits || tile.drawn != e.id {
				return false
			}
		}
		return true
	})
}

func TestMatchLaysAPairInOneStep(t *testing.T) {
	out := &bytes.Buffer{}
	base := open(t, wedges(), 100)
	base.trace.out = out
	if a := base.acts.find(ctrl(fyne.KeyM)); a == nil || a.ID != "match" || !a.can() {
		t.Fatal("Ctrl+M does not lead to the page")
	}
	s := matchAt(t, base)
	if len(s.m.entries) != 1 || s.m.entries[0].m.Title != "A1's back edge to B1's front edge" {
		t.Fatalf("%d entries, %q", len(s.m.entries), s.m.status())
	}
	if got := s.m.head.note.Text; got != "1 pair of edges agrees within 4 mm, the closest first." {
		t.Errorf("says %q", got)
	}
	if got := s.m.gallery.tiles[0].text.Text; !strings.Contains(got, "A light band of 92 mm.") || !strings.Contains(got, "Move A1 and B1; slide A1 400 mm away from the marked end of its board.") {
		t.Errorf("the tile says %q", got)
	}
	s.images(t)
	s.pressed(fyne.KeyReturn)
	s.found(t)
	s.lies(t, "A1", "B1")
	if s.lie(t, "A1").X != 430 || s.steps() != 1 || s.page != page(s.m) {
		t.Errorf("A1 at %g, %d steps", s.lie(t, "A1").X, s.steps())
	}
	if !s.m.entries[0].m.Same || s.m.gallery.at != 0 || !s.m.side.use.Disabled() || !strings.Contains(s.m.gallery.tiles[0].text.Text, "✓ They lie so now.") {
		t.Error("the pair is not shown as how it lies")
	}
	s.pressed(fyne.KeyReturn) // again: nothing to do
	if s.steps() != 1 {
		t.Error("laid twice")
	}
	s.act("undo")
	s.found(t)
	s.lies(t, "B1", "A1")
	s.pressed(fyne.KeyEscape)
	if s.page != nil || s.m.ctx.Err() == nil {
		t.Error("Escape does not go back")
	}
	for _, want := range []string{"trace: page match\n", "trace: matches edges=1 leaves=0\n", "trace: matched\n"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in the trace", want)
		}
	}
}

// What is typed as tolerance is searched with at once; what is no length is
// told and the pairs stay.
func TestToleranceIsFollowed(t *testing.T) {
	p := wedges()
	p.Panels[0].Strips[0].Stage, p.Panels[0].Strips[1].Stage = model.Sawn, model.Sawn // nothing slides: 16 mm apart
	s := matchAt(t, open(t, p, 100))
	if len(s.m.entries) != 0 || !strings.Contains(s.m.gallery.none.Text, "The nearest miss is A1's back edge to B1's front edge") || !s.m.gallery.near.Visible() {
		t.Fatalf("%d entries, %q", len(s.m.entries), s.m.head.note.Text)
	}
	s.typed("t")
	if s.win.Canvas().Focused() != fyne.Focusable(s.m.head.tolerance) {
		t.Fatal("T does not lead to the tolerance")
	}
	s.m.head.tolerance.SetText("16")
	s.found(t)
	if len(s.m.entries) != 1 {
		t.Errorf("%d entries, %q", len(s.m.entries), s.m.head.note.Text)
	}
	if s.m.gallery.none.Visible() || s.m.gallery.near.Visible() {
		t.Error("it says still that there is none")
	}
	s.m.head.tolerance.SetText("16 x")
	if s.m.trouble == "" || len(s.m.entries) != 1 {
		t.Errorf("trouble %q, %d entries", s.m.trouble, len(s.m.entries))
	}
	s.m.head.tolerance.SetText("500")
	if !strings.Contains(s.m.head.note.Text, "50 mm or less") {
		t.Errorf("says %q", s.m.head.note.Text)
	}
	s.m.head.tolerance.SetText("16")
	s.found(t)
	if s.m.trouble != "" {
		t.Errorf("trouble %q", s.m.trouble)
	}
	s.pressed(fyne.KeyReturn)
	if s.win.Canvas().Focused() != fyne.Focusable(s.m.gallery) {
		t.Error("Enter does not lead back to the pictures")
	}
}

// The strip in hand has a second group: book and slip matches from the other
// board, behind and in front.
func TestLeavesOfTheStripInHand(t *testing.T) {
	q := wedges()
	q.Panels[0].Strips[0].X = 60 // or it would be sawn where the match asks for it
	base := open(t, q, 100)
	base.take("A1")
	s := matchAt(t, base)
	leaves := 0
	for _, e := range s.m.entries {
		if e.leaf {
			leaves++
		}
	}
	if leaves == 0 || !s.m.gallery.leaves.Visible() || s.m.gallery.leaves.Text != "Book and slip matches of strip A1" {
		t.Fatalf("%d leaves under %q: %q", leaves, s.m.gallery.leaves.Text, s.m.leaves.Why)
	}
	s.pressed(fyne.KeyEnd)
	e := s.m.gallery.hand()
	if !e.leaf || !strings.HasPrefix(s.m.side.assumed.Text, "Assumed: ") || !s.m.side.assumed.Visible() {
		t.Errorf("in hand %q, assumed %q", e.m.Title, s.m.side.assumed.Text)
	}
	// Another way to make room: the plan of B1 stays, a new strip comes.
	n := len(e.m.Lays)
	first := e.lay().Change
	s.typed("o")
	if n < 2 || s.m.gallery.hand().lay().Change == first {
		t.Errorf("%d ways, O does not lead to another", n)
	}
	s.pressed(fyne.KeyReturn)
	s.found(t)
	if s.steps() != 1 {
		t.Errorf("%d steps", s.steps())
	}
	s.act("undo")
	s.found(t)
	// No strip in hand, no second group; a board of no log says why.
	s.m.head.strip.SetSelectedIndex(0)
	s.found(t)
	if s.m.gallery.leaves.Visible() || s.m.strip != "" || !s.m.head.only.Disabled() {
		t.Error("the second group stays")
	}
	p := wedges()
	p.Boards[0].Log = nil
	base = open(t, p, 100)
	base.take("A1")
	s = matchAt(t, base)
	if !strings.Contains(s.m.gallery.why.Text, "which log board A came from") || !s.m.gallery.why.Visible() {
		t.Errorf("says %q", s.m.gallery.why.Text)
	}
}

func TestMatchKeysGoFromTileToTile(t *testing.T) {
	base := demo(t, 100)
	base.take("t1")
	s := matchAt(t, base)
	g := s.m.gallery
	// The demo has no pair within 4 mm; N asks for what the nearest needs.
	s.typed("n")
	s.found(t)
	if len(s.m.edges.List) == 0 || s.m.gallery.hand().leaf {
		t.Fatalf("N shows nothing: %q", s.m.head.tolerance.Text)
	}
	s.m.head.tolerance.SetText("15")
	s.found(t)
	s.takeKeys()
	if len(s.m.entries) < 5 {
		t.Fatalf("%d entries: %s", len(s.m.entries), s.m.status())
	}
	for _, e := range s.m.entries { // all that is offered can be laid
		for _, l := range e.m.Lays {
			if _, err := model.Apply(s.ses.Committed(), l.Edit); err != nil {
				t.Errorf("%s: %v", e.m.Title, err)
			}
		}
	}
	s.m.all.Refresh()
	cols := len(g.rows[0])
	s.pressed(fyne.KeyHome, fyne.KeyRight, fyne.KeyDown)
	if g.at != g.rows[1][min(1, len(g.rows[1])-1)] || cols < 2 {
		t.Errorf("at %d of %d columns", g.at, cols)
	}
	s.pressed(fyne.KeyUp, fyne.KeyLeft, fyne.KeyLeft)
	if g.at != 0 {
		t.Errorf("at %d", g.at)
	}
	s.pressed(fyne.KeyEnd)
	if g.at != len(s.m.entries)-1 {
		t.Errorf("End leads to %d", g.at)
	}
	s.typed("h")
	if !s.m.hatch {
		t.Error("H does not hatch")
	}
	s.images(t)
	g.tiles[0].Tapped(nil)
	if g.at != 0 || s.steps() != 0 {
		t.Error("a click does not take in hand")
	}
	g.tiles[0].MouseIn(&desktop.MouseEvent{})
	g.tiles[0].MouseOut()
	if s.act("arrange") || s.page != page(s.m) {
		t.Error("actions on the panel go through the page")
	}
	empty := open(t, modelWithPanel(), 100)
	if empty.act("match") || empty.page != nil {
		t.Error("a panel of empty places has edges")
	}
}

func TestMatchPageIsNotCut(t *testing.T) {
	for _, text := range TextSizes() {
		for _, size := range []fyne.Size{fyne.NewSize(900, 640), windowSize()} {
			base := demo(t, text)
			base.take("t1")
			s := matchAt(t, base)
			s.win.Resize(size)
			if text%50 == 0 {
				s.m.head.tolerance.SetText("15")
				s.found(t)
			}
			s.m.all.Refresh()
			if m := s.win.Content().MinSize(); m.Width > size.Width || m.Height > size.Height {
				t.Errorf("%d %%, %v: it needs %v", text, size, m)
			}
			cut(t, s.m.all, size)
			for i, tile := range s.m.gallery.tiles[:len(s.m.entries)] {
				cut(t, tile.box, fyne.NewSize(size.Width, 1e6))
				if low := tile.text.Position().Y + tile.text.MinSize().Height; low > tile.Size().Height+2*pad() {
					t.Errorf("%d %%, %v: the words of tile %d end at %.0f of %.0f", text, size, i, low, tile.Size().Height)
				}
			}
			if h := s.m.gallery.scroll.Size().Height; h < 0.4*size.Height {
				t.Errorf("%d %%, %v: %.0f are left for the pictures", text, size, h)
			}
			s.restyle(Dark, text)
			s.q.drain()
			if t.Failed() {
				return
			}
		}
	}
}

func TestLeavingEndsTheSearch(t *testing.T) {
	s := matchAt(t, demo(t, 100))
	s.m.search()
	s.act("rack")
	if s.m.ctx.Err() == nil {
		t.Error("the page searches on")
	}
	s.q.drain()
	s.m.done(s.m.turn, session.Matches{}, session.Matches{}, nil) // comes too late
}
