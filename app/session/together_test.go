package session

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// twoDoors are doors of three strips of 100 mm; in each the strip in the given
// place has sapwood 20 mm wide in its middle part.
func twoDoors(at [2]int, turned bool) *model.Project {
	p := model.NewProject()
	for d, id := range []string{"left", "right"} {
		m := model.NewPanel(id, model.RoleDoor, 900, 290, 25)
		m.Look = model.SapToSap
		for i := range 3 {
			b := model.NewBoard(string(rune('A'+3*d+i)), "walnut-black", 1000, 106, 25)
			b.Faces[0] = model.Face{Known: true, Base: model.Heart}
			b.Faces[1] = model.Face{Known: true, Base: model.Heart}
			if i == at[d] {
				b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 33}, {X: 1000, Y: 33}, {X: 1000, Y: 53}, {X: 0, Y: 53}}}}
			}
			p.Boards = append(p.Boards, b)
			m.Strips = append(m.Strips, model.Strip{ID: b.ID + "1", Board: b.ID, X: 30, Y: 3, L: 940, W: 100, Up: 1, Turned: turned && d == 1})
		}
		p.Panels = append(p.Panels, m)
	}
	return p
}

func streaks(s *Session, panel string) (out []Note) {
	for _, n := range s.Notes(panel) {
		if n.Kind == face.LoneStreak {
			out = append(out, n)
		}
	}
	return out
}

// A streak 125 mm from the front of the left door is mirrored by one 125 from
// the back of the right one, once both are seen as one face.
func TestDoorsAreJudgedAsOneFace(t *testing.T) {
	s := New(twoDoors([2]int{1, 1}, true), Options{})
	defer s.Close()
	if len(streaks(s, "left")) != 1 || len(streaks(s, "right")) != 1 {
		t.Fatal("alone each door has a streak")
	}
	if err := s.Commit(model.PutSet{Set: model.NewSet("Doors", "left", "right")}); err != nil {
		t.Fatal(err)
	}
	if l, r := streaks(s, "left"), streaks(s, "right"); len(l)+len(r) != 0 {
		t.Errorf("together: %v %v", l, r)
	}
	s.Undo()
	if len(streaks(s, "left")) != 1 {
		t.Error("with the set taken back the door is not judged alone again")
	}
}

// Where nothing mirrors them both doors are told, each of its own, at its own
// place: the right one's streak lies from y = 30 to 50 of its strip, 25 to 45
// of the door, as 5 mm come off in front.
func TestStreaksOfASetAreToldInTheirPanel(t *testing.T) {
	p := twoDoors([2]int{1, 0}, false)
	p.Sets = []model.Set{model.NewSet("Doors", "left", "right")}
	s := New(p, Options{})
	defer s.Close()
	r := streaks(s, "right")
	if len(r) != 1 {
		t.Fatalf("the right door has %d streaks", len(r))
	}
	n := r[0]
	if math.Abs(n.Place.Min.Y-25) > 0.5 || math.Abs(n.Place.Max.Y-45) > 0.5 {
		t.Errorf("it lies at %v", n.Place)
	}
	if len(n.Strips) == 0 || n.Strips[0] != "D1" || strings.Contains(n.Title, "/") {
		t.Errorf("%v: %s", n.Strips, n.Title)
	}
	if !strings.Contains(n.Text, "Judged as one face with left.") {
		t.Errorf("it is not said with what: %q", n.Text)
	}
}

// Arranging one door minds the other.
func TestSearchMindsTheOtherDoor(t *testing.T) {
	p := twoDoors([2]int{1, 0}, false)
	p.Sets = []model.Set{model.NewSet("Doors", "left", "right")}
	s := New(p, Options{})
	defer s.Close()
	f := searched(t, s, Wish{Panel: "right", NoRoll: true})
	best := f.Answers[0]
	if best.Panel.Strips[1].ID != "D1" || !best.Panel.Strips[1].Turned || best.After.LoneStreaks != 0 {
		t.Errorf("streaks %d, strips %v", best.After.LoneStreaks, best.Panel.Strips)
	}
	for _, r := range f.Now.Reasons {
		if strings.Contains(r.Text, "/") {
			t.Errorf("an id of inside is said: %q", r.Text)
		}
	}
	if err := s.Commit(best.Edit); err != nil {
		t.Fatal(err)
	}
	if n := len(streaks(s, "left")) + len(streaks(s, "right")); n != 0 {
		t.Errorf("%d streaks once laid so", n)
	}
}
