package session

import (
	"context"
	"slices"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// fourStrips is a top of four strips of 100 mm, two with 25 mm of sapwood
// along one edge, laid so that both streaks stand inside; a spare beside it.
func fourStrips() *model.Project {
	p := model.NewProject()
	for i, id := range []string{"A", "B", "C", "D", "E"} {
		b := model.NewBoard(id, "walnut-black", 1000, 106, 25)
		b.Faces[0] = model.Face{Known: true, Base: model.Heart}
		b.Faces[1] = model.Face{Known: true, Base: model.Heart}
		if i < 2 {
			b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 28}, {X: 0, Y: 28}}}}
		}
		p.Boards = append(p.Boards, b)
	}
	m := model.NewPanel("top", model.RoleTop, 900, 390, 20)
	m.Look = model.SapOut
	for _, id := range []string{"C", "A", "D", "B"} {
		m.Strips = append(m.Strips, model.Strip{ID: id + "1", Board: id, X: 30, Y: 3, L: 940, W: 100, Up: 1})
	}
	p.Panels = append(p.Panels, m)
	p.Spares = []model.Strip{{ID: "E1", Board: "E", X: 30, Y: 3, L: 940, W: 100, Up: 1}}
	return p
}

func searched(t *testing.T, s *Session, w Wish) Found {
	t.Helper()
	q, err := s.Search(w)
	if err != nil {
		t.Fatal(err)
	}
	f, err := q.Run(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The light edges go to the outside, which nobody needs a program to see.
func TestSearchBringsSapwoodOut(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	f := searched(t, s, Wish{Panel: "top"})
	if f.Look != model.SapOut || len(f.Answers) < 2 {
		t.Fatalf("%s: %d answers", f.Look, len(f.Answers))
	}
	best := f.Answers[0]
	ends := []string{best.Panel.Strips[0].ID, best.Panel.Strips[3].ID}
	slices.Sort(ends)
	if ends[0] != "A1" || ends[1] != "B1" {
		t.Errorf("outside lie %v", ends)
	}
	if best.After.LoneStreaks != 0 || f.Now.After.LoneStreaks == 0 || best.Points >= f.Now.Points {
		t.Errorf("streaks %d, before %d; points %.2f, before %.2f", best.After.LoneStreaks, f.Now.After.LoneStreaks, best.Points, f.Now.Points)
	}
	if !f.Best || f.Least > best.Points+1e-9 {
		t.Errorf("four strips are not searched to the end: bound %.3f, points %.3f", f.Least, best.Points)
	}
	if len(best.Looks) != 6 {
		t.Errorf("%d looks are scored", len(best.Looks))
	}
	// The reasons add up to the points.
	sum := 0.0
	for _, r := range f.Now.Reasons {
		sum += r.Points
		if r.Text == "" || r.Joint >= 3 {
			t.Errorf("reason %+v", r)
		}
	}
	if d := sum - f.Now.Points; d > 1e-9 || d < -1e-9 {
		t.Errorf("reasons make %.4f of %.4f", sum, f.Now.Points)
	}
	if !strings.Contains(f.Now.Reasons[0].Text, "streak alone") {
		t.Errorf("first of all it is said: %q", f.Now.Reasons[0].Text)
	}
	// Using it is one step, and what was found is what is read then.
	if err := s.Commit(best.Edit); err != nil {
		t.Fatal(err)
	}
	if got := s.Panel("top"); !slices.EqualFunc(got.Strips, best.Panel.Strips, func(a, b face.Strip) bool {
		return a.ID == b.ID && a.Up == b.Up && a.Turned == b.Turned
	}) {
		t.Error("the panel does not lie as found")
	}
	if r := s.Reading("top"); r.Show.Light.Value != best.After.Light {
		t.Errorf("sapwood %.4f, said %.4f", r.Show.Light.Value, best.After.Light)
	}
	if s.UndoLabel() != "Arrange top" {
		t.Errorf("the step is called %q", s.UndoLabel())
	}
	if !s.Undo() || s.Panel("top").Strips[0].ID != "C1" {
		t.Error("it cannot be taken back")
	}
}

// Pinned strips stay; a clear spare comes in for one of the two with sapwood,
// which cannot be rolled over and becomes the spare.
func TestSearchPinsAndSpares(t *testing.T) {
	p := fourStrips()
	p.Panels[0].Strips[0].Pinned = true // C1 in front
	p.Panels[0].Look = model.HeartOnly
	s := New(p, Options{})
	defer s.Close()
	f := searched(t, s, Wish{Panel: "top", Spares: true, NoRoll: true})
	best := f.Answers[0]
	if best.Panel.Strips[0].ID != "C1" {
		t.Errorf("in front lies %s", best.Panel.Strips[0].ID)
	}
	has := func(id string) bool {
		return slices.ContainsFunc(best.Panel.Strips, func(st face.Strip) bool { return st.ID == id })
	}
	if has("A1") == has("B1") || !has("E1") || !strings.Contains(best.Change, "take in E1") {
		t.Fatalf("strips %v: %q", best.Panel.Strips, best.Change)
	}
	if err := s.Commit(best.Edit); err != nil {
		t.Fatal(err)
	}
	out := "A1"
	if has("A1") {
		out = "B1"
	}
	if sp := s.Project().Spares; len(sp) != 1 || sp[0].ID != out {
		t.Errorf("the spares are %v", sp)
	}
}

func TestSearchOfNothing(t *testing.T) {
	p := fourStrips()
	p.Panels = append(p.Panels, model.NewPanel("bare", model.RoleTop, 900, 390, 20))
	empty := model.NewPanel("empty", model.RoleTop, 900, 390, 20)
	empty.Strips = []model.Strip{{ID: "P1", L: 940, W: 100, Up: 1}}
	p.Panels = append(p.Panels, empty)
	s := New(p, Options{})
	defer s.Close()
	for panel, want := range map[string]string{"nowhere": "no panel", "bare": "no strips", "empty": "lies on a board"} {
		if _, err := s.Search(Wish{Panel: panel}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", panel, err)
		}
	}
}

// A search called off at once keeps the panel as it lies.
func TestSearchCalledOff(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	q, err := s.Search(Wish{Panel: "top"})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	f, err := q.Run(ctx, nil)
	if err != nil || len(f.Now.Panel.Strips) != 4 || f.Best {
		t.Errorf("%v: %+v", err, f)
	}
}

// An arrangement that was kept is judged in words as if it lay there.
func TestAppraise(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	f := searched(t, s, Wish{Panel: "top"})
	q, err := s.Appraise(Wish{Panel: "top"}, f.Answers[1].Panel)
	if err != nil {
		t.Fatal(err)
	}
	got, err := q.Run(context.Background(), nil)
	if err != nil || got.Now.Points != f.Answers[1].Points || len(got.Now.Reasons) != len(f.Answers[1].Reasons) {
		t.Errorf("%v: %.3f points, the search gave %.3f", err, got.Now.Points, f.Answers[1].Points)
	}
}

// Lines drawn along the grain, and the place of boards in their log, are
// minded.
func TestSearchMindsTheGrain(t *testing.T) {
	p := fourStrips()
	for i, b := range p.Boards[:4] {
		b.Log = &model.Log{Name: "L", Order: 3 * i}
		for f := range b.Faces {
			dy := 0.0
			if b.ID == "C" {
				dy = 100
			}
			for x := 0.0; x < 800; x += 100 {
				b.Faces[f].Grain = append(b.Faces[f].Grain, []geom.Point{{X: x, Y: 3}, {X: x + 200, Y: 3 + dy}})
			}
		}
	}
	s := New(p, Options{})
	defer s.Close()
	q, err := s.Appraise(Wish{Panel: "top"}, s.Panel("top"))
	if err != nil {
		t.Fatal(err)
	}
	f, err := q.Run(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, r := range f.Now.Reasons {
		for _, w := range []string{"grain runs", "neighbours in it"} {
			said[w] = said[w] || strings.Contains(r.Text, w)
		}
	}
	if !said["grain runs"] || !said["neighbours in it"] {
		t.Errorf("%v: %+v", said, f.Now.Reasons)
	}
}
