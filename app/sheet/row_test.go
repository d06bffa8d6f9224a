package sheet

import (
	"fmt"
	"strings"
	"testing"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
)

// rowParts are drawer fronts of 400, 300 and 400 by 150 laid in a row 3 apart
// along a board, 10 from its marked edge, as the session hands them to a sheet.
func rowParts(t *testing.T, width float64, more ...model.Strip) (*model.Project, *face.Board, []place) {
	t.Helper()
	p := model.NewProject()
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	b := model.NewBoard("A", "walnut-black", 1300, width, 25)
	b.Faces[0], b.Faces[1] = model.Face{Known: true, Base: model.Heart}, model.Face{Known: true, Base: model.Heart}
	p.Boards = append(p.Boards, b)
	x := 25.0
	for i, l := range []float64{400, 300, 400} {
		m := model.NewPanel(fmt.Sprintf("front %d", i+1), model.RoleDrawerFront, l, 150, 18)
		m.Strips = []model.Strip{{ID: fmt.Sprint(i + 1), Board: "A", X: x, Y: 10, L: l, W: 150, Up: 1, Row: "1"}}
		p.Panels = append(p.Panels, m)
		x += l + 3
	}
	p.Spares = more
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	s := session.New(p, session.Options{})
	t.Cleanup(s.Close)
	var parts []place
	for _, m := range p.Panels {
		parts = append(parts, place{strip: &s.Panel(m.ID).Strips[0], panel: m, label: "A" + m.Strips[0].ID})
	}
	for i := range s.Spares() {
		parts = append(parts, place{strip: &s.Spares()[i], label: "S"})
	}
	return p, s.Board("A"), parts
}

func told(cuts []cut) string {
	var out []string
	for _, c := range cuts {
		if c.n == 0 {
			continue
		}
		out = append(out, fmt.Sprintf("%d %s %s at %g", c.n, c.what, c.whom, c.p.X))
	}
	return strings.Join(out, "\n")
}

// Where nothing else lies beside the row one cross-cut parts two fronts and
// makes both their ends: after the first at 25 + 400, after the second at
// 428 + 300. Only the outer ends have something over, and the first of them is
// the board's own.
func TestOneCrossCutBetweenFrontsOfARow(t *testing.T) {
	p, bd, parts := rowParts(t, 200)
	want := `1 square off past the checks, measure from here  at 0
2 cross-cut the board A1 at 425
3 rip A1 at 0
4 rip A1 at 0
5 cross-cut the board A2 at 728
6 rip A2 at 428
7 rip A2 at 428
8 rip A3 at 731
9 rip A3 at 731
10 cut end A3 at 1156`
	if got := told(cutList(p.Allowances, bd, parts)); got != want {
		t.Errorf("cuts\n%s\nwant\n%s", got, want)
	}
}

// A strip that runs beside the whole row keeps the board from being cut
// across: then one cut parts two fronts as well, and is told once, for both.
func TestOneEndCutBetweenFrontsOfARow(t *testing.T) {
	p, bd, parts := rowParts(t, 300, model.Strip{ID: "1", Board: "A", X: 25, Y: 180, L: 1200, W: 100, Up: 1})
	got := told(cutList(p.Allowances, bd, parts))
	for _, want := range []string{"cut end A1, A2 at 425", "cut end A2, A3 at 728"} {
		if strings.Count(got, want) != 1 {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "cut end A2 ") || strings.Contains(got, "cross-cut") {
		t.Errorf("cuts\n%s", got)
	}
}

// What is sawn out for the front in the middle is the front and what its edges
// need: 300 by 150 + 2 * 4.5. The outer ones have 25 at one end.
func TestRoughSizeInARow(t *testing.T) {
	p, _, parts := rowParts(t, 200)
	for i, want := range []float64{425, 300, 425} {
		if l, w := blankSize(p.Allowances, parts[i].strip); l != want || w != 159 {
			t.Errorf("front %d is sawn out %g by %g", i+1, l, w)
		}
	}
}

// Nicks are sawn into waste, and the fronts after the first have none at their
// marked ends.
func TestNoNicksIntoAFrontOfARow(t *testing.T) {
	p, _, parts := rowParts(t, 200)
	b := &builder{in: &Input{Project: p}}
	for i, want := range []bool{true, false, false} {
		if b.nickable(parts[i]) != want {
			t.Errorf("front %d: nicks %v, want %v", i+1, !want, want)
		}
	}
	if got := b.nickOrder(parts); !strings.HasSuffix(got, "A2 and A3 have no waste there: write number and front edge on their end grain.") {
		t.Errorf("%q", got)
	}
	if got := b.nickOrder(parts[1:]); !strings.HasPrefix(got, "The blanks have no waste") {
		t.Errorf("%q", got)
	}
}
