package ui

import (
	"strings"
	"testing"

	"heartside/app/session"
)

// Each hint leaves when it is followed, and the next one comes.
func TestHintsAreFollowed(t *testing.T) {
	s := open(t, session.Blank(), 100)
	if s.hints.box.Visible() {
		t.Error("a hint shows before anything is there")
	}
	if err := s.openDemo(); err != nil {
		t.Fatal(err)
	}
	s.q.drain()
	says := func(i int, word string) {
		t.Helper()
		if s.hints.at != i || !s.hints.box.Visible() || !strings.Contains(s.hints.text.Text, word) {
			t.Fatalf("hint %d shows %q (visible %v), want %d with %q", s.hints.at, s.hints.text.Text, s.hints.box.Visible(), i, word)
		}
	}
	says(hintDrag, "Drag strip A1")
	s.take("t1")
	s.act("roll") // not what this hint asks for
	says(hintDrag, "Drag strip")
	s.act("undo")
	s.act("move-right-10")
	s.nudge.settle()
	says(hintRoll, "press R")
	s.act("roll")
	s.q.wait(t, "a fix", func() bool { return s.hints.at == hintFix })
	says(hintFix, "F9")
	s.act("apply-fix")
	if s.hints.at >= 0 || s.hints.box.Visible() || s.set.hints() != 7 {
		t.Errorf("after the last: hint %d, done %d", s.hints.at, s.set.hints())
	}
	if err := s.openDemo(); err != nil {
		t.Fatal(err)
	}
	if s.hints.box.Visible() {
		t.Error("the hints come again unasked")
	}
	s.act("hints-again")
	says(hintDrag, "Drag strip")
}

// A key puts hints away, and Tab reaches their button.
func TestHintsPutAway(t *testing.T) {
	s := open(t, session.Blank(), 200)
	if err := s.openDemo(); err != nil {
		t.Fatal(err)
	}
	s.q.drain()
	seen := false
	for range 60 {
		s.win.Canvas().FocusNext()
		if b, ok := s.win.Canvas().Focused().(*pageButton); ok && strings.HasPrefix(b.Text, "Got it") {
			seen = true
			break
		}
	}
	if !seen {
		t.Error("Tab does not come to the hint")
	}
	s.act("hint-away")
	if s.hints.at != hintRoll || s.set.hints() != 1<<hintDrag {
		t.Errorf("after one: hint %d, done %b", s.hints.at, s.set.hints())
	}
	if s.win.Canvas().Focused() != s.surf {
		t.Error("the surface has not got the keys back")
	}
}

// Without strips on boards there is nothing to speak of, and it says so.
func TestHintsNeedStrips(t *testing.T) {
	s := open(t, session.Blank(), 100)
	s.act("hints-again")
	if s.hints.box.Visible() || !strings.Contains(s.status.text.Text, "demo") {
		t.Errorf("visible %v, says %q", s.hints.box.Visible(), s.status.text.Text)
	}
}
