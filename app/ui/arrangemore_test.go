package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/model"
)

func TestComparingShowsWhatIsTicked(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	g := s.p.gallery
	s.typed("c")
	if g.comparing || !strings.Contains(s.said, "Space") {
		t.Errorf("compares nothing, says %q", s.said)
	}
	for _, k := range "0134" {
		s.typed(string(k))
		s.pressed(fyne.KeySpace)
	}
	if len(s.p.ticked) != 3 || s.p.isTicked(s.p.entries[4].id) {
		t.Errorf("%d are ticked", len(s.p.ticked))
	}
	s.typed("c")
	if !g.comparing || len(g.shown) != 3 || g.tiles[3].Visible() {
		t.Fatalf("%d are compared", len(g.shown))
	}
	if a, b := g.tiles[0], g.tiles[1]; a.Position().X != b.Position().X || b.Position().Y < a.Position().Y+a.Size().Height {
		t.Error("they do not stand one under the other")
	}
	if high := g.tiles[2].Position().Y + g.tiles[2].Size().Height; high > g.scroll.Size().Height {
		t.Errorf("they are %.0f high, of %.0f", high, g.scroll.Size().Height)
	}
	s.typed("3")
	s.pressed(fyne.KeyReturn)
	s.lies(t, "t4", "t3", "t2", "t1")
	if !g.comparing {
		t.Error("using one ends the comparison")
	}
	s.pressed(fyne.KeyEscape)
	if g.comparing || s.page != page(s.p) || len(g.shown) != 6 {
		t.Error("Escape does not end the comparison")
	}
	s.typed("c")
	s.p.search() // its answers are gone with it
	if g.comparing || len(g.shown) != 1 {
		t.Errorf("%d tiles, comparing %v", len(g.shown), g.comparing)
	}
}

func TestPinningTwoStripsByKeySearchesAgain(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	s.typed("p")
	s.typed(" ")
	s.pressed(fyne.KeyDown, fyne.KeyDown)
	s.typed(" ")
	n := s.ses.Committed().Panel("top")
	if !n.Strips[0].Pinned || n.Strips[1].Pinned || !n.Strips[2].Pinned || s.steps() != 2 {
		t.Fatalf("pinned %v %v %v, %d changes", n.Strips[0].Pinned, n.Strips[1].Pinned, n.Strips[2].Pinned, s.steps())
	}
	if len(s.runs) != 3 || !s.p.running || len(s.p.found.Answers) != 0 {
		t.Errorf("%d searches, %d answers of the old one", len(s.runs), len(s.p.found.Answers))
	}
	s.pressed(fyne.KeyReturn)
	if s.win.Canvas().Focused() != fyne.Focusable(s.p.gallery) {
		t.Error("Enter does not go back to the pictures")
	}
	s.act("undo")
	if s.p.side.pins[2].Checked || !s.p.side.pins[0].Checked || len(s.runs) != 4 {
		t.Error("undo of a pin is not followed")
	}
}

func TestPageFollowsThePanel(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	runs := len(s.runs)
	s.commit(model.FlipStrip{Panel: "top", Strip: "t1"})
	if len(s.runs) == runs { // only how the present lies is asked anew
		t.Error("how it lies now is not weighed")
	}
	if s.p.running || len(s.p.found.Answers) != 5 {
		t.Error("rolling a strip over drops the answers")
	}
	s.q.wait(t, "what speaks against it", func() bool { return s.p.entries[0].known })
	set := s.ses.Project().Settings()
	set.Limits = model.Limits{Streak: 0.2, Mix: [2]float64{0.2, 0.5}}
	s.commit(model.SetSettings{Settings: set})
	if !s.p.running || len(s.p.found.Answers) != 0 {
		t.Error("other limits do not begin another search")
	}
	s.commit(model.RemovePanel{ID: "top"})
	s.q.drain()
	if s.page != nil || s.p.ctx.Err() == nil {
		t.Error("the page stays though the panel is gone")
	}
	s.act("undo")
	if s.page != nil {
		t.Error("undo opens the page again")
	}
}

func TestAnotherProjectEndsTheSearch(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ses.Replace(model.NewProject())
	s.opened()
	if s.page != nil || s.p.ctx.Err() == nil {
		t.Error("the search of a project that is gone goes on")
	}
	s.q.drain()
}

func TestLeavingForTheRackEndsTheSearch(t *testing.T) {
	s := arrangeAt(t, 100)
	s.act("rack")
	if s.page != page(s.rack) || s.p.ctx.Err() == nil {
		t.Error("it is searched on behind the rack")
	}
	s.p.done(s.p.turn, s.five(), nil)
	if len(s.p.found.Answers) != 0 {
		t.Error("what is found then is taken")
	}
}

func TestTilesByMouse(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	g := s.p.gallery
	s.win.Canvas().Focus(s.p.head.roll)
	g.tiles[2].Tapped(nil)
	if g.at != 2 || !g.has || s.steps() != 0 {
		t.Errorf("a tap takes %d in hand, keys there %v", g.at, g.has)
	}
	g.tiles[3].Tapped(nil)
	g.tiles[3].Tapped(nil)
	s.lies(t, "t4", "t3", "t2", "t1")
	g.tiles[4].tick.Tapped(nil)
	if !s.p.isTicked(g.shown[4].id) || g.at != 4 {
		t.Error("a tap on the box does not tick")
	}
	g.tiles[5].MouseIn(nil)
	if !strings.Contains(s.said, "Answer 5") {
		t.Errorf("the pointer says %q", s.said)
	}
	g.tiles[5].MouseOut()
	if m := s.p.menu(); !m.Items[2].Checked || m.Items[0].Disabled || !m.Items[4].Disabled {
		t.Error("the menu does not fit the arrangement in hand")
	}
}

func TestArrowsGoByRowsAndColumns(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	g := s.p.gallery
	if c := g.columns(g.box.Size().Width); c != 3 {
		t.Fatalf("%d columns", c)
	}
	for _, k := range []struct {
		key fyne.KeyName
		at  int
	}{{fyne.KeyRight, 1}, {fyne.KeyDown, 4}, {fyne.KeyRight, 5}, {fyne.KeyRight, 5}, {fyne.KeyUp, 2}, {fyne.KeyUp, 2}, {fyne.KeyLeft, 1}, {fyne.KeyEnd, 5}, {fyne.KeyHome, 0}, {fyne.KeyLeft, 0}} {
		s.pressed(k.key)
		if g.at != k.at {
			t.Fatalf("%s leads to %d, want %d", k.key, g.at, k.at)
		}
	}
	s.typed("9")
	if g.at != 0 || s.said == "" {
		t.Error("an answer that is not there is not told of")
	}
}

func TestInHandStaysWhileAnswersImprove(t *testing.T) {
	s := arrangeAt(t, 100)
	a, b := s.answer(3, 2, 1, 3, 4), s.answer(2, 1, 3, 2, 4)
	f := s.five()
	f.Answers = append(f.Answers[:0:0], a)
	s.last().steps <- f
	s.q.wait(t, "the first", func() bool { return len(s.p.found.Answers) == 1 })
	s.typed("1")
	f.Answers = append(f.Answers[:0:0], b, a)
	s.last().steps <- f
	s.q.wait(t, "the second", func() bool { return len(s.p.found.Answers) == 2 })
	if e := s.p.gallery.hand(); e.n != 2 || e.lie != lieOf(a.Panel) {
		t.Errorf("answer %d is in hand", e.n)
	}
}

// Tab goes through what is asked, the pictures, then the column.
func TestTabOrder(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	s.typed("0")
	c := s.win.Canvas()
	want := []fyne.Focusable{s.p.side.keep, s.p.side.reasons[0], s.p.side.reasons[1], s.p.side.pins[0], s.p.side.pins[1]}
	for i, w := range want {
		c.(interface{ FocusNext() }).FocusNext()
		if c.Focused() != w {
			t.Fatalf("tab %d leads to %T, want %T", i+1, c.Focused(), w)
		}
	}
	s.takeKeys()
	for _, w := range []fyne.Focusable{s.p.head.seen, s.p.head.turn, s.p.head.roll, s.p.head.rings, s.p.head.look} {
		c.(interface{ FocusPrevious() }).FocusPrevious()
		if c.Focused() != w {
			t.Fatalf("back leads to %T, want %T", c.Focused(), w)
		}
	}
}

func TestRestyledPageStaysRight(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	s.typed("2")
	s.restyle(Dark, 200)
	if s.page != page(s.p) || s.p.gallery.hand().n != 2 || len(s.p.gallery.tiles) != 6 || len(s.p.found.Answers) != 5 {
		t.Error("another look loses what was found")
	}
	s.pictures(t)
	if !strings.Contains(arrangeKeys, "K: keep") || s.p.side.keys.Text != arrangeKeys {
		t.Error("the keys are not listed")
	}
}
