package session

import (
	"slices"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/model"
)

// legged is fourStrips, whose blanks are just as wide as their boards here, with
// a wide board more and legs that are cut from places on boards.
func legged(places ...model.PartPlace) *model.Project {
	p := fourStrips()
	p.Allowances.Rest = 1.5
	b := model.NewBoard("F", "walnut-black", 1000, 300, 55)
	for i := range b.Faces {
		b.Faces[i] = model.Face{Known: true, Base: model.Heart}
	}
	p.Boards = append(p.Boards, b)
	leg := model.NewPart("leg", model.Leg, 4, 720, 50, 50)
	leg.Places = places
	p.Parts = []model.Part{leg}
	return p
}

func titles(list []Note) string {
	var out []string
	for _, n := range list {
		out = append(out, n.Title)
	}
	return strings.Join(out, "\n")
}

func TestCuttingsAreStripsOfNoPanel(t *testing.T) {
	s := New(legged(model.PartPlace{Board: "F", X: 30, Y: 10, L: 730, W: 56}, model.PartPlace{Board: "F", X: 30, Y: 90, L: 730, W: 56, Stage: model.Sawn}), Options{})
	defer s.Close()
	list := s.Cuttings()
	if len(list) != 2 || list[0].Board != s.Board("F") || list[0].X != 30 || list[0].W != 56 || list[1].Stage != face.Sawn {
		t.Fatalf("%+v", list)
	}
	if got := s.Number("", list[1].ID); got != "leg 2" {
		t.Errorf("the second is called %q", got)
	}
	one := model.NewPart("rail", model.Rail, 1, 500, 60, 22)
	one.Places = []model.PartPlace{{Board: "F", X: 30, Y: 200, L: 510, W: 66}}
	if err := s.Commit(model.PutPart{Part: one}); err != nil {
		t.Fatal(err)
	}
	if got := s.Number("", CuttingID("rail", 0)); got != "rail" {
		t.Errorf("the only one is called %q", got)
	}
	for _, id := range []string{"leg", "leg/0", "leg/3", "leg/x", "top/1", "A1"} {
		if _, _, ok := CuttingOf(s.Project(), id); ok {
			t.Errorf("%q is taken for a cutting", id)
		}
	}
	if len(s.Problems()) != 0 {
		t.Errorf("what fits is told of: %v", s.Problems())
	}
}

// The spare lies from x = 5 to 995 with its ends of 25, over the whole width of
// board E; a leg in the middle of it needs the same wood.
func TestCuttingsOverStripsAreTold(t *testing.T) {
	s := New(legged(model.PartPlace{Board: "A", X: 100, Y: 20, L: 730, W: 56}, model.PartPlace{Board: "E", X: 100, Y: 20, L: 730, W: 56}), Options{})
	defer s.Close()
	var found []Note
	for _, n := range s.Notes("top") {
		if n.Kind == face.PartsOverlap {
			found = append(found, n)
		}
	}
	if len(found) != 1 || found[0].Title != "Cut from the same wood: strip A1 and part leg 1" || !found[0].Severe {
		t.Errorf("the panel is told %q", titles(found))
	}
	loose := titles(s.LooseNotes())
	if loose != "Cut from the same wood: strip E1 and part leg 2" {
		t.Errorf("what concerns no panel: %q", loose)
	}
	if !slices.ContainsFunc(s.Problems(), func(p string) bool { return strings.HasPrefix(p, "Cut from the same wood: strip E1") }) {
		t.Errorf("it is not among what is to be put right: %v", s.Problems())
	}
}

// A blank is 25 mm longer at each end and 3 mm wider at each edge: a leg from
// x = 980 on leaves a board of 1000 mm by 730 - 20 + 25 = 735 mm; a rail 285 mm
// wide needs 291 where the machine takes 290.
func TestCuttingsOffTheBoardAreTold(t *testing.T) {
	p := legged(model.PartPlace{Board: "F", X: 980, Y: 10, L: 730, W: 56})
	rail := model.NewPart("rail", model.Rail, 1, 200, 270, 22)
	rail.Places = []model.PartPlace{{Board: "F", X: 30, Y: 8, L: 200, W: 285}}
	p.Parts = append(p.Parts, rail)
	p.Machines.Flatten, p.Machines.Shortest = 290, 300
	s := New(p, Options{})
	defer s.Close()
	list := s.LooseNotes()
	if len(list) != 3 {
		t.Fatalf("told: %q", titles(list))
	}
	if list[0].Title != "Runs off its board: part leg 1" || !strings.Contains(list[0].Text, "735 mm over the other end") {
		t.Errorf("%s. %s", list[0].Title, list[0].Text)
	}
	if list[1].Title != "Too short for your machines: part rail, 250 mm" || list[2].Title != "Wider than your machine: part rail, 291 mm" {
		t.Errorf("told: %q", titles(list))
	}
}

// A fix moves no strip onto a part: board F has room for the strip only where
// the leg is to come from.
func TestFixesKeepClearOfCuttings(t *testing.T) {
	p := legged()
	p.Boards[5].Width, p.Boards[5].Thickness = 106, 25
	p.Boards[2].Length = 900 // too short for strip C1
	off := func(s *Session) (fixes []Fix) {
		for _, n := range s.Notes("top") {
			if n.Kind == face.OutsideBoard {
				fixes = append(fixes, n.Fixes...)
			}
		}
		return fixes
	}
	toF := func(list []Fix) bool {
		return slices.ContainsFunc(list, func(f Fix) bool { return strings.Contains(f.Text, "board F") })
	}
	s := New(p, Options{})
	defer s.Close()
	if !toF(off(s)) {
		t.Fatalf("board F is not offered while it is free: %v", off(s))
	}
	if err := s.Commit(model.PlacePart{Part: "leg", Places: []model.PartPlace{{Board: "F", X: 100, Y: 20, L: 730, W: 56}}}); err != nil {
		t.Fatal(err)
	}
	if toF(off(s)) {
		t.Error("the strip would be laid over the leg")
	}
}

func spoil(t *testing.T, s *Session, board string) {
	t.Helper()
	if err := s.Commit(model.SpoilBoard{ID: board, Spoiled: true}); err != nil {
		t.Fatal(err)
	}
}

func TestSpoiledBoardIsTold(t *testing.T) {
	s := New(legged(model.PartPlace{Board: "A", X: 100, Y: 20, L: 730, W: 56, Stage: model.Sawn}, model.PartPlace{Board: "E", X: 100, Y: 20, L: 730, W: 56}), Options{})
	defer s.Close()
	spoil(t, s, "A")
	n := s.Notes("top")[0]
	if n.Kind != BoardSpoiled || !n.Severe || n.Title != "Board A is spoiled: strip A1 is still to be cut from it" || !slices.Equal(n.Strips, []string{"A1"}) {
		t.Errorf("the first note is %q", n.Title)
	}
	// The strips are 400 wide for a panel of 390; A1 is the second of 100 mm.
	if n.Place.Min.Y != 95 || n.Place.Max.Y != 195 || n.Place.Min.X != 0 || n.Place.Max.X != 900 {
		t.Errorf("it lies at %v", n.Place)
	}
	if strings.Contains(strings.Join(s.Problems(), " "), "spoiled") {
		t.Errorf("told twice: %v", s.Problems())
	}
	spoil(t, s, "E")
	if list := s.LooseNotes(); list[0].Title != "Board E is spoiled: strip E1 and part leg 2 are still to be cut from it" {
		t.Errorf("what lies in no panel: %q", titles(list))
	}
	s.Undo()
	s.Undo()
	if s.Notes("top")[0].Kind == BoardSpoiled {
		t.Error("taken back it is told still")
	}
	if err := s.Commit(model.SetStage{Panel: "top", Strip: "A1", Stage: model.Sawn}); err != nil {
		t.Fatal(err)
	}
	spoil(t, s, "A")
	if s.Notes("top")[0].Kind == BoardSpoiled {
		t.Error("what was sawn before is told of")
	}
}

// Nothing new is cut from a spoiled board: neither a fix nor a search takes its
// wood, and spares that cannot be cut stay where they are.
func TestSpoiledBoardIsNotOffered(t *testing.T) {
	p := legged()
	p.Boards[5].Width, p.Boards[5].Thickness = 106, 25
	p.Boards[2].Length = 900 // too short for strip C1, which would go to F
	s := New(p, Options{})
	defer s.Close()
	spoil(t, s, "F")
	spoil(t, s, "E")
	for _, n := range s.Notes("top") {
		for _, f := range n.Fixes {
			if strings.Contains(f.Text, "board F") || strings.Contains(f.Text, "E1") {
				t.Errorf("%s: %s", n.Title, f.Text)
			}
		}
	}
	for _, b := range s.Sound() {
		if b.ID == "E" || b.ID == "F" {
			t.Errorf("board %s counts as sound", b.ID)
		}
	}
	f := searched(t, s, Wish{Panel: "top", Spares: true})
	for _, a := range f.Answers {
		for i := range a.Panel.Strips {
			if a.Panel.Strips[i].ID == "E1" {
				t.Error("a spare of a spoiled board is taken in")
			}
		}
	}
	for _, n := range s.Notes("top") {
		if len(n.Fixes) == 0 {
			continue
		}
		if err := s.Apply(n.Fixes[0]); err != nil {
			t.Fatal(err)
		}
		if len(s.Project().Spares) == 0 {
			t.Errorf("%s: the spare is gone", n.Fixes[0].Text)
		}
		s.Undo()
	}
}

// What the session tells of as long as it is so is no remark on the file too.
func TestSpoiledBoardIsNotRemarkedOnTwice(t *testing.T) {
	const job = `heartside: 1
boards: [{id: A, species: walnut-black, length: 1000, width: 220, thickness: 20, spoiled: true}]
panels: [{id: top, length: 900, width: 200, thickness: 16, strips: [{id: A1, board: A, x: 30, y: 5, length: 930, width: 210, up: 1}]}]
`
	s := New(Blank(), Options{})
	defer s.Close()
	if err := s.OpenFrom([]byte(job), "job.yaml", nil); err != nil {
		t.Fatal(err)
	}
	if len(s.Notices()) != 0 || s.Notes("top")[0].Kind != BoardSpoiled {
		t.Errorf("remarks %v, notes %q", s.Notices(), titles(s.Notes("top")))
	}
}
