package session

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/cutting"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
	"heartside/layout/offcut"
	"heartside/model"
)

// leftSession has board A, 1000 x 200 x 25, of 40 m2, with a kerf of 3 and nothing
// else left round blanks, a strip of 600 x 100 at its marked corner, and sapwood 40
// wide along the other edge of face 1; board B is not cut.
func leftSession(t *testing.T) *Session {
	t.Helper()
	p := model.NewProject()
	p.Name, p.Currency = "Shelf", "EUR"
	p.Allowances, p.Machines = model.Allowances{Kerf: 3}, model.Machines{}
	a := model.NewBoard("A", "walnut-black", 1000, 200, 25)
	a.Price = &model.Price{Amount: 40, Per: "board"}
	a.Faces[0] = model.Face{Known: true, Zones: []model.Zone{{Kind: model.Sap, Polygon: geom.R(0, 160, 1000, 200).Polygon()}}}
	a.Faces[1] = model.Face{Known: true}
	p.Boards = []*model.Board{a, model.NewBoard("B", "walnut-black", 800, 150, 25)}
	n := model.NewPanel("shelf", model.RoleShelf, 600, 100, 20)
	st := model.NewPlace("1", 600, 100)
	st.Board = "A"
	n.Strips = []model.Strip{st, model.NewPlace("2", 300, 30)}
	p.Panels = []*model.Panel{n}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	return s
}

// By hand, as in layout/offcut: 1000 x 97 beside the strip, 397 x 100 beyond its
// end. Of Aa 40/97 is sapwood on face 1: 41 %; it is 97/200 of the board: 19.40 of
// 40. Of strips of 300 x 30 it gives (1003/303 = 3) x (100/33 = 3).
func TestWhatIsLeftByHand(t *testing.T) {
	s := leftSession(t)
	got, err := s.Left(LeftWish{Least: offcut.Usual})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Boards) != 1 || len(got.Boards[0].Pieces) != 2 || !strings.Contains(got.Lead, "2 pieces of 300 mm × 50 mm or more, 0.137 m²") {
		t.Fatalf("%+v", got)
	}
	a := got.Boards[0].Pieces[0]
	if a.Name != "Aa" || a.Size != "1000 mm × 97 mm × 25 mm" || a.At != "0 mm to 1000 mm from the marked end, 103 mm to 200 mm from the marked edge" ||
		a.Wood != "face 1 with 41 % sapwood, face 2 heartwood" || a.Cost != "19.40 EUR" || len(a.Uses) != 1 || !strings.HasPrefix(a.Uses[0], "9 of strips 300 mm × 30 mm of shelf") {
		t.Errorf("%+v", a)
	}
	got, err = s.Left(LeftWish{Uncut: true, Least: offcut.Usual, Also: &offcut.Want{ID: "runners", Length: 400, Width: 40, Thickness: 15}})
	if err != nil || len(got.Boards) != 2 || len(got.Pieces()) != 3 {
		t.Fatalf("%+v, %v", got, err)
	}
	if b := got.Boards[1].Pieces[0]; b.Size != "800 mm × 150 mm × 25 mm" || b.Wood != "face 1 not looked at, face 2 not looked at" || !strings.HasPrefix(b.Uses[0], "3 of runners (1 along × 3 across)") {
		t.Errorf("%+v", b)
	}
}

// A piece of 200 x 80 with a quarter of either wood lies at y 120 (half sapwood,
// most of the rarer wood), in what is left; reserving it is one step, the piece is
// planned round, and it is in no finished size.
func TestTestPieceIsReserved(t *testing.T) {
	s := leftSession(t)
	got, err := s.TestPieces(offcut.UsualTrial, LeftWish{Least: offcut.Usual})
	if err != nil || got.Found != 1 || got.Edit == nil {
		t.Fatalf("%+v, %v", got, err)
	}
	before := len(finishedSizes(s.Project()))
	if err := s.Commit(got.Edit); err != nil {
		t.Fatal(err)
	}
	n, ok := s.Project().Part("test piece")
	if !ok || n.Kind != model.TestPiece || n.Count != 1 || len(n.Places) != 1 || n.Places[0].Board != "A" || math.Abs(n.Places[0].Y-120) > 5 || n.Places[0].L != 200 {
		t.Fatalf("%+v", n)
	}
	if len(finishedSizes(s.Project())) != before || len(s.PartsToPlan()) != 0 {
		t.Error("the test piece counts as a part of the furniture")
	}
	left, err := s.Left(LeftWish{Least: offcut.Usual})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range left.Pieces() {
		if !x.Place.Intersect(geom.R(n.Places[0].X, n.Places[0].Y, n.Places[0].X+200, n.Places[0].Y+80)).Empty() {
			t.Errorf("%s lies over it", x.Name)
		}
	}
	again, err := s.TestPieces(offcut.UsualTrial, LeftWish{Least: offcut.Usual})
	if err != nil || again.Edit.(model.PutPart).Part.ID != "test piece 2" {
		t.Errorf("%+v, %v", again, err)
	}
	s.Undo()
	if _, ok := s.Project().Part("test piece"); ok {
		t.Error("undo leaves it")
	}
	if none, err := s.TestPieces(offcut.Trial{Length: 900, Width: 190, Count: 1, Least: 0.25}, LeftWish{Least: offcut.Usual}); err != nil || none.Edit != nil {
		t.Errorf("too large a one: %+v, %v", none, err)
	}
}

// Aa becomes a board of 1000 x 97 with the sapwood still 40 wide along its other
// edge, at its share of the price; nothing of the old project changes.
func TestNextProjectStartsFromOffcuts(t *testing.T) {
	s := leftSession(t)
	left, err := s.Left(LeftWish{Least: offcut.Usual})
	if err != nil {
		t.Fatal(err)
	}
	was := s.Project()
	p, notes, err := s.NextProject(left.Pieces()[:1])
	if err != nil || len(notes) != 0 {
		t.Fatal(notes, err)
	}
	if s.Project() != was {
		t.Error("the old project changed")
	}
	b := p.Boards[0]
	if len(p.Boards) != 1 || len(p.Panels) != 0 || p.Currency != "EUR" || b.ID != "A" || b.Length != 1000 || b.Width != 97 || !strings.Contains(b.Note, "Aa, left of board A of Shelf") {
		t.Errorf("%+v, %+v", p, b)
	}
	layouttest.Near(t, "price", b.Price.Amount, 19.40, 1e-9)
	if _, other := model.FaceTape(b, 1); other != (model.Tape{40, 40, 40}) {
		t.Errorf("sapwood along the other edge %v", other)
	}
	if _, _, err := s.NextProject(nil); err == nil {
		t.Error("from nothing: no error")
	}
}

// Whatever lies on a board: pieces that are left lie apart from it, and from each
// other, by a saw cut, on the board.
func TestLeftoversLieClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := model.NewProject()
		b := model.NewBoard("A", "teak", rapid.Float64Range(600, 2500).Draw(t, "length"), rapid.Float64Range(80, 400).Draw(t, "width"), 25)
		p.Boards = []*model.Board{b}
		n := model.NewPanel("p", model.RoleTop, 400, 200, 20)
		for i := range rapid.IntRange(0, 4).Draw(t, "strips") {
			st := model.NewPlace(string(rune('a'+i)), rapid.Float64Range(100, 500).Draw(t, "l"), rapid.Float64Range(20, 80).Draw(t, "w"))
			st.Board, st.X, st.Y = "A", rapid.Float64Range(0, b.Length).Draw(t, "x"), rapid.Float64Range(0, b.Width).Draw(t, "y")
			n.Strips = append(n.Strips, st)
		}
		p.Panels = []*model.Panel{n}
		s := New(p, Options{})
		defer s.Close()
		got, err := s.Left(LeftWish{Uncut: true, Least: offcut.Usual})
		if err != nil {
			t.Fatal(err)
		}
		pieces := got.Pieces()
		a := AllowancesOf(p.Allowances)
		for i := range pieces {
			r := pieces[i].Place
			if r.Min.X < -1e-6 || r.Min.Y < -1e-6 || r.Max.X > b.Length+1e-6 || r.Max.Y > b.Width+1e-6 {
				t.Fatalf("%+v leaves the board", r)
			}
			for j := range pieces[:i] {
				if !r.Inset(-a.Kerf + 1e-6).Intersect(pieces[j].Place).Empty() {
					t.Fatalf("%+v and %+v have no saw cut between them", r, pieces[j].Place)
				}
			}
			for _, st := range n.Strips {
				l, w := cutting.BlankSize(st.L, st.W, a)
				blank := geom.R(st.X-(l-st.L)/2, st.Y-(w-st.W)/2, st.X+(l+st.L)/2, st.Y+(w+st.W)/2)
				if !r.Inset(-a.Kerf + 1e-6).Intersect(blank).Empty() {
					t.Fatalf("%+v lies over the blank %+v", r, blank)
				}
			}
		}
	})
}
