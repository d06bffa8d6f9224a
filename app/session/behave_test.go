package session

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// oneStrip is a panel of one strip that fills it, on a board 26 mm thick.
func oneStrip(species string, width float64, now, dry, wet float64) *model.Project {
	p := model.NewProject()
	p.Climate.Now.MC, p.Climate.Dry.MC, p.Climate.Wet.MC = now, dry, wet
	b := model.NewBoard("A", species, 1100, width+20, 26)
	for i := range b.Faces {
		b.Faces[i] = model.Face{Known: true, Base: model.Heart}
	}
	p.Boards = []*model.Board{b}
	n := model.NewPanel("top", model.RoleTop, 900, width, 20)
	n.Strips = []model.Strip{{ID: "A1", Board: "A", X: 50, Y: 10, L: 1000, W: width, Up: 1, Stage: model.Planned}}
	p.Panels = []*model.Panel{n}
	return p
}

// Known movements come out of a project: 36 inches of flat-sawn walnut from 7
// to 11 % grow by 0.3946 inch, from C = 0.00274 of Table 13-5 by eq. 13-2 of
// the Wood Handbook (worked by hand: 914.4 x 0.00274 x 4 = 10.022 mm).
func TestWidthOfAProject(t *testing.T) {
	s := New(oneStrip("walnut-black", 914.4, 7, 7, 11), Options{})
	f, ok := s.Figures("top")
	if !ok || f.Movement == nil {
		t.Fatalf("no movement: %+v", f)
	}
	if m := f.Movement; math.Abs(m.Wet-m.Now-10.022) > 0.001 || m.Dry != m.Now || m.Now != 914.4 {
		t.Errorf("%+v", m)
	}
}

// A reading of the board goes before the air: at 9 % only half of it is left.
func TestBoardsReadingGoesBeforeTheAir(t *testing.T) {
	p := oneStrip("walnut-black", 914.4, 7, 7, 11)
	p.Boards[0].Moisture = 9
	f, _ := New(p, Options{}).Figures("top")
	if got := f.Movement.Wet - f.Movement.Now; math.Abs(got-5.011) > 0.001 {
		t.Errorf("grows by %v mm", got)
	}
}

// Quarter-sawn walnut moves by C = 0.00190: 914.4 x 0.00190 x 4 = 6.949 mm, and
// with the pith far beside it nearly so.
func TestRingsCountInAProject(t *testing.T) {
	p := oneStrip("walnut-black", 914.4, 7, 7, 11)
	p.Boards[0].Bark = model.BarkNone
	f, _ := New(p, Options{}).Figures("top")
	if got := f.Movement.Wet - f.Movement.Now; math.Abs(got-6.949) > 0.001 {
		t.Errorf("bark side none: grows by %v mm", got)
	}
	p = oneStrip("walnut-black", 914.4, 7, 7, 11)
	p.Boards[0].Pith = []model.Pith{{Across: -60000, Depth: 13}}
	f, _ = New(p, Options{}).Figures("top")
	if got := f.Movement.Wet - f.Movement.Now; math.Abs(got-6.949) > 0.001 {
		t.Errorf("pith far beside: grows by %v mm", got)
	}
}

// The exact map of rings gives 150 mm of sugar maple 100 mm from the pith a cup
// of 0.3618 mm when it dries by 4 % (reference table of the polar map). The
// strip is read in the middle of its thickness, so its pith lies 110 mm below
// the show face; bark side up it goes hollow, rolled over it rises as much.
func TestCupOfAProject(t *testing.T) {
	for _, c := range []struct {
		up   int
		want float64
	}{{1, 0.3618}, {2, -0.3618}} {
		p := oneStrip("maple-sugar-hard", 150, 12, 8, 12)
		p.Boards[0].Pith = []model.Pith{{Across: 85, Depth: 3 + 110}}
		p.Panels[0].Strips[0].Up = c.up
		f, _ := New(p, Options{}).Figures("top")
		if f.Cup == nil || math.Abs(f.Cup.Dry-c.want) > 0.002 || math.Abs(f.Cup.Wet) > 1e-9 {
			t.Errorf("face %d up: %+v, want %v mm when dry", c.up, f.Cup, c.want)
		}
	}
}

// A top fixed to the edge of a rail across its grain moves, the rail does not:
// warned of, with the other panel's name, until it is free. 450 mm of walnut
// from 7 to 11 %: 450 x 0.00274 x 4 = 4.93 mm, less what the rail grows along
// its grain, 0.15 % of 450 mm over 30 %: 0.09 mm.
func TestJoinedAcrossTheGrain(t *testing.T) {
	p := oneStrip("walnut-black", 450, 7, 7, 11)
	b := model.NewBoard("B", "walnut-black", 600, 120, 26)
	for i := range b.Faces {
		b.Faces[i] = model.Face{Known: true, Base: model.Heart}
	}
	p.Boards = append(p.Boards, b)
	rail := model.NewPanel("rail", model.RoleOther, 450, 80, 20)
	rail.Strips = []model.Strip{{ID: "B1", Board: "B", X: 30, Y: 10, L: 500, W: 100, Up: 1, Stage: model.Planned}}
	p.Panels = append(p.Panels, rail)
	p.Joined = []model.Joined{{Panels: [2]string{"top", "rail"}, How: "fixed", Edges: [2]string{"left", "front"}}}
	s := New(p, Options{})
	note := noteOfKind(s.Notes("top"), MovesApart)
	if note == nil || !strings.Contains(note.Title, "from rail by 4.8 mm") {
		t.Fatalf("said %+v", note)
	}
	if noteOfKind(s.Notes("rail"), MovesApart) == nil {
		t.Error("the rail is not warned of")
	}
	free := []model.Joined{{Panels: [2]string{"top", "rail"}, How: "free", Edges: [2]string{"left", "front"}}}
	if err := s.Commit(model.SetJoined{Joined: free}); err != nil {
		t.Fatal(err)
	}
	if noteOfKind(s.Notes("top"), MovesApart) != nil {
		t.Error("a free joint is warned of")
	}
	// Both ends across the grain move alike.
	if err := s.Commit(model.SetJoined{Joined: []model.Joined{{Panels: [2]string{"top", "rail"}, How: "fixed", Edges: [2]string{"front", "front"}}}}); err != nil {
		t.Fatal(err)
	}
	if n := noteOfKind(s.Notes("top"), MovesApart); n != nil {
		t.Errorf("edges along the grain: said %s", n.Title)
	}
}

func noteOfKind(list []Note, k face.WarningKind) *Note {
	for i := range list {
		if list[i].Kind == k {
			return &list[i]
		}
	}
	return nil
}

// What the seasons are is told where it is wrong, and nothing is worked out
// from it.
func TestAirThatCannotBe(t *testing.T) {
	s := New(oneStrip("walnut-black", 450, 8, 12, 6), Options{})
	b := s.Behaviour("top")
	if !b.Air.Strong || !strings.Contains(b.Air.Lead, "dry 12.0 % lies above wet 6.0 %") {
		t.Errorf("said %q", b.Air.Lead)
	}
	if f, _ := s.Figures("top"); f.Movement != nil || f.Cup != nil {
		t.Errorf("worked out all the same: %+v", f)
	}
	if s.Behaviour("none") != nil {
		t.Error("a panel that is not there behaves")
	}
}

// Every section that gives figures says how they are worked out, each step with
// a source or a word on how it was obtained.
func TestEverySectionSaysHow(t *testing.T) {
	p := oneStrip("cherry-black", 450, 8, 6, 11)
	p.Boards[0].Moisture = 8
	p.Boards[0].Shape = model.Shape{Cup: 2, Bow: 4, Crook: 2, Twist: 1}
	p.Boards[0].Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: ringAt(0, 0, 1100, 60)}}
	p.Panels[0].Fitting = &model.Fitting{Held: model.HeldSlots, Line: model.LineBack, Rows: []float64{50, 400}}
	for _, sec := range New(p, Options{}).Behaviour("top").Sections {
		if len(sec.Rows) > 0 && len(sec.How) == 0 {
			t.Errorf("%s gives figures and does not say how", sec.ID)
		}
		for _, step := range sec.How {
			if step.Formula == "" || step.Source == "" && step.Flag == "" {
				t.Errorf("%s: step %+v says nothing of where it comes from", sec.ID, step)
			}
		}
	}
}

func ringAt(x0, y0, x1, y1 float64) geom.Polygon {
	return geom.Polygon{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// Pith entered at several places is read between them.
func TestPithBetweenPlaces(t *testing.T) {
	b := model.NewBoard("A", "teak", 1000, 100, 25)
	b.Pith = []model.Pith{{X: 800, HasX: true, Across: 60, Depth: -40}, {X: 200, HasX: true, Across: 40, Depth: -60}}
	for x, want := range map[float64]string{0: "40 -60", 200: "40 -60", 500: "50 -50", 800: "60 -40", 1000: "60 -40"} {
		p, ok := pithAt(b, x)
		if got := fmt.Sprintf("%g %g", p.X, p.Y); !ok || got != want {
			t.Errorf("at %g: %s, want %s", x, got, want)
		}
	}
	b.Pith = nil
	if _, ok := pithAt(b, 500); ok {
		t.Error("no pith was found")
	}
}

// A blank that is bent more than the stock there is to take off is warned of:
// 26 mm less 8 mm of cup over a blank nearly as wide as its board does not give
// 20 mm.
func TestBentBoardWillNotCleanUp(t *testing.T) {
	p := oneStrip("walnut-black", 300, 8, 6, 11)
	p.Boards[0].Shape = model.Shape{Cup: 8}
	n := noteOfKind(New(p, Options{}).Notes("top"), WillNotCleanUp)
	if n == nil || !strings.Contains(n.Title, "Will not clean up to 20 mm: strip A1") {
		t.Fatalf("said %+v", n)
	}
	p.Boards[0].Shape = model.Shape{Cup: 1}
	if n := noteOfKind(New(p, Options{}).Notes("top"), WillNotCleanUp); n != nil {
		t.Errorf("1 mm of cup: said %s", n.Title)
	}
}
