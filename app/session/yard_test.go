package session

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"heartside/layout/buy"
	"heartside/layout/layouttest"
	"heartside/layout/terms"
	"heartside/model"
	"heartside/model/unit"
)

// yardSession has one shelf of 1000 x wide x 20 with a limit of sapwood on its
// face, and no allowances: widths add up by hand.
func yardSession(t *testing.T, wide, most float64) (*Session, *Yard) {
	t.Helper()
	p := model.NewProject()
	p.Allowances, p.Machines = model.Allowances{}, model.Machines{}
	n := model.NewPanel("shelf", model.RoleShelf, 1000, wide, 20)
	n.UnwantedLimit[0] = most
	p.Panels = []*model.Panel{n}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	return s, &Yard{Species: "walnut-black", Wanted: model.WantHeart}
}

// offer is a board 1000 x 200 x 25 with sapwood along the marked edge of face 1.
func offer(id string, sap, price float64) Offer {
	return Offer{ID: id, Length: 1000, Width: 200, Thickness: 25, Sap: [2][2]buy.Widths{{{sap, sap, sap}, {}}, {}}, Rate: RateOf(price, "board")}
}

func chosenAt(t *testing.T, s *Session, y *Yard) YardChoice {
	t.Helper()
	c, err := s.AtYard(y).Choose(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestSapwoodIsTypedAsWithATape(t *testing.T) {
	for _, c := range []struct {
		text string
		sys  unit.System
		want buy.Widths
		seen bool
	}{
		{"", unit.MM, buy.Widths{}, false},
		{"0", unit.MM, buy.Widths{}, true},
		{"22", unit.MM, buy.Widths{22, 22, 22}, true},
		{"22/30/41", unit.MM, buy.Widths{22, 30, 41}, true},
		{" 22 / 30,5 / 41 ", unit.MM, buy.Widths{22, 30.5, 41}, true},
		{"2.2 cm; 30; 41", unit.MM, buy.Widths{22, 30, 41}, true},
		{"1/2in", unit.MM, buy.Widths{12.7, 12.7, 12.7}, true},
		{`1/2"`, unit.MM, buy.Widths{12.7, 12.7, 12.7}, true},
		{"1/2", unit.Inch, buy.Widths{12.7, 12.7, 12.7}, true}, // half an inch, not one and two
		{"1/2/3", unit.Inch, buy.Widths{25.4, 50.8, 76.2}, true},
		{"1/2 / 3/4 / 1", unit.Inch, buy.Widths{12.7, 19.05, 25.4}, true},
		{"1/2; 3/4; 1 1/4", unit.Inch, buy.Widths{12.7, 19.05, 31.75}, true},
	} {
		w, seen, err := TapeOf(c.text, c.sys)
		if err != nil || seen != c.seen {
			t.Errorf("%q: %v, %v", c.text, seen, err)
		}
		for i := range w {
			layouttest.Near(t, c.text, w[i], c.want[i], 1e-9)
		}
		if again, _, err := TapeOf(TapeText(w, c.sys), c.sys); err != nil || again != w {
			t.Errorf("%q is written %q and read %v, %v", c.text, TapeText(w, c.sys), again, err)
		}
	}
	for _, text := range []string{"22/30", "1/2/3/4", "x", "-3", "22//41", "22;30"} {
		if _, _, err := TapeOf(text, unit.MM); err == nil {
			t.Errorf("%q: no error", text)
		}
	}
}

// Board feet, area and thickness are three things. A board of 96 x 6 inches has 4
// square feet of face: at an inch thick 4 board feet, at 5/4 it has 5. A cubic
// foot is 12 board feet. 2.4 m x 0.2 m x 25 mm are 0.012 m3.
func TestPriceOfABoardByEachUnit(t *testing.T) {
	thick := func(text string) float64 {
		v, _, err := unit.ParseThickness(text, unit.Inch)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, c := range []struct {
		l, w, t, amount float64
		per             string
		want            float64
	}{
		{96 * 25.4, 6 * 25.4, thick("4/4"), 10, "board-foot", 40},
		{96 * 25.4, 6 * 25.4, thick("5/4"), 10, "board-foot", 50},
		{96 * 25.4, 6 * 25.4, thick("4/4"), 120, "cubic-foot", 40},
		{2400, 200, 25, 2000, "cubic-metre", 24},
		{2400, 200, 25, 30, "board", 30},
		{1200, 200, 50, 30, "board", 30},
	} {
		o := Offer{ID: "A", Length: c.l, Width: c.w, Thickness: c.t, Rate: RateOf(c.amount, c.per)}
		got, ok := o.Cost()
		if !ok {
			t.Fatalf("%+v has no price", c)
		}
		layouttest.Near(t, c.per, got, c.want, 1e-9)
	}
	if _, ok := (&Offer{ID: "A", Length: 1, Width: 1, Thickness: 1}).Cost(); ok {
		t.Error("a board without a price has one")
	}
}

// 200 mm less 20 of sapwood make a shelf of 180 without any; at 150 the
// clear board is dearer than the one at 90. The sapwood goes through the boards.
func TestTheCheapestBoardThatMakesTheShelf(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	y.Offers = []Offer{offer("A", 0, 150), offer("B", 20, 90), offer("C", 21, 10)}
	for i := range y.Offers {
		y.Offers[i].Sap[1] = y.Offers[i].Sap[0]
	}
	c := chosenAt(t, s, y)
	if !c.Made || !slices.Equal(c.Chosen, []string{"B"}) || c.Cost != 90 || !strings.Contains(c.Lead, "Buy B: 90.00") || !strings.Contains(c.Proof, "No other choice costs less") {
		t.Fatalf("%+v", c)
	}
	// With B the job costs 90, without it 150: B saves 150. C is a mm short.
	w, err := s.AtYard(y).Worths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "B is worth", w["B"].Amount, 150, 1e-9)
	layouttest.Near(t, "A is worth", w["A"].Amount, 90, 1e-9)
	if w["C"].Amount != 0 || !strings.Contains(w["C"].Text, "worth nothing") || !strings.Contains(w["B"].Text, "150.00") {
		t.Errorf("%+v", w)
	}
	y.Offers[1].Say = model.OfferLeave
	if c := chosenAt(t, s, y); !slices.Equal(c.Chosen, []string{"A"}) {
		t.Errorf("with B left: %+v", c)
	}
	y.Offers[0].Say = model.OfferKeep
	if c := chosenAt(t, s, y); len(c.Chosen) != 0 || !strings.Contains(c.Lead, "150.00") || !strings.Contains(c.Lead, "Nothing more") {
		t.Errorf("with A kept: %+v", c)
	}
	// One price missing: least wood counts, and nobody takes C for a gift.
	y.Offers[0].Say, y.Offers[1].Say, y.Offers[1].Rate = model.OfferOpen, model.OfferOpen, nil
	y.Offers[0].Width = 190
	if c := chosenAt(t, s, y); !slices.Equal(c.Chosen, []string{"A"}) || c.Cost != 0 || !strings.Contains(c.Lead, "Not every board has a price") {
		t.Errorf("without a price: %+v", c)
	}
}

// A face nobody looked at may be all sapwood; a look of heartwood only is a
// limit where the panel gives none.
func TestUnseenFacesAndLooksCount(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	y.Offers = []Offer{offer("A", 0, 10)}
	y.Offers[0].Unseen = [2]bool{true, true}
	if c := chosenAt(t, s, y); c.Made {
		t.Errorf("not looked at: %+v", c)
	}
	y.Offers[0].Unseen[1] = false
	if c := chosenAt(t, s, y); !c.Made {
		t.Errorf("face 2 looked at: %+v", c)
	}
	s, y = yardSession(t, 180, 1)
	y.Offers = []Offer{offer("A", 100, 10)}
	if c := chosenAt(t, s, y); !c.Made {
		t.Errorf("any wood: %+v", c)
	}
	n := *s.Project().Panel("shelf")
	n.Look = model.Look("heart-only")
	if err := s.Commit(model.SetPanel{Panel: &n}); err != nil {
		t.Fatal(err)
	}
	y.Offers[0].Sap[1] = y.Offers[0].Sap[0]
	if c := chosenAt(t, s, y); c.Made {
		t.Errorf("heartwood only: %+v", c)
	}
}

// Of 300 mm a clear board gives 200: 100 are missing. A tenth of 300 may be
// sapwood, so the missing board may have 30 mm of it.
func TestWhatIsMissingInWords(t *testing.T) {
	s, y := yardSession(t, 300, 0)
	y.Offers = []Offer{offer("A", 0, 10)}
	c := chosenAt(t, s, y)
	if want := "shelf: one more board of at least 100 mm × 1000 mm, 20 mm thick, with no sapwood on one face."; c.Made || len(c.Lacking) != 1 || c.Lacking[0] != want {
		t.Errorf("%+v", c)
	}
	s, y = yardSession(t, 300, 0.1)
	y.Offers = []Offer{offer("A", 0, 10)}
	c = chosenAt(t, s, y)
	if want := "with no more sapwood than 30 mm along one edge of one face, the other edge clear."; len(c.Lacking) != 1 || !strings.HasSuffix(c.Lacking[0], want) {
		t.Errorf("%+v", c)
	}
	// A board of those figures does; a mm more sapwood does not.
	b := Offer{ID: "B", Length: 1000, Width: 100, Thickness: 20, Sap: [2][2]buy.Widths{{{30, 30, 30}, {}}, {{100, 100, 100}, {}}}, Rate: RateOf(5, "board")}
	y.Offers = append(y.Offers, b)
	if c := chosenAt(t, s, y); !c.Made {
		t.Errorf("with 30: %+v", c)
	}
	y.Offers[1].Sap[0][0] = buy.Widths{30, 30, 31}
	if c := chosenAt(t, s, y); c.Made {
		t.Errorf("with 31: %+v", c)
	}
	// In inches figures are rounded to what is safe: 100 mm are 3.937", up to 3 15/16";
	// 30 mm are 1.18", down to 1 1/8".
	p := *s.Project()
	p.Units = unit.Inch
	in := New(&p, Options{})
	t.Cleanup(in.Close)
	y.Offers = y.Offers[:1]
	if c := chosenAt(t, in, y); len(c.Lacking) != 1 || !strings.Contains(c.Lacking[0], `at least 3 15/16" × 39 3/8"`) || !strings.Contains(c.Lacking[0], `than 1 1/8" along`) {
		t.Errorf("%+v", c)
	}
}

// Boards of the rack are paid; where they do not count the board is bought.
func TestTheRackIsPaid(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	b := model.NewBoard("A", "walnut-black", 1000, 180, 25)
	b.Faces[0].Known, b.Faces[1].Known = true, true
	if err := s.Commit(model.AddBoard{Board: b}); err != nil {
		t.Fatal(err)
	}
	y.Offers = []Offer{offer("B", 0, 70)}
	if c := chosenAt(t, s, y); !c.Made || len(c.Chosen) != 0 || !strings.Contains(c.Lead, "Nothing is to be bought") {
		t.Errorf("%+v", c)
	}
	y.NoRack = true
	if c := chosenAt(t, s, y); !slices.Equal(c.Chosen, []string{"B"}) {
		t.Errorf("the rack left out: %+v", c)
	}
	y.NoRack, y.Species = false, "cherry-black" // walnut makes no shelf of cherry
	if c := chosenAt(t, s, y); !slices.Equal(c.Chosen, []string{"B"}) {
		t.Errorf("another wood: %+v", c)
	}
}

// A sap line that bulges to 40 between stations where a tape finds 10 counts as
// 40 somewhere near; and with 200 cut off the marked end the first station is at
// 200. The line falls from 50 at the marked end to 0 at the other, 1000 on: at
// 200 it is 40, at 600 it is 20.
func TestRackBoardsOnTheSafeSide(t *testing.T) {
	b := model.NewBoard("A", "walnut-black", 1000, 200, 25)
	b.Faces[0] = model.Face{Known: true, Base: model.Heart, Zones: model.FaceTapeZones(1, 1000, 200, model.Tape{50, 25, 0}, model.Tape{})}
	b.Cut[0] = 200
	got := rackBoard(b, wantedOf(model.WantHeart))
	if got.Length != 800 || !got.Unseen[1] {
		t.Errorf("%+v", got)
	}
	for i, want := range []float64{40, 20, 0} {
		layouttest.Near(t, "the line", got.Sap[0][0][i], want, 0.01)
	}
	b.Cut[0] = 0
	z := model.ZonesFromTape(1000, 200, model.Tape{10, 10, 10}, model.Tape{})
	bulge := model.ZonesFromTape(500, 200, model.Tape{0, 40, 0}, model.Tape{})
	b.Faces[0].Zones = append(z, bulge...)
	got = rackBoard(b, wantedOf(model.WantHeart))
	// Half way to the middle the bulge is 40, the line between the stations 10.
	for i := range 3 {
		layouttest.Near(t, "with the bulge", got.Sap[0][0][i], 40, 0.7)
	}
	// What is seen on face 2 along the marked edge stays there.
	b.Faces[1] = model.Face{Known: true, Base: model.Heart, Zones: model.FaceTapeZones(2, 1000, 200, model.Tape{30, 30, 30}, model.Tape{})}
	if got = rackBoard(b, wantedOf(model.WantHeart)); math.Abs(got.Sap[1][0][1]-30) > 0.01 || got.Sap[1][1][1] != 0 {
		t.Errorf("face 2: %+v", got.Sap[1])
	}
}

// at puts boards on offer into the project.
func (y *Yard) at(t *testing.T, s *Session) {
	t.Helper()
	if err := s.Commit(model.SetYard{Species: y.Species, Wanted: y.Wanted, NoRack: y.NoRack}); err != nil {
		t.Fatal(err)
	}
	for _, o := range y.Offers {
		edit, err := s.PutOffer("", o)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Commit(edit); err != nil {
			t.Fatal(err)
		}
	}
}

// What was recorded comes back as it was typed, to a thousandth of a mm.
func TestOffersComeBack(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	a, b := offer("A", 20, 90), offer("B", 0, 0)
	a.Sap[1] = [2]buy.Widths{{0, 0, 30}, {10, 20, 0}}
	a.Say, b.Rate, b.Unseen = model.OfferKeep, nil, [2]bool{false, true}
	y.NoRack, y.Offers = true, []Offer{a, b}
	y.at(t, s)
	got := s.Yard()
	if got.Species != y.Species || !got.NoRack || len(got.Offers) != 2 {
		t.Fatalf("%+v", got)
	}
	for i, o := range got.Offers {
		was := y.Offers[i]
		if o.ID != was.ID || o.Say != was.Say || o.Unseen != was.Unseen || (o.Rate == nil) != (was.Rate == nil) {
			t.Errorf("%+v came back as %+v", was, o)
		}
		for f := range o.Sap {
			for e := range o.Sap[f] {
				for k := range o.Sap[f][e] {
					layouttest.Near(t, o.ID, o.Sap[f][e][k], was.Sap[f][e][k], 1e-3)
				}
			}
		}
	}
}

// Kept boards come into the rack as one change, with the sapwood where it was
// taped; taking that back brings them onto the list again.
func TestKeptBoardsIntoTheRack(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	a := offer("A", 20, 90)
	a.Sap[1][0] = buy.Widths{0, 0, 30}
	a.Sap[1][1] = buy.Widths{10, 20, 0}
	b := offer("B", 0, 50)
	b.Unseen[1] = true
	y.Offers = []Offer{a, b, offer("C", 0, 1)}
	y.at(t, s)
	if _, err := s.TakeKept(); err == nil {
		t.Error("nothing is kept: no error")
	}
	if err := s.Commit(model.SayOffers{IDs: []string{"A", "B"}, Say: model.OfferKeep}); err != nil {
		t.Fatal(err)
	}
	edit, err := s.TakeKept()
	if err != nil || !slices.Equal(edit.IDs, []string{"A", "B"}) {
		t.Fatal(edit, err)
	}
	before, _ := s.Depth()
	if err := s.Commit(edit); err != nil {
		t.Fatal(err)
	}
	if after, _ := s.Depth(); after != before+1 || len(s.Project().Boards) != 2 || len(s.Yard().Offers) != 1 {
		t.Errorf("%d steps, %d boards, %d on offer", after-before, len(s.Project().Boards), len(s.Yard().Offers))
	}
	m := s.Project().Board("A")
	if m.Species != "walnut-black" || m.Wanted != model.WantHeart || *m.Price != (model.Price{Amount: 90, Per: "board"}) {
		t.Errorf("%+v", m)
	}
	for f := range a.Sap {
		marked, other := model.FaceTape(m, f+1)
		for i := range marked {
			layouttest.Near(t, "marked edge", marked[i], a.Sap[f][0][i], 1e-3)
			layouttest.Near(t, "other edge", other[i], a.Sap[f][1][i], 1e-3)
		}
	}
	if n := s.Project().Board("B"); !n.Faces[0].Known || n.Faces[1].Known {
		t.Errorf("faces looked at: %+v", n.Faces)
	}
	// The same sapwood as layout/buy gives: 20 x 1000 on face 1; on face 2 two
	// triangles of 500 x 30 and 500 x 20 and what is between 10 and 20 for 500.
	bought := a.board()
	want, err := terms.Whole(bought.AsTaped())
	if err != nil {
		t.Fatal(err)
	}
	got, err := terms.Whole(s.Board("A"))
	if err != nil {
		t.Fatal(err)
	}
	for f, area := range [2]float64{20000, 500*30/2 + 500*20/2 + 500*15} {
		layouttest.Near(t, "sapwood", got.Face[f].Sap, area, 1)
		layouttest.Near(t, "sapwood as taped", want.Face[f].Sap, area, 1)
	}
	s.Undo()
	if len(s.Project().Boards) != 0 || len(s.Yard().Offers) != 3 {
		t.Errorf("after undo %d boards in the rack, %d on offer", len(s.Project().Boards), len(s.Yard().Offers))
	}
	s.Redo()
	if len(s.Yard().Offers) != 1 {
		t.Error("after redo they are on offer still")
	}
}

// A sap line that bulges between the three places of a tape counts at a board on
// offer only where its photograph shows it: 10 at the places, 40 between them.
func TestAPicturedBoardOnOfferIsOnTheSafeSide(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	o := offer("A", 0, 50)
	zones := append(model.ZonesFromTape(1000, 200, model.Tape{10, 10, 10}, model.Tape{}), model.ZonesFromTape(500, 200, model.Tape{0, 40, 0}, model.Tape{})...)
	o.Faces[0] = model.Face{Photo: "a1.jpg", Known: true, Base: model.Heart, Zones: zones}
	y.Offers = []Offer{o}
	y.at(t, s)
	back := s.Yard()
	if got := back.Offers[0]; got.Sap[0][0] != (buy.Widths{10, 10, 10}) || got.Faces[0].Photo != "a1.jpg" {
		t.Errorf("%+v", got)
	}
	j := s.AtYard(&back)
	for _, w := range j.boards[0].Sap[0][0] {
		layouttest.Near(t, "with the bulge", w, 40, 0.7)
	}
}

func TestLettersStandOnce(t *testing.T) {
	s, y := yardSession(t, 180, 0)
	if err := s.Commit(model.AddBoard{Board: model.NewBoard("A", "walnut-black", 1000, 180, 25)}); err != nil {
		t.Fatal(err)
	}
	y.Offers = []Offer{offer("B", 0, 1)}
	y.at(t, s)
	if id := s.YardID(); id != "C" {
		t.Errorf("the next letter is %s", id)
	}
	if _, err := s.PutOffer("", offer("A", 0, 1)); err == nil || !strings.Contains(err.Error(), "in the rack") {
		t.Error(err)
	}
	if _, err := s.PutOffer("", offer("B", 0, 1)); err == nil || !strings.Contains(err.Error(), "letter is C") {
		t.Error(err)
	}
	edit, err := s.PutOffer("B", offer("B", 5, 1))
	if err == nil {
		err = s.Commit(edit)
	}
	if got := s.Yard(); err != nil || len(got.Offers) != 1 || got.Offers[0].Sap[0][0][0] != 5 {
		t.Error("changing it", err, got)
	}
	if _, err := s.PutOffer("", offer("C", 201, 1)); err == nil {
		t.Error("sapwood wider than the board: no error")
	}
}
