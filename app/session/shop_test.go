package session

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// taperBoard is a board of 1000 x 120 whose face 1 has sapwood along the marked
// edge, from 20 wide at the marked end straight to 40 at the other. Nothing is
// planed off: board and panel are of one thickness.
func taperBoard() *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{}
	b := bareBoard("A", 1000, 120)
	b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 40}, {X: 0, Y: 20}}}}
	p.Boards = []*model.Board{b}
	n := model.NewPanel("top", model.RoleTop, 760, 190, 25)
	n.Strips = []model.Strip{{ID: "A1", Board: "A", X: 100, Y: 10, L: 800, W: 100, Up: 1}, model.NewPlace("2", 800, 100)}
	p.Panels = []*model.Panel{n}
	return p
}

func near3(a, b model.Tape) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > 0.05 {
			return false
		}
	}
	return true
}

// The strip begins at x = 100 and lies 10 in from the marked edge. The line is at
// 20 + x/50: 22, 30 and 38 at its ends and middle, so 12, 20 and 28 of sapwood
// along its front edge. Turned end for end the sapwood lies along the back edge,
// the marked end at the right: 28, 20, 12.
func TestWhatIsExpectedAtTheBench(t *testing.T) {
	s := New(taperBoard(), Options{})
	defer s.Close()
	list := s.Bench("top")
	if len(list) != 1 || list[0].Number == "" || list[0].Board != "A" || list[0].Stage != model.Planned || !list[0].Known {
		t.Fatalf("%+v", list)
	}
	if e := list[0].Expected; !near3(e[0], model.Tape{12, 20, 28}) || !near3(e[1], model.Tape{}) {
		t.Errorf("expected %v", e)
	}
	mustCommit(t, s, model.TurnStrip{Panel: "top", Strip: "A1"})
	if e := s.Bench("top")[0].Expected; !near3(e[0], model.Tape{}) || !near3(e[1], model.Tape{28, 20, 12}) {
		t.Errorf("turned: expected %v", e)
	}
}

// Measured as it lies turned: 34 at the left of the back edge, where 28 was
// expected, is the other end; 15 at the marked end is 3 more, which a rule does
// not tell; the middle is 4 less.
func TestWhatWasMeasuredAtTheBench(t *testing.T) {
	p := taperBoard()
	p.Panels[0].Strips[0].Turned = true
	p.Panels[0].Strips[0].Stage = model.Sawn
	s := New(p, Options{})
	defer s.Close()
	lying := [2]model.Tape{{0, 0, 0}, {34, 16, 15}}
	mustCommit(t, s, MeasureEdit(s.Project(), "top", "A1", lying))
	st := s.Project().Panels[0].Strips[0]
	// Turned, face 1 up: the back edge is t = 0, and s runs from the right.
	if st.Planed == nil || st.Planed.Near != (model.Tape{15, 16, 34}) || st.Planed.Far != (model.Tape{}) || st.Stage != model.Planed {
		t.Fatalf("%+v", st.Planed)
	}
	b := s.Bench("top")[0]
	want := []string{"6 mm more than expected at the other end of its back edge", "4 mm less than expected in the middle of its back edge"}
	if b.Measured == nil || *b.Measured != lying || !reflect.DeepEqual(b.Diffs, want) {
		t.Errorf("measured %v, said %q", b.Measured, b.Diffs)
	}
	if !near3(b.Expected[1], model.Tape{28, 20, 12}) {
		t.Errorf("what was measured changed what was expected: %v", b.Expected)
	}
	// The readings are those of the measures at once. The panel is 20 shorter at
	// each end and takes 5 off the front edge, where there is no sapwood. Along the
	// back edge it is 15.05 wide at 20 mm from the marked end (15 + 20/400), 16 in
	// the middle and 33.1 at 780 (16 + 380 * 18/400): two trapezoids of 380 mm.
	light := s.Reading("top").Strips[0].Light.Value
	if want := ((15.05+16)/2*380 + (16+33.1)/2*380) / (760 * 95); math.Abs(light-want) > 1e-6 {
		t.Errorf("light share %.4f, want %.4f", light, want)
	}
	s.Undo()
	if s.Project().Panels[0].Strips[0].Planed != nil || len(s.Bench("top")[0].Diffs) != 0 {
		t.Error("it cannot be taken back")
	}
	// Rolled over, what was measured is on the face that lies down.
	s.Redo()
	mustCommit(t, s, model.FlipStrip{Panel: "top", Strip: "A1"})
	if b := s.Bench("top")[0]; !b.Below || b.Measured != nil {
		t.Errorf("%+v", b)
	}
}

func TestStagesAtTheBench(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	stages := func() string {
		var out []string
		for _, b := range s.Bench("top") {
			out = append(out, string(b.Stage))
		}
		return strings.Join(out, " ")
	}
	list := s.Bench("top")
	mustCommit(t, s, StepEdit(s.Project(), list[:1], 1))
	if s.UndoLabel() != "Mark strip C1 sawn" {
		t.Errorf("%q", s.UndoLabel())
	}
	mustCommit(t, s, StepEdit(s.Project(), s.Bench("top")[:3], 1))
	if got := stages(); got != "planed sawn sawn planned" || s.UndoLabel() != "Mark the stage of 3 strips" {
		t.Errorf("%s, %q", got, s.UndoLabel())
	}
	s.Undo()
	if got := stages(); got != "sawn planned planned planned" {
		t.Errorf("one step back and %s", got)
	}
	mustCommit(t, s, StageEdit(s.Project(), s.Bench("top"), model.Glued))
	if StepEdit(s.Project(), s.Bench("top"), 1) != nil || StageEdit(s.Project(), s.Bench("top"), model.Glued) != nil {
		t.Error("glued strips go further")
	}
	mustCommit(t, s, StepEdit(s.Project(), s.Bench("top"), -1))
	if got := stages(); got != "jointed jointed jointed jointed" {
		t.Error(got)
	}
}
