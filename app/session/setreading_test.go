package session

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/model"
)

func about(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// Each door is 290 x 900 with a streak of 20 mm: 20/290 of its face, and of both
// together. The strips are 300 wide, so that 5 come off in front. The streak lies
// from 30 to 50 of the middle strip: 125 to 145 of the left door, and in the
// right one, where the strip is turned, from 50 to 70: 145 to 165. The whole is
// 290 + 3 + 290 = 583 wide, its middle 291.5; the middles of the streaks lie at
// 135 and 293 + 155 = 448, on the mean at 291.5.
func TestSetIsReadAsOneFace(t *testing.T) {
	p := twoDoors([2]int{1, 1}, true)
	s := New(p, Options{})
	defer s.Close()
	if _, ok := s.SetReading("left"); ok {
		t.Fatal("a panel in no set is read with others")
	}
	if err := s.Commit(model.PutSet{Set: model.NewSet("Doors", "left", "right")}); err != nil {
		t.Fatal(err)
	}
	r, ok := s.SetReading("right")
	if !ok || r.Set.Name != "Doors" || r.Placed != 6 || r.Apart != "" {
		t.Fatalf("%+v", r)
	}
	if want := 20.0 / 290; !about(r.Light.Value, want, 1e-6) || !about(r.Unwanted.Value, want, 1e-6) {
		t.Errorf("light %g, unwanted %g, by hand %g", r.Light.Value, r.Unwanted.Value, want)
	}
	if !about(r.Balance, 0, 1e-6) {
		t.Errorf("balance %g", r.Balance)
	}
	// Cells of 10 mm: two rows of 29 hold the streak where it lies on their
	// borders, three where it does not.
	if r.Coverage < 2.0/30 || r.Coverage > 3.0/29 {
		t.Errorf("coverage %g", r.Coverage)
	}
	if len(r.Gaps) != 1 || r.Gaps[0].First != "left" || r.Gaps[0].Second != "right" {
		t.Fatalf("gaps %+v", r.Gaps)
	}
	// No sap line reaches the gap. The right door is the left one's mirror image
	// about it: 135 from the front of one, 135 from the rear of the other.
	g := r.Gaps[0]
	if len(g.Borders) != 0 || !about(g.Mirrored, 0, 1e-6) || !about(g.Slipped, 40, 1e-6) {
		t.Errorf("the gap: %+v", g)
	}
	// The gap makes the whole wider; nothing else.
	wide := model.NewSet("Doors", "left", "right")
	wide.Gap = 23
	if err := s.Commit(model.PutSet{Set: wide}); err != nil {
		t.Fatal(err)
	}
	if f, _ := s.setFace(wide); f.Panel.Width != 603 {
		t.Errorf("with a gap of 23 the face is %g wide", f.Panel.Width)
	}
}

// A streak in the front strip of each door lies from 25 to 45, in the middle one
// from 125 to 145. Along, the left door's middles are 35, the right one's 135:
// (35 + 135)/2 = 85, less 145, of 290. The face of the left end of the right
// door has its sap line 100 mm away from that of the left door's right end, so
// all four borders end at the gap.
func TestRowIsReadFromItsPanels(t *testing.T) {
	p := twoDoors([2]int{0, 1}, false)
	set := model.NewSet("Fronts", "left", "right")
	set.Way, set.Match = model.Along, model.MatchInOrder
	p.Sets = []model.Set{set}
	s := New(p, Options{})
	defer s.Close()
	r, ok := s.SetReading("left")
	if !ok || r.Apart != "" {
		t.Fatalf("%+v", r)
	}
	if !about(r.Light.Value, 20.0/290, 1e-6) || !about(r.Balance, -60.0/290, 1e-6) {
		t.Errorf("light %g, balance %g", r.Light.Value, r.Balance)
	}
	if g := r.Gaps[0]; g.Ending != 4 || g.Mean != 0 || !about(g.Slipped, 40, 1e-6) {
		t.Errorf("the gap: %+v", g)
	}
	if n := streaks(s, "left"); len(n) != 1 {
		t.Errorf("fronts in a row are judged by themselves, each: %d streaks", len(n))
	}
}

// Doors that want different wood are no one face; their shares still are those
// of both, and each is judged by itself.
func TestSetOfDifferentWishes(t *testing.T) {
	p := twoDoors([2]int{1, 1}, true)
	p.Panels[1].Wanted = model.WantBoth
	p.Sets = []model.Set{model.NewSet("Doors", "left", "right")}
	s := New(p, Options{})
	defer s.Close()
	r, _ := s.SetReading("left")
	if r.Apart == "" || !about(r.Light.Value, 20.0/290, 1e-6) {
		t.Errorf("apart %q, light %g", r.Apart, r.Light.Value)
	}
	// Only the left door has unwanted wood: half of 20/290. It lies 135 from the
	// front of 583.
	if !about(r.Unwanted.Value, 10.0/290, 1e-6) || !about(r.Balance, (135-291.5)/583, 1e-6) {
		t.Errorf("unwanted %g, balance %g", r.Unwanted.Value, r.Balance)
	}
	if s.Panel("right").Wanted != face.WantBoth || len(streaks(s, "left")) != 1 {
		t.Error("the left door is not judged by itself")
	}
}
