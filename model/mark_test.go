package model

import "testing"

// Two panels take strips from board A; what is chalked on one stays whatever
// becomes of the other.
func TestNumbersStayWhenOthersGo(t *testing.T) {
	p := table()
	p.Panels[0].Strips = []Strip{{ID: "x", L: 930, W: 92, Up: 1}, {ID: "y", L: 930, W: 92, Up: 1}}
	p.Panels[1].Strips = []Strip{{ID: "x", L: 700, W: 60, Up: 1}}
	p.Spares = nil
	p = must(t, p, PlaceStrip{"side", "x", "A", 40, 100, 0})
	p = must(t, p, PlaceStrip{"top", "x", "A", 40, 10, 0})
	p = must(t, p, PlaceStrip{"top", "y", "A", 1100, 10, 0})
	number := func(panel, id string) string { return StripNumber(p, panel, id) }
	if a, b, c := number("side", "x"), number("top", "x"), number("top", "y"); a != "A1" || b != "A2" || c != "A3" {
		t.Fatalf("in the order they came: %s, %s, %s", a, b, c)
	}
	p = must(t, p, LiftStrip{"side", "x"})
	if b, c := number("top", "x"), number("top", "y"); b != "A2" || c != "A3" {
		t.Errorf("another was lifted: %s, %s", b, c)
	}
	p = must(t, p, PlaceStrip{"side", "x", "A", 40, 100, 0})
	if a := number("side", "x"); a != "A1" {
		t.Errorf("laid again it takes the free number, got %s", a)
	}
	p = must(t, p, PlaceStrip{"top", "x", "B", 40, 10, 0})
	if b := number("top", "x"); b[:1] != "B" {
		t.Errorf("moved to board B it is %s", b)
	}
	if strip(t, p, "top", "y").Mark != "A3" {
		t.Error("a strip not touched was numbered anew")
	}
}

func TestMarkedSettlesAll(t *testing.T) {
	p := table()
	m := Marked(p)
	for _, n := range m.Panels {
		for _, s := range n.Strips {
			if want := StripNumber(p, n.ID, s.ID); s.Board != "" && s.Mark != want {
				t.Errorf("panel %s, strip %s: %q, want %q", n.ID, s.ID, s.Mark, want)
			}
			if s.Board == "" && s.Mark != "" {
				t.Errorf("an empty place is marked %q", s.Mark)
			}
		}
	}
	if Marked(m) != m {
		t.Error("a settled project is settled again")
	}
}
