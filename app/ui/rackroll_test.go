package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/model"
)

// rolled checks that the rows there are those in sight, one under the other,
// each with its own board.
func rolled(t *testing.T, s stage, what string) {
	t.Helper()
	l := s.rack.faces
	boards := s.ses.Project().Boards
	if len(l.rows) == 0 {
		t.Fatalf("%s: no rows", what)
	}
	for i, r := range l.rows {
		if r.letter.Text != boards[r.at].ID || !r.box.Visible() {
			t.Errorf("%s: row %d shows board %q, seen %v; want %q", what, r.at, r.letter.Text, r.box.Visible(), boards[r.at].ID)
		}
		if i == 0 {
			continue
		}
		if up := l.rows[i-1]; r.at != up.at+1 || r.box.Position().Y != up.box.Position().Y+up.box.Size().Height+stackGap {
			t.Errorf("%s: row %d at %g is under row %d at %g, %g high", what, r.at, r.box.Position().Y, up.at, up.box.Position().Y, up.box.Size().Height)
		}
	}
	first, last := l.rows[0].box, l.rows[len(l.rows)-1].box
	top, high := l.scroll.Offset.Y, l.scroll.Size().Height
	if first.Position().Y > top && l.rows[0].at > 0 || last.Position().Y+last.Size().Height < top+high && l.rows[len(l.rows)-1].at < len(boards)-1 {
		t.Errorf("%s: from %g to %g is in sight, rows are from %g to %g", what, top, top+high, first.Position().Y, last.Position().Y+last.Size().Height)
	}
	if seen := int(high/40) + 12; len(l.rows) > seen { // no row is as low as 40
		t.Errorf("%s: %d rows are there for a view %g high", what, len(l.rows), high)
	}
}

// inSight reports whether the row in hand is all in sight.
func (l *rackList) inSight() bool {
	for _, r := range l.rows {
		if y := r.box.Position().Y - l.scroll.Offset.Y; r.at == l.at {
			return y >= 0 && y+r.box.Size().Height <= l.scroll.Size().Height
		}
	}
	return false
}

func TestALongRackHasOnlyTheRowsInSight(t *testing.T) {
	for _, text := range []int{100, 200} {
		s := open(t, longStack(200), text)
		s.act("rack")
		rolled(t, s, "opened")
		l := s.rack.faces
		for _, k := range []struct {
			key  fyne.KeyName
			want func(before int) bool
		}{
			{fyne.KeyEnd, func(int) bool { return l.at == 199 }},
			{fyne.KeyPageUp, func(before int) bool { return l.at < before && l.at >= before-20 }},
			{fyne.KeyUp, func(before int) bool { return l.at == before-1 }},
			{fyne.KeyHome, func(int) bool { return l.at == 0 }},
			{fyne.KeyPageDown, func(before int) bool { return l.at > before && l.at <= before+20 }},
			{fyne.KeyDown, func(before int) bool { return l.at == before+1 }},
		} {
			before := l.at
			s.pressed(k.key)
			rolled(t, s, string(k.key))
			if !k.want(before) || !l.inSight() {
				t.Errorf("text %d, %s: from row %d to %d, in sight %v", text, k.key, before, l.at, l.inSight())
			}
		}
		for range 40 {
			l.scroll.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: -130}})
			rolled(t, s, "scrolled")
		}
		// A click takes the board that shows there.
		r := l.rows[len(l.rows)/2]
		r.cells[1].Tapped(&fyne.PointEvent{})
		if p, _, _ := l.hand(); p != (intake.Place{Board: r.letter.Text, Part: intake.Face2}) || !l.inSight() {
			t.Errorf("a click on board %s took %v", r.letter.Text, p)
		}
		rolled(t, s, "clicked")
		s.win.Resize(fyne.NewSize(900, 600))
		s.q.drain()
		rolled(t, s, "made smaller")
	}
}

func TestALongRackFollowsTheProject(t *testing.T) {
	s := open(t, longStack(200), 100)
	s.act("rack")
	s.pressed(fyne.KeyEnd)
	boards := s.ses.Project().Boards
	if !s.commit(model.RemoveBoard{ID: boards[198].ID}) {
		t.Fatal("the board stays")
	}
	rolled(t, s, "a board removed")
	s.act("undo")
	rolled(t, s, "and back")
	l := s.rack.faces
	s.pressed(fyne.KeyHome)
	s.write("n") // from the first face to the next one to look at
	rolled(t, s, "next")
	if l.at != 0 || l.part != intake.Face2 {
		t.Errorf("next is row %d, %v", l.at, l.part)
	}
}
