package cutting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// panelOf is a panel just as large as its strips.
func panelOf(strips ...face.Strip) *face.Panel {
	p := &face.Panel{ID: "top", Thickness: 20, Strips: strips, Limit: [2]float64{1, 1}}
	for i := range strips {
		p.Length = strips[i].L
		p.Width += strips[i].W
	}
	return p
}

// only returns the findings of one kind.
func only(list []Finding, kind face.WarningKind) []Finding {
	var out []Finding
	for _, f := range list {
		if f.Kind == kind {
			out = append(out, f)
		}
	}
	return out
}

// Blank: 25 over at each end, 4.5 at each edge, so a strip at (25, 4.5) is
// flush with the corner of its board.
func TestOutsideBoardByHand(t *testing.T) {
	b := board("A", 1000, 200)
	for _, c := range []struct {
		name        string
		x, y, angle float64
		mm          float64
		where       string
	}{
		{"flush with the marked corner", 25, 4.5, 0, 0, ""},
		{"flush with the far corner", 1000 - 25 - 400, 200 - 4.5 - 80, 0, 0, ""},
		{"over the marked end", 22, 60, 0, 3, OverMarkedEnd},
		{"over the other end", 580, 60, 0, 5, OverOtherEnd},
		{"over the marked edge", 100, 2, 0, 2.5, OverMarkedEdge},
		{"over the other edge", 100, 120, 0, 4.5, OverOtherEdge},
		{"the farther counts", 20, 1, 0, 5, OverMarkedEnd},
		// The corner (-25, 84.5) of the blank lies at 100 - 84.5 = 15.5, the
		// corner (425, 84.5) at y = 50 + 425.
		{"upright", 100, 50, 90, 275, OverOtherEdge},
	} {
		s := strip("s", b, c.x, c.y, 400, 80, c.angle)
		mm, where := Outside(&s, plain)
		if where != c.where || math.Abs(mm-c.mm) > 1e-9 {
			t.Errorf("%s: %.4f over %q, want %.4f over %q", c.name, mm, where, c.mm, c.where)
		}
		got := only(Check([]*face.Panel{panelOf(s)}, nil, plain, Machines{}), face.OutsideBoard)
		if (len(got) == 1) != (c.where != "") {
			t.Errorf("%s: findings %v", c.name, got)
		}
	}
}

// At 30 degrees without allowances the corner (0, 50) lies at x = -25.
func TestOutsideBoardSlanted(t *testing.T) {
	s := strip("s", board("A", 1000, 400), 0, 100, 100, 50, 30)
	mm, where := Outside(&s, Allowances{})
	if where != OverMarkedEnd || math.Abs(mm-25) > 1e-9 {
		t.Errorf("%.4f over %q, want 25 over the marked end", mm, where)
	}
}

// notched is waney along its marked edge: a bay 12 deep at x = 500 and a slope
// that cuts 40 off the other end's corner.
func notched(t *testing.T) geom.Polygon {
	return layouttest.Poly(t, "0,0 400,0 500,12 600,0 900,0 1000,40 1000,200 0,200")
}

func TestOutsideWaneyOutline(t *testing.T) {
	b := board("A", 1000, 200)
	b.Faces[0].Outline = notched(t)
	for _, c := range []struct {
		name  string
		x, y  float64
		l     float64
		mm    float64
		where string
	}{
		{"clear of the bay", 60, 16.5, 700, 0, ""},
		// Near edge of the blank at y = 5: the bay reaches 7 into it.
		{"over the bay", 60, 9.5, 700, 7, OverOutline},
		{"before the bay", 60, 9.5, 300, 0, ""},
		// Blank from 650 to 980, near edge at 20: the slope is at 32 there, and
		// leaves the blank at x = 950: 30 from its end, 12 from its edge.
		{"over the slope", 675, 24.5, 280, 12, OverOutline},
		{"over the edge itself", 60, -2.5, 300, 7, OverMarkedEdge},
	} {
		s := strip("s", b, c.x, c.y, c.l, 80, 0)
		mm, where := Outside(&s, plain)
		if where != c.where || math.Abs(mm-c.mm) > 1e-6 {
			t.Errorf("%s: %.4f over %q, want %.4f over %q", c.name, mm, where, c.mm, c.where)
		}
	}
	// Face 2 up and the outline on face 1 only: the show face is whole.
	s := strip("s", b, 60, 9.5, 700, 80, 0)
	s.Up = 2
	if mm, where := Outside(&s, plain); where != "" {
		t.Errorf("face 2 up: %.4f over %q, want none", mm, where)
	}
	// The same outline on face 2, which shows: in its own coordinates the
	// marked edge is at the top.
	b2 := board("B", 1000, 200)
	b2.Faces[1].Outline = b2.Other().ApplyTo(notched(t))
	s.Board = b2
	if mm, where := Outside(&s, plain); where != OverOutline || math.Abs(mm-7) > 1e-6 {
		t.Errorf("waney face 2 up: %.4f over %q, want 7 over the outline", mm, where)
	}
}

func TestPartsOverlapByHand(t *testing.T) {
	b := board("A", 2400, 400)
	at := func(y float64) face.Strip { return strip("b", b, 100, y, 400, 80, 0) }
	first := strip("a", b, 100, 20, 400, 80, 0) // blank up to y = 104.5
	for _, c := range []struct {
		name string
		y    float64
		need float64
	}{
		{"a kerf between them", 112, 0}, // from 107.5
		{"2 mm between them", 111, 1},
		{"touching", 109, 3},
		{"overlapping by 10", 99, 13},
	} {
		got := only(Check([]*face.Panel{panelOf(first, at(c.y))}, nil, plain, Machines{}), face.PartsOverlap)
		if c.need == 0 {
			if len(got) != 0 {
				t.Errorf("%s: %v", c.name, got)
			}
			continue
		}
		if len(got) != 1 || !reflect.DeepEqual(got[0].Strips, []string{"a", "b"}) || math.Abs(got[0].Measure-c.need) > 1e-9 {
			t.Errorf("%s: %+v, want a and b to need %g", c.name, got, c.need)
		}
	}
	// End to end: the first blank ends at x = 525.
	next := strip("b", b, 525+2+25, 20, 400, 80, 0)
	if got := only(Check([]*face.Panel{panelOf(first, next)}, nil, plain, Machines{}), face.PartsOverlap); len(got) != 1 || math.Abs(got[0].Measure-1) > 1e-9 {
		t.Errorf("end to end: %+v, want 1 needed", got)
	}
	other := at(99)
	other.Board = board("B", 2400, 400)
	if got := only(Check([]*face.Panel{panelOf(first, other)}, nil, plain, Machines{}), face.PartsOverlap); len(got) != 0 {
		t.Errorf("on two boards: %v", got)
	}
}

func TestOverlapTellsBothPanelsAndSpares(t *testing.T) {
	b := board("A", 2400, 400)
	p, q := panelOf(strip("a", b, 100, 20, 400, 80, 0)), panelOf(strip("b", b, 100, 99, 400, 80, 0))
	q.ID = "side"
	spare := strip("c", b, 100, 99+79, 400, 80, 0)
	got := only(Check([]*face.Panel{p, q}, []face.Strip{spare}, plain, Machines{}), face.PartsOverlap)
	var said []string
	for _, f := range got {
		said = append(said, fmt.Sprint(f.Panel, f.Strips))
	}
	want := []string{"top[a b]", "side[b a]", "side[b c]"}
	if !reflect.DeepEqual(said, want) {
		t.Errorf("said %v, want %v", said, want)
	}
}

// Blanks at any angle against the slow reference: a finding exactly where they
// come nearer than the kerf, and by as much.
func TestOverlapAtAnglesAgainstSlowReference(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	b := board("A", 4000, 4000)
	found := 0
	for n := 0; n < 40; n++ {
		one := func(id string) face.Strip {
			return strip(id, b, 1000+250*rng.Float64(), 1000+250*rng.Float64(), 120, 40, -90+180*rng.Float64())
		}
		x, y := one("x"), one("y")
		need := plain.Kerf - slowClearance(Blank(&x, plain), Blank(&y, plain))
		got := only(Check([]*face.Panel{panelOf(x, y)}, nil, plain, Machines{}), face.PartsOverlap)
		if math.Abs(need) < 0.2 {
			continue // too near for the reference to tell
		}
		if (len(got) == 1) != (need > 0) {
			t.Fatalf("%v and %v: findings %v, reference needs %.3f", x, y, got, need)
		}
		if need > 0 {
			found++
			layouttest.Near(t, "needed", got[0].Measure, need, 0.2)
		}
	}
	if found < 5 || found > 35 {
		t.Fatalf("drawn badly: %d of 40 overlap", found)
	}
}

func TestSawnStripsCountWithoutAllowances(t *testing.T) {
	b := board("A", 1000, 200)
	x, y := strip("x", b, 10, 2, 400, 80, 0), strip("y", b, 10, 84, 400, 80, 0)
	kinds := func() (out []face.WarningKind) {
		for _, f := range Check([]*face.Panel{panelOf(x, y)}, nil, plain, Machines{}) {
			out = append(out, f.Kind)
		}
		return out
	}
	if got := kinds(); len(got) != 3 {
		t.Fatalf("planned: %v, want both outside and one overlap", got)
	}
	x.Stage, y.Stage = face.Sawn, face.Sawn
	if got := kinds(); len(got) != 0 {
		t.Errorf("sawn: %v, want none: they lie within the board and apart", got)
	}
	y.Stage = face.Planned // its blank reaches into what was sawn out for x
	if got := kinds(); !reflect.DeepEqual(got, []face.WarningKind{face.PartsOverlap, face.OutsideBoard}) && !reflect.DeepEqual(got, []face.WarningKind{face.OutsideBoard, face.PartsOverlap}) {
		t.Errorf("one sawn: %v", got)
	}
}

func TestMachineLimits(t *testing.T) {
	b := board("A", 2400, 500)
	m := Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50}
	kinds := func(l, w float64, stage face.Stage) string {
		s := strip("s", b, 100, 100, l, w, 0)
		s.Stage = stage
		out := ""
		for _, f := range Check([]*face.Panel{panelOf(s)}, nil, plain, m) {
			out += fmt.Sprintf("%s %s %.1f/%.0f;", f.Kind, f.Why, f.Measure, f.Limit)
		}
		return out
	}
	for _, c := range []struct {
		l, w  float64
		stage face.Stage
		want  string
	}{
		{400, 80, face.Planned, ""},
		{250, 41, face.Planned, ""}, // the blank is 300 x 50, just enough
		{249, 80, face.Planned, "under-machine-limit short 299.0/300;"},
		{400, 40, face.Planned, "under-machine-limit narrow 49.0/50;"},
		{400, 291, face.Planned, ""},
		{400, 292, face.Planned, "over-machine-width flatten 301.0/300;"},
		{400, 331, face.Planned, "over-machine-width flatten 340.0/300;over-machine-width panel 331.0/330;"},
		{249, 40, face.Jointed, ""},
	} {
		if got := kinds(c.l, c.w, c.stage); got != c.want {
			t.Errorf("%g x %g: %q, want %q", c.l, c.w, got, c.want)
		}
	}
	m = Machines{}
	if got := kinds(10, 10, face.Planned); got != "" {
		t.Errorf("no limits set: %q", got)
	}
	m = Machines{Thickness: 250}
	if got := kinds(400, 245, face.Planned); got != "over-machine-width thickness 254.0/250;" {
		t.Errorf("thicknessing the narrower machine: %q", got)
	}
}

func TestNothingForEmptyAndBrokenStrips(t *testing.T) {
	p := panelOf(face.Strip{ID: "e", L: 400, W: 80, Up: 1})
	m := Machines{Flatten: 1, Thickness: 1, Shortest: 9999, Narrowest: 9999}
	if got := Check([]*face.Panel{p}, []face.Strip{{ID: "f"}}, plain, m); len(got) != 0 {
		t.Errorf("empty place: %v", got)
	}
	b := board("A", 1000, 200)
	broken := strip("n", b, math.NaN(), 0, 400, 80, 0)
	flat := strip("z", b, 0, 0, 0, 80, 0)
	if got := Check([]*face.Panel{panelOf(broken, flat)}, nil, plain, Machines{}); len(got) != 0 {
		t.Errorf("broken strips: %v", got)
	}
}

func TestCheckIsTheSameForOnePanelAlone(t *testing.T) {
	b := board("A", 2400, 300)
	p := panelOf(strip("a", b, 10, 20, 400, 80, 0), strip("b", b, 300, 60, 400, 80, 5))
	spare := strip("c", b, 100, 100, 400, 80, 0)
	want := Check([]*face.Panel{p}, []face.Strip{spare}, plain, Machines{})
	got := NewChecker([]face.Strip{spare}, plain, Machines{}).Panel(p)
	var all []face.Warning
	for _, f := range want {
		if f.Panel == "top" {
			all = append(all, f.Warning)
		}
	}
	if !reflect.DeepEqual(got, all) || len(all) < 4 {
		t.Errorf("alone %v, among all %v", got, all)
	}
}
