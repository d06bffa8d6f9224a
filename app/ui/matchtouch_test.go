package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/session"
)

// How the boards lay is chosen from eight ways, and the edge too; the pictures
// follow, nothing is laid before Enter, and that is one change.
func TestHowTheBoardsLayIsChosen(t *testing.T) {
	q := wedges()
	q.Panels[0].Strips[0].X = 60
	base := open(t, q, 100)
	base.take("A1")
	s := matchAt(t, base)
	c := s.m.side.touch
	if !c.box.Visible() || len(c.how.Options) != 9 || len(c.edge.Options) != 3 {
		t.Fatalf("offered %v", c.ways)
	}
	s.typed("l")
	if s.win.Canvas().Focused() != fyne.Focusable(c.how) {
		t.Error("L does not lead to the choice")
	}
	way := session.Touch{Own: "A", Other: "B", OwnFace: 1, OtherFace: 2, EndsApart: true}
	for i, w := range c.ways {
		if w == way {
			c.how.SetSelectedIndex(i)
		}
	}
	s.found(t)
	if s.m.how != way || s.steps() != 0 {
		t.Fatalf("chosen %+v, %d steps", s.m.how, s.steps())
	}
	if s.win.Canvas().Focused() != fyne.Focusable(s.m.gallery) {
		t.Error("the keys do not go back to the pictures")
	}
	s.typed("e")
	if s.win.Canvas().Focused() != fyne.Focusable(c.edge) {
		t.Error("E does not lead to the edge")
	}
	c.edge.SetSelectedIndex(int(session.BackEdge))
	s.found(t)
	n := 0
	for i, e := range s.m.entries {
		if !e.leaf {
			continue
		}
		n++
		if !strings.HasPrefix(e.m.Assumed, "As chosen: face 1 of board A lay on face 2 of board B, the marked ends apart.") || !strings.HasSuffix(e.m.Title, "behind A1") {
			t.Errorf("%q: %q", e.m.Title, e.m.Assumed)
		}
		if e.m.Opened == "" || !strings.HasPrefix(s.m.gallery.tiles[i].text.Text, e.m.Opened) {
			t.Errorf("the tile says %q", s.m.gallery.tiles[i].text.Text)
		}
	}
	if n != 2 { // a book and a slip match
		t.Fatalf("%d matches", n)
	}
	s.images(t)
	s.pressed(fyne.KeyEnd, fyne.KeyReturn)
	s.found(t)
	if s.steps() != 1 {
		t.Errorf("%d steps", s.steps())
	}
	s.act("undo")
	s.found(t)
	// What was said of the boards of A1 is not said of others: without a strip
	// in hand nothing is asked.
	s.m.head.strip.SetSelectedIndex(0)
	s.found(t)
	if c := s.m.side.touch; c.box.Visible() {
		t.Error("it is still asked how the boards lay")
	}
	s.typed("l")
	if !strings.Contains(s.status.text.Text, "take a strip in hand first") {
		t.Errorf("says %q", s.status.text.Text)
	}
}

// Where there is no pair the column says why and what can be done, and shows no
// headings of what is not there.
func TestNoPairToShow(t *testing.T) {
	q := wedges()
	for i := range q.Boards {
		q.Boards[i].Faces[0].Zones = nil
	}
	s := matchAt(t, open(t, q, 100))
	side := s.m.side
	if len(s.m.entries) != 0 {
		t.Fatalf("%d entries", len(s.m.entries))
	}
	for i, o := range side.found {
		if o.Visible() {
			t.Errorf("part %d is shown", i)
		}
	}
	if !strings.Contains(s.m.gallery.none.Text, "there is nothing to match") {
		t.Errorf("says %q", s.m.gallery.none.Text)
	}
	for _, want := range []string{"What can be done", "Take a strip in hand (S)", "look at the zones"} {
		if !strings.Contains(side.text.Text, want) {
			t.Errorf("no %q in %q", want, side.text.Text)
		}
	}
	// With a pair they are there.
	s = matchAt(t, open(t, wedges(), 100))
	for i, o := range s.m.side.found {
		if !o.Visible() {
			t.Errorf("part %d is hidden", i)
		}
	}
}
