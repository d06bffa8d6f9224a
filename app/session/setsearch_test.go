package session

import (
	"context"
	"math"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/together"
	"heartside/model"
)

// In the left door the streak lies in front, in the right one in the middle:
// arranged at once, they come to mirror each other over the gap, in one step.
func TestWholeSetIsArranged(t *testing.T) {
	p := twoDoors([2]int{0, 1}, false)
	p.Sets = []model.Set{model.NewSet("Doors", "left", "right")}
	s := New(p, Options{})
	defer s.Close()
	if may, usual := s.MayChange("left"); !may || !usual {
		t.Errorf("strips of one width in doors of one length: may %v, usual %v", may, usual)
	}
	f := searched(t, s, Wish{Panel: "right", Whole: true, NoRoll: true, Change: ChangeNone})
	best := f.Answers[0]
	if len(best.Panels) != 2 || best.Panels[0].ID != "left" || best.Panel != best.Panels[1] {
		t.Fatalf("%d panels", len(best.Panels))
	}
	if best.After.LoneStreaks != 0 || f.Now.After.LoneStreaks == 0 || best.Points >= f.Now.Points || !f.Best {
		t.Errorf("streaks %d, before %d; points %.2f, before %.2f; best %v", best.After.LoneStreaks, f.Now.After.LoneStreaks, best.Points, f.Now.Points, f.Best)
	}
	sum := 0.0
	for _, r := range f.Now.Reasons {
		sum += r.Points
		if strings.Contains(r.Text, "/") {
			t.Errorf("an id of inside is said: %q", r.Text)
		}
		if r.Panel != "" && !strings.HasPrefix(strings.ToLower(r.Text), r.Panel+": ") {
			t.Errorf("of %s it is said: %q", r.Panel, r.Text)
		}
	}
	if math.Abs(sum-f.Now.Points) > 1e-9 {
		t.Errorf("reasons make %.4f of %.4f", sum, f.Now.Points)
	}
	if best.Change == "" || strings.Contains(best.Change, "/") {
		t.Errorf("to be done: %q", best.Change)
	}
	steps, _ := s.Depth()
	if err := s.Commit(best.Edit); err != nil {
		t.Fatal(err)
	}
	if n, _ := s.Depth(); n != steps+1 || s.UndoLabel() != "Arrange Doors" {
		t.Errorf("%d steps, the last is called %q", n-steps, s.UndoLabel())
	}
	if n := len(streaks(s, "left")) + len(streaks(s, "right")); n != 0 {
		t.Errorf("%d streaks once laid so", n)
	}
	// Judged as they lie now they have what the answer was said to have.
	q, err := s.AppraiseSet(Wish{Panel: "left"}, best.Panels)
	if err != nil {
		t.Fatal(err)
	}
	again, err := q.Run(context.Background(), nil)
	if err != nil || math.Abs(again.Now.Points-best.Points) > 1e-9 {
		t.Errorf("%.4f points, found with %.4f, %v", again.Now.Points, best.Points, err)
	}
	if !s.Undo() || s.Panel("left").Strips[0].ID != "A1" || s.Panel("right").Strips[0].ID != "D1" {
		t.Error("it cannot be taken back")
	}
}

// Both doors have a strip called A1. The streaks are wanted in the left one
// alone, side by side: they can only come there by changing panels.
func TestStripsChangePanels(t *testing.T) {
	p := twoDoors([2]int{0, 0}, false)
	for _, m := range p.Panels {
		m.Strips[0].ID = "A1"
		m.Strips[1].Pinned, m.Strips[2].Pinned = m.ID == "right", m.ID == "right"
	}
	p.Sets = []model.Set{model.NewSet("Doors", "left", "right")}
	s := New(p, Options{})
	defer s.Close()
	q, err := s.Search(Wish{Panel: "left", Whole: true})
	if err != nil || !q.set.req.Exchange {
		t.Fatalf("strips of one width do not change panels: %v", err)
	}
	// B1 of the left door goes to the right one, whose A1 comes over.
	list := [][]string{{"left/A1", "right/A1", "left/C1"}, {"left/B1", "right/E1", "right/F1"}}
	strips := q.set.req.Face
	byID := map[string]int{}
	for k := range strips.Len() {
		for i, st := range strips.Part(k).Strips {
			byID[st.ID] = 10*k + i
		}
	}
	laidSo := mapped(list, func(id string) (int, int) { return byID[id] / 10, byID[id] % 10 }, strips)
	if got := q.setChange(laidSo); got != "bring D1 of right over to left; bring B1 of left over to right" {
		t.Errorf("to be done: %q", got)
	}
	if err := s.Commit(q.setEdit(laidSo)); err != nil {
		t.Fatal(err)
	}
	left, right := s.Project().Panel("left"), s.Project().Panel("right")
	if left.Strips[0].ID != "A1" || left.Strips[1].ID != "A1-2" || left.Strips[1].Board != "D" || right.Strips[0].ID != "B1" || right.Strips[0].Board != "B" {
		t.Errorf("left %+v, right %+v", left.Strips, right.Strips)
	}
}

// A row of fronts is one face: the streak of the right front is the set's, and
// told of the right one at its own place.
func TestRowIsJudgedAsOneFace(t *testing.T) {
	p := twoDoors([2]int{-1, 1}, false)
	set := model.NewSet("Row", "left", "right")
	set.Way = model.Along
	p.Sets = []model.Set{set}
	s := New(p, Options{})
	defer s.Close()
	if l, r := streaks(s, "left"), streaks(s, "right"); len(l) != 0 || len(r) != 1 || math.Abs(r[0].Place.Min.X) > 0.5 || math.Abs(r[0].Place.Max.X-900) > 0.5 {
		t.Fatalf("left %v, right %v", l, r)
	}
	read, _ := s.SetReading("left")
	if read.Apart != "" || math.Abs(read.Light.Value-20.0/290/2) > 1e-6 { // one of two fronts
		t.Errorf("%+v", read)
	}
	f := searched(t, s, Wish{Panel: "left", Whole: true})
	if len(f.Answers) == 0 || f.Answers[0].After.LoneStreaks != 0 {
		t.Errorf("%+v", f.Answers)
	}
}

func TestSetIsKept(t *testing.T) {
	p := twoDoors([2]int{0, 1}, false)
	set := model.NewSet("Doors", "left", "right")
	p.Sets = []model.Set{set}
	s := New(p, Options{})
	defer s.Close()
	f := searched(t, s, Wish{Panel: "left", Whole: true, NoRoll: true})
	before, _ := s.Depth()
	if err := s.Commit(KeepSet(set, "first", f.Answers[0].Edit)); err != nil {
		t.Fatal(err)
	}
	if n, _ := s.Depth(); n != before+1 || len(s.Project().Kept) != 2 {
		t.Errorf("%d steps to keep %d", n-before, len(s.Project().Kept))
	}
	if err := s.Commit(model.Keep{Panel: "left", Name: "one door"}); err != nil {
		t.Fatal(err)
	}
	if got := KeptOfSet(s.Project(), set); len(got) != 1 || got[0] != "first" {
		t.Fatalf("kept of the set: %v", got)
	}
	e, err := UseKeptOfSet(s.Project(), set, "first")
	if err != nil {
		t.Fatal(err)
	}
	steps, _ := s.Depth()
	if err := s.Commit(e); err != nil {
		t.Fatal(err)
	}
	if n, _ := s.Depth(); n != steps+1 {
		t.Errorf("%d steps", n-steps)
	}
	for k, id := range set.Panels {
		for i, st := range s.Panel(id).Strips {
			if want := f.Answers[0].Panels[k].Strips[i]; id+"/"+st.ID != want.ID && f.Answers[0].Change == "" {
				t.Errorf("%s lies in place %d of %s, want %s", st.ID, i, id, want.ID)
			}
		}
	}
}

func TestSetRefuses(t *testing.T) {
	p := twoDoors([2]int{0, 1}, false)
	s := New(p, Options{})
	defer s.Close()
	if _, err := s.Search(Wish{Panel: "left", Whole: true}); err == nil || !strings.Contains(err.Error(), "no set") {
		t.Errorf("in no set: %v", err)
	}
	if err := s.Commit(model.PutSet{Set: model.NewSet("Doors", "left", "right")}); err != nil {
		t.Fatal(err)
	}
	m := *s.Project().Panel("right")
	m.Wanted = model.WantSap
	if err := s.Commit(model.SetPanel{Panel: &m}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Search(Wish{Panel: "left", Whole: true}); err == nil || !strings.Contains(err.Error(), "want") {
		t.Errorf("of other wood: %v", err)
	}
	if _, ok := s.SetOf("left"); ok {
		t.Error("doors that want other wood are arranged at once")
	}
}

// mapped lays strips by their names.
func mapped(list [][]string, at func(string) (int, int), f *together.Face) (out [][]face.Strip) {
	for _, names := range list {
		var strips []face.Strip
		for _, name := range names {
			k, i := at(name)
			strips = append(strips, f.Part(k).Strips[i])
		}
		out = append(out, strips)
	}
	return out
}
