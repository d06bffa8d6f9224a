package model

import "testing"

func TestLetters(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letters(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
	p := table() // has A and B
	if got := NextBoardID(p); got != "C" {
		t.Errorf("next board %s", got)
	}
	if got := NextStripID(p); got != "1" { // 3 is taken
		t.Errorf("next strip %s", got)
	}
}

func TestStripNumbers(t *testing.T) {
	on := func(id, board string) Strip { return Strip{ID: id, Board: board, L: 1, W: 1, Up: 1} }
	p := NewProject()
	p.Boards = []*Board{NewBoard("A", "teak", 1, 1, 1), NewBoard("W7", "teak", 1, 1, 1)}
	p.Panels = []*Panel{
		{ID: "top", Length: 1, Width: 1, Thickness: 1, Strips: []Strip{on("A1", "A"), on("2", "A"), on("left", "A"), on("3", "W7"), on("9", ""), on("B1", "A")}},
		{ID: "side", Length: 1, Width: 1, Thickness: 1, Strips: []Strip{on("2", "A"), on("12", "A")}},
	}
	p.Spares = []Strip{on("A4", "A")}
	for _, c := range []struct{ panel, id, want string }{
		{"top", "A1", "A1"},   // its id begins with the letter
		{"top", "2", "A2"},    // a plain number
		{"top", "3", "W7-3"},  // kept apart from the letter's own digit
		{"top", "9", "9"},     // an empty place
		{"side", "12", "A12"}, //
		{"", "A4", "A4"},      // a spare
		{"top", "B1", "A3"},   // the first that is free
		{"top", "left", "A5"}, // the next; A4 is the spare
		{"side", "2", "A6"},   // A2 is taken in another panel
		{"top", "none", "none"},
	} {
		if got := StripNumber(p, c.panel, c.id); got != c.want {
			t.Errorf("%s/%s: %s, want %s", c.panel, c.id, got, c.want)
		}
	}
	// Numbers are chalked on the wood: another order in the panel changes none.
	q := must(t, p, MoveStrip{"top", "left", 0})
	for _, s := range p.Panels[0].Strips {
		if a, b := StripNumber(p, "top", s.ID), StripNumber(q, "top", s.ID); a != b {
			t.Errorf("%s was %s and is %s", s.ID, a, b)
		}
	}
}
