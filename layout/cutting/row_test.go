package cutting

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// inRow tells strips that lie in one row their neighbours.
func inRow(list ...face.Strip) []face.Strip {
	out := append([]face.Strip{}, list...)
	for i, s := range list {
		others := append(append([]face.Strip{}, list[:i]...), list[i+1:]...)
		out[i].Row = &face.Row{Name: "1", X: s.X, Y: s.Y, Angle: s.Angle, L: s.L, W: s.W, Gap: Gaps(&s, others)}
	}
	return out
}

// each is a panel for every strip.
func each(list []face.Strip) []*face.Panel {
	var out []*face.Panel
	for i := range list {
		p := panelOf(list[i])
		p.ID = list[i].ID
		out = append(out, p)
	}
	return out
}

// fronts are drawer fronts of 400, 300 and 400 along a board, apart by gap.
func fronts(b *face.Board, gap float64) []face.Strip {
	return []face.Strip{strip("a", b, 25, 10, 400, 150, 0), strip("b", b, 425+gap, 10, 300, 150, 0), strip("c", b, 725+2*gap, 10, 400, 150, 0)}
}

// By hand: a neighbour ends where s is below 0 by the gap.
func TestGapsOfARow(t *testing.T) {
	inf := math.Inf(1)
	b := board("A", 2000, 500)
	row := fronts(b, 3)
	for i, want := range [3][4]float64{{inf, 3, inf, inf}, {3, 3, inf, inf}, {3, inf, inf, inf}} {
		others := append(append([]face.Strip{}, row[:i]...), row[i+1:]...)
		if got := Gaps(&row[i], others); got != want {
			t.Errorf("front %d: %v, want %v", i+1, got, want)
		}
	}
	s := strip("s", b, 100, 100, 200, 50, 0)
	for _, c := range []struct {
		name string
		o    face.Strip
		want [4]float64
	}{
		{"beyond the far edge", strip("o", b, 100, 157, 200, 50, 0), [4]float64{inf, inf, inf, 7}},
		{"beyond the near edge", strip("o", b, 150, 40, 200, 50, 0), [4]float64{inf, inf, 10, inf}},
		{"over a corner", strip("o", b, 310, 160, 200, 50, 0), [4]float64{inf, inf, inf, inf}},
		{"overlapping by 20 along", strip("o", b, 280, 110, 200, 50, 0), [4]float64{inf, -20, inf, inf}},
		{"turned", strip("o", b, 310, 100, 200, 50, 5), [4]float64{inf, inf, inf, inf}},
		{"on another board", strip("o", board("B", 2000, 500), 303, 100, 200, 50, 0), [4]float64{inf, inf, inf, inf}},
	} {
		if got := Gaps(&s, []face.Strip{c.o}); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// Upright strips: beyond s = L lies what is higher on the board.
	up := strip("s", b, 100, 100, 200, 50, 90)
	if got := Gaps(&up, []face.Strip{strip("o", b, 100, 304, 80, 50, 90)}); math.Abs(got[1]-4) > 1e-9 || got[0] != inf {
		t.Errorf("upright: %v", got)
	}
}

// Three fronts with a cut of 3 between them lie well as a row. As strips cut
// each by itself every blank is 25 longer at each end: 25 + 25 + 3 - 3 = 50
// more is needed between two.
func TestRowIsPartedByOneKerf(t *testing.T) {
	b := board("A", 1300, 200)
	list := fronts(b, 3)
	if got := only(Check(each(inRow(list...)), nil, plain, Machines{}), face.PartsOverlap); len(got) != 0 {
		t.Errorf("a row: %v", got)
	}
	got := only(Check(each(list), nil, plain, Machines{}), face.PartsOverlap)
	if len(got) != 4 { // two joints, each told to both panels
		t.Fatalf("without a row: %d findings", len(got))
	}
	if math.Abs(got[0].Measure-50) > 1e-6 {
		t.Errorf("without a row %g more is needed, want 50", got[0].Measure)
	}
	// One above another: 4.5 + 4.5 at the edges.
	list = []face.Strip{strip("a", b, 25, 10, 400, 50, 0), strip("b", b, 25, 63, 500, 60, 0)}
	if got := only(Check(each(inRow(list...)), nil, plain, Machines{}), face.PartsOverlap); len(got) != 0 {
		t.Errorf("one above another: %v", got)
	}
	if got := only(Check(each(list), nil, plain, Machines{}), face.PartsOverlap); len(got) != 2 || math.Abs(got[0].Measure-9) > 1e-6 {
		t.Errorf("one above another without a row: %v", got)
	}
}

// A row laid without a thought for the cuts is told: 3 more are needed at each,
// and on a board that holds the fronts and their ends alone the last one of a
// row with its cuts runs over the end by both cuts.
func TestRowWithKerfsIgnored(t *testing.T) {
	got := only(Check(each(inRow(fronts(board("A", 1300, 200), 0)...)), nil, plain, Machines{}), face.PartsOverlap)
	if len(got) != 4 || math.Abs(got[0].Measure-3) > 1e-6 {
		t.Errorf("no cut between: %v", got)
	}
	out := only(Check(each(inRow(fronts(board("A", 1150, 200), 3)...)), nil, plain, Machines{}), face.OutsideBoard)
	if len(out) != 1 || out[0].Panel != "c" || math.Abs(out[0].Measure-6) > 1e-6 {
		t.Errorf("the last one short: %v", out)
	}
	// Really in one another, by 40: a kerf more.
	list := fronts(board("A", 1300, 200), 3)
	list[1].X -= 43
	if got := only(Check(each(inRow(list...)), nil, plain, Machines{}), face.PartsOverlap); len(got) != 2 || math.Abs(got[0].Measure-43) > 1e-6 {
		t.Errorf("in one another: %v", got)
	}
}

// What is not of the row keeps its allowances: a strip whose blank is to begin
// 2 beyond the blank of the last front needs 1 more. One that lies on the row
// is told to all it touches.
func TestRowAndAStranger(t *testing.T) {
	b := board("A", 2000, 200)
	row := inRow(fronts(b, 3)...)
	spare := strip("s", b, 1131+25+2+25, 10, 200, 100, 0)
	got := only(Check(each(row), []face.Strip{spare}, plain, Machines{}), face.PartsOverlap)
	if len(got) != 1 || got[0].Panel != "c" || math.Abs(got[0].Measure-1) > 1e-6 {
		t.Errorf("beyond the row: %v", got)
	}
	spare = strip("s", b, 400, 100, 60, 60, 0)
	if got := only(Check(each(row), []face.Strip{spare}, plain, Machines{}), face.PartsOverlap); len(got) != 2 {
		t.Errorf("on the row: %v", got)
	}
	// Moved since, a front is a strip like any other.
	row[2].X += 10
	if got := only(Check(each(row), nil, plain, Machines{}), face.PartsOverlap); len(got) != 2 || got[0].Strips[1] != "c" {
		t.Errorf("moved: %v", got)
	}
}

// With 13 between two fronts the cut of 3 lies in the middle and leaves 5 on
// either; the outer end keeps its 25, and so does the end of a front that has
// 100 beside it.
func TestBlankOfARow(t *testing.T) {
	b := board("A", 2000, 200)
	row := inRow(fronts(b, 13)...)
	for i, want := range []geom.Rect{geom.R(-25, -4.5, 405, 154.5), geom.R(-5, -4.5, 305, 154.5), geom.R(-5, -4.5, 425, 154.5)} {
		if got := BlankRect(&row[i], plain); got.Min.Dist(want.Min) > 1e-9 || got.Max.Dist(want.Max) > 1e-9 {
			t.Errorf("front %d: %v, want %v", i+1, got, want)
		}
	}
	far := inRow(fronts(b, 100)...)
	if got := BlankRect(&far[1], plain); got != geom.R(-25, -4.5, 325, 154.5) {
		t.Errorf("100 apart: %v", got)
	}
	// Made 4 shorter where it lies, it has 17 beside its end: 7 stay.
	row[1].L = 296
	if got := BlankRect(&row[1], plain); got != geom.R(-5, -4.5, 303, 154.5) {
		t.Errorf("shorter: %v", got)
	}
	// A front of 250 in the middle is too short for a machine that takes 290:
	// there are no ends on it.
	list := fronts(b, 3)
	list[1].L, list[2].X = 250, list[2].X-50
	m := Machines{Shortest: 290}
	if got := only(Check(each(inRow(list...)), nil, plain, m), face.UnderMachineLimit); len(got) != 1 || got[0].Panel != "b" || got[0].Measure != 250 {
		t.Errorf("too short: %v", got)
	}
}

// One cross-cut parts two of a row, where the first ends.
func TestCutsOfARow(t *testing.T) {
	b := board("A", 1300, 200)
	got := Cuts(b, inRow(fronts(b, 3)...), plain)
	if len(got) != 3 {
		t.Fatalf("%d cuts", len(got))
	}
	for i, want := range [][3]float64{{0, 425, 425}, {428, 728, 728}, {731, 1156, 0}} {
		c := got[i]
		if c.Section != i+1 || c.Start != want[0] || c.End != want[1] || c.CrossAt != want[2] {
			t.Errorf("front %d: section %d from %g to %g, cut at %g", i+1, c.Section, c.Start, c.End, c.CrossAt)
		}
	}
}
