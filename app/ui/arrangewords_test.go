package ui

import (
	"errors"
	"math"
	"strings"
	"testing"

	"heartside/app/session"
)

// Sentences of the state of a search, by what is known of its result.
func TestStatusSaysWhatIsProved(t *testing.T) {
	s := arrangeAt(t, 100)
	a := []session.Arrangement{s.answer(3, 2, 1, 3, 4)}
	for _, k := range []struct {
		f     session.Found
		want  string
		never string
	}{
		{session.Found{Answers: a, Best: true, Proved: true, Least: 3}, "No arrangement of these strips does better.", "at most"},
		{session.Found{Answers: a, Proved: true, Least: 1.8}, "at most 1.2 points better", "No arrangement of these"},
		{session.Found{Answers: a, Least: 1.8}, "At most 1.2 points better", "joints"},
		{session.Found{Answers: a, Proved: true, Least: math.Inf(-1)}, "By the joints alone none does better.", "better is possible"},
		{session.Found{Answers: a, Least: math.NaN(), Tried: 7}, "7 arrangements read.", "better"},
		{session.Found{}, "nothing to choose", "better"},
	} {
		s.p.running, s.p.found = false, k.f
		if got := s.p.status(); !strings.Contains(got, k.want) || strings.Contains(got, k.never) {
			t.Errorf("%+v: says %q", k.f, got)
		}
	}
}

// What is left to win is never told too small; nothing is only what is none.
func TestPointsInWords(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 0.01: "under 0.1", 0.05: "0.1", 1.24: "1.2", 24: "24.0"} {
		if got := pointWords(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
	for v, want := range map[float64]string{0: "0.0", 0.01: "0.1", 1.2: "1.2", 1.21: "1.3", -1: "0.0"} {
		if got := gainWords(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
}

func TestSearchThatFailsIsToldInWords(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, session.Found{}, errors.New("the strips pinned leave no place"))
	if got := s.p.head.note.Text; got != "⚠ The strips pinned leave no place." {
		t.Errorf("says %q", got)
	}
	s.fail = errors.New("no strip lies on a board yet")
	s.typed("s")
	if got := s.p.head.note.Text; got != "⚠ No strip lies on a board yet." || s.p.running {
		t.Errorf("says %q, running %v", got, s.p.running)
	}
	s.fail = nil
	s.typed("s")
	if !s.p.running || strings.Contains(s.p.head.note.Text, "⚠") {
		t.Error("it cannot be searched again")
	}
	// A search that panics is told of as well.
	if _, err := ran(t.Context(), bang{}, nil); err == nil {
		t.Error("a search that panics gives no error")
	}
}
