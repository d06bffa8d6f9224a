package model

import "testing"

// laidInRow is the table with A1 and A2 laid in row "1".
func laidInRow(t *testing.T) *Project {
	t.Helper()
	p := table()
	if got := FreeRow(p); got != "1" {
		t.Fatalf("the first row is %q", got)
	}
	n := clonePanel(p.Panel("top"))
	for i := range n.Strips {
		if id := n.Strips[i].ID; id == "A1" || id == "A2" {
			n.Strips[i].Row = "1"
		}
	}
	return must(t, p, SetPlan{Panels: []PlanPanel{{"top", n.Strips}}})
}

func TestRowStaysWhereThePlaceStays(t *testing.T) {
	p := laidInRow(t)
	if got := FreeRow(p); got != "2" {
		t.Errorf("the next row is %q", got)
	}
	a := strip(t, p, "top", "A1")
	longer := a
	longer.L += 10
	for _, e := range []Edit{
		FlipStrip{"top", "A1"}, TurnStrip{"top", "A1"}, ShiftStrip{"top", "A1", 5}, PinStrip{"top", "A1", true},
		SwapStrips{"top", "A1", "B1"}, SetStage{"top", "A1", Sawn}, RenameBoard{"A", "Z"},
		SetStrip{Panel: "top", Strip: longer}, PlaceStrip{"top", "A1", "A", a.X, a.Y, a.Angle}, PlaceStrip{"top", "B1", "B", 60, 20, 0},
	} {
		if s := strip(t, must(t, p, e), "top", "A1"); s.Row != "1" {
			t.Errorf("%s: A1 is in row %q", e.Label(), s.Row)
		}
	}
	q := must(t, p, ToSpares{"top", "A1"})
	if s, _ := findStrip(q.Spares, "A1"); s.Row != "1" {
		t.Errorf("among the spares it is in row %q", s.Row)
	}
}

func TestMovingTakesOutOfTheRow(t *testing.T) {
	p := laidInRow(t)
	a := strip(t, p, "top", "A1")
	slid := a
	slid.X += 1
	for _, e := range []Edit{
		PlaceStrip{"top", "A1", "A", a.X + 1, a.Y, a.Angle}, PlaceStrip{"top", "A1", "A", a.X, a.Y, a.Angle + 1},
		PlaceStrip{"top", "A1", "B", a.X, a.Y, a.Angle}, SetStrip{Panel: "top", Strip: slid}, LiftStrip{"top", "A1"},
	} {
		q := must(t, p, e)
		if s := strip(t, q, "top", "A1"); s.Row != "" {
			t.Errorf("%s: A1 is in row %q still", e.Label(), s.Row)
		}
		if s := strip(t, p, "top", "A1"); s.Row != "1" {
			t.Fatalf("%s changed the project before it", e.Label())
		}
	}
	q := must(t, p, PlaceStrip{"top", "A1", "A", a.X + 1, a.Y, a.Angle})
	if s := strip(t, q, "top", "A2"); s.Row != "1" {
		t.Errorf("A2, which stayed, is in row %q", s.Row)
	}
	// Moved back it stays by itself: it is no longer known to be cut in one go.
	q = must(t, q, PlaceStrip{"top", "A1", "A", a.X, a.Y, a.Angle})
	if s := strip(t, q, "top", "A1"); s.Row != "" {
		t.Errorf("moved back it is in row %q", s.Row)
	}
}

// A kept arrangement has its row, also after the strip was moved.
func TestKeptArrangementKeepsItsRow(t *testing.T) {
	p := must(t, laidInRow(t), Keep{Panel: "top", Name: "row"})
	a := strip(t, p, "top", "A1")
	q := must(t, p, PlaceStrip{"top", "A1", "A", a.X + 1, a.Y, a.Angle})
	if got := FreeRow(q); got != "2" {
		t.Errorf("the next row is %q, and the kept one has 1", got)
	}
	q = must(t, q, UseKept{"top", "row"})
	if s := strip(t, q, "top", "A1"); s.Row != "1" || s.X != a.X {
		t.Errorf("as kept it lies at %g in row %q", s.X, s.Row)
	}
}
