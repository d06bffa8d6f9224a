package buy

import (
	"context"
	"math"
	"slices"
	"testing"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/layouttest"
)

// even is sapwood of the same width all along.
func even(mm float64) Widths { return Widths{mm, mm, mm} }

// bare is a board without sapwood.
func bare(id string, l, w, price float64) Board {
	return Board{ID: id, Length: l, Width: w, Thickness: 26, Price: price}
}

// sappy is a board with sapwood along the marked edge of face 1, and of face 2.
func sappy(id string, l, w, price, one, two float64) Board {
	b := bare(id, l, w, price)
	b.Sap[0][0], b.Sap[1][0] = even(one), even(two)
	return b
}

// usual is what working takes, by figures that are easy to add up: 5 mm off each
// long edge, 3 mm of kerf, 25 mm at each end.
var usual = Work{Allowances: cutting.Allowances{Kerf: 3, Rest: 3, Joint: 2, Ends: 25}}

func choose(t *testing.T, boards []Board, needs []Need, w Work) Choice {
	t.Helper()
	c, err := Choose(context.Background(), boards, needs, w, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !c.Proved {
		t.Errorf("not proved: %+v", c)
	}
	return c
}

func anyWood(id string, l, w float64) Need {
	return Need{ID: id, Length: l, Width: w, Most: [2]float64{1, 1}}
}

// By hand: a panel of 900 x 450. A board of 2000 has two lengths of 900, since 2
// x 900 + 53 + 2 x 25 = 1903; each gives its width less 10 mm. 240 wide at 60:
// twice 230 = 460, enough. 200 wide at 25: 2 x 190 = 380, not enough; 1000 long,
// 90 wide at 9: 80 more, 460. So 34 against 60; two of the 200 would be 50.
func TestCheapestBoardsByHand(t *testing.T) {
	boards := []Board{bare("A", 2000, 240, 60), bare("B", 2000, 200, 25), bare("C", 1000, 90, 9), bare("D", 2000, 200, 25)}
	c := choose(t, boards, []Need{anyWood("top", 900, 450)}, usual)
	if !c.Made || c.Cost != 34 || !slices.Equal(c.Boards, []string{"B", "C"}) || c.By != ByMoney {
		t.Errorf("%+v", c)
	}
	want := []Cut{
		{"B", "top", 25, 925, 1, 190, [2]int{1, 1}},
		{"B", "top", 978, 1878, 1, 190, [2]int{1, 1}},
		{"C", "top", 25, 925, 1, 80, [2]int{1, 1}},
	}
	if !slices.Equal(c.Cuts, want) {
		t.Errorf("cuts %+v", c.Cuts)
	}
	// A millimetre short for the second length, B gives 190 only: A it is.
	boards[1].Length, boards[3].Length = 1902, 1902
	if c = choose(t, boards, []Need{anyWood("top", 900, 450)}, usual); c.Cost != 59 {
		t.Errorf("%+v", c) // B, C, D: 190 + 80 + 190 = 460
	}
}

// Snipe of 60 at both ends takes the second length: 1800 + 53 + 120 = 1973.
func TestSnipeTakesLength(t *testing.T) {
	w := usual
	w.Allowances.Snipe = 60
	for l, made := range map[float64]bool{1973: true, 1972: false} {
		if c := choose(t, []Board{bare("A", l, 235, 1)}, []Need{anyWood("top", 900, 450)}, w); c.Made != made {
			t.Errorf("%g long: made %v", l, c.Made)
		}
	}
}

// A machine of 110 mm takes strips of 100: a board of 329 gives three of them,
// 3 x 110 + 2 x 3 = 336 is too much, so 329 - 30 - 6 = 293 in three.
func TestMachineWidthMakesMoreStrips(t *testing.T) {
	w := usual
	w.Machines.Flatten = 110
	for need, made := range map[float64]bool{293: true, 294: false} {
		c := choose(t, []Board{bare("A", 1000, 329, 1)}, []Need{anyWood("top", 900, need)}, w)
		if c.Made != made {
			t.Errorf("%g: made %v", need, c.Made)
		}
		if made && c.Cuts[0].Strips != 3 {
			t.Errorf("%+v", c.Cuts)
		}
	}
	// Between two numbers of strips: strips of 80 to 100 from 130 - 10 are one of
	// 100; two would be 53 each.
	n := anyWood("top", 900, 100)
	n.Narrowest = 80
	if c := choose(t, []Board{bare("A", 1000, 130, 1)}, []Need{n}, w); !c.Made || c.Cuts[0].Width != 100 {
		t.Errorf("%+v", c)
	}
	n.Width = 101
	if c := choose(t, []Board{bare("A", 1000, 130, 1)}, []Need{n}, w); c.Made {
		t.Errorf("%+v", c)
	}
	if _, err := Choose(context.Background(), nil, []Need{{ID: "x", Length: 1, Width: 1, Narrowest: 120}}, w, Options{}); err == nil {
		t.Error("strips of at least 120 on a machine of 110: no error")
	}
}

// The least length of the machines is that of the blank: 300 - 50 = 250 as glued.
func TestMachineLength(t *testing.T) {
	w := usual
	w.Machines.Shortest = 300
	for l, made := range map[float64]bool{603: true, 602: false} {
		if c := choose(t, []Board{bare("A", l, 110, 1)}, []Need{anyWood("top", 100, 200)}, w); c.Made != made {
			t.Errorf("%g: made %v", l, c.Made)
		}
	}
}

// Thickness: planing takes 4, so a 20 mm panel wants 24.
func TestThickness(t *testing.T) {
	w := usual
	w.Plane = 4
	n := anyWood("top", 900, 100)
	n.Thickness = 22
	if c := choose(t, []Board{bare("A", 1000, 120, 1)}, []Need{n}, w); !c.Made {
		t.Error("26 mm for 22 + 4")
	}
	n.Thickness = 22.5
	if c := choose(t, []Board{bare("A", 1000, 120, 1)}, []Need{n}, w); c.Made {
		t.Error("26 mm for 22.5 + 4")
	}
}

// By hand: a board of 210 gives 200 glued. Sapwood of 45 along an edge is 40 on
// the strip, 160 are clear. A panel of 180 heartwood only cannot be, of 160 it
// can; with a tenth allowed, 18 of 180, 20 of the 40 are ripped off with the
// excess, and 20 are too many; of 178: 22 off, 18 left, 17.8 may be.
func TestSapwoodAndLimits(t *testing.T) {
	for _, c := range []struct {
		width, most float64
		made        bool
	}{
		{160, 0, true}, {160.1, 0, false},
		{180, 0.10, false}, {178, 0.10, false}, {177.7, 0.10, true},
		{180, 0.12, true}, {200, 0.20, true}, {200, 0.19, false}, {200, 1, true}, {201, 1, false},
	} {
		n := Need{ID: "top", Length: 900, Width: c.width, Most: [2]float64{c.most, 1}}
		// On both faces, else the clear one is turned up.
		got := choose(t, []Board{sappy("A", 1000, 210, 1, 45, 45)}, []Need{n}, usual)
		if got.Made != c.made {
			t.Errorf("%g wide, %g may be: made %v", c.width, c.most, got.Made)
		}
	}
}

// One good face hides a face that is three quarters sapwood: it does for a panel
// whose back may be anything, which face is up is told, and not for one with a
// limit on both.
func TestBothFacesCount(t *testing.T) {
	b := []Board{sappy("A", 1000, 210, 1, 160, 0)}
	n := Need{ID: "top", Length: 900, Width: 200, Most: [2]float64{0, 1}}
	if c := choose(t, b, []Need{n}, usual); !c.Made || c.Cuts[0].Up != [2]int{2, 2} {
		t.Errorf("%+v", c)
	}
	n.Most[1] = 0.5
	if c := choose(t, b, []Need{n}, usual); c.Made {
		t.Errorf("%+v", c)
	}
	n.Most[1] = 0.775 // 155 of 200
	if c := choose(t, b, []Need{n}, usual); !c.Made {
		t.Errorf("%+v", c)
	}
	// Not looked at, the face counts as sapwood all over.
	b = []Board{bare("A", 1000, 210, 1)}
	b[0].Unseen[1] = true
	if c := choose(t, b, []Need{n}, usual); c.Made {
		t.Errorf("unseen back: %+v", c)
	}
	n.Most[1] = 1
	if c := choose(t, b, []Need{n}, usual); !c.Made || c.Cuts[0].Up != [2]int{1, 1} {
		t.Errorf("unseen back that nobody sees: %+v", c)
	}
}

// Sapwood on show at one edge and on the back at the other, 45 each: of 200
// glued 40 and 40. With a tenth of 150 allowed on each face 50 are ripped off in
// all, 25 + 25, and 15 + 15 are left: just. Of 151: 49 off, 31 left, 30.2 may be.
func TestLimitsOnBothFacesShareTheExcess(t *testing.T) {
	b := bare("A", 1000, 210, 1)
	b.Sap[0][0], b.Sap[1][1] = even(45), even(45)
	for width, made := range map[float64]bool{150: true, 151: false} {
		n := Need{ID: "top", Length: 900, Width: width, Most: [2]float64{0.1, 0.1}, Widest: 300}
		if c := choose(t, []Board{b}, []Need{n}, usual); c.Made != made {
			t.Errorf("%g: made %v", width, c.Made)
		}
	}
}

// The doubt of steamed or rough stock widens the bands, and none comes where none
// was seen.
func TestDoubt(t *testing.T) {
	w := usual
	w.Doubt = 10
	n := Need{ID: "top", Length: 900, Width: 160, Most: [2]float64{0, 1}}
	b := []Board{sappy("A", 1000, 210, 1, 45, 45)}
	if c := choose(t, b, []Need{n}, w); c.Made {
		t.Error("45 may be 55")
	}
	n.Width = 150
	if c := choose(t, b, []Need{n}, w); !c.Made {
		t.Error("150 are clear")
	}
	n.Width = 200
	if c := choose(t, []Board{bare("A", 1000, 210, 1)}, []Need{n}, w); !c.Made {
		t.Error("no sapwood was seen")
	}
}

// Where it tapers the widest place of the length counts, and the length is taken
// from the better end: 0, 40, 80 mm over 2000; the first 900 from 25 on reach 925,
// where it is 37, so 200 - 32 = 168 are clear; from the other end 79 would be.
func TestTaperCountsInTheLength(t *testing.T) {
	b := bare("A", 2000, 210, 1)
	b.Sap[0][0], b.Sap[1][0] = Widths{0, 40, 80}, Widths{0, 40, 80}
	for width, made := range map[float64]bool{168: true, 169: false} {
		n := Need{ID: "top", Length: 900, Width: width, Most: [2]float64{0, 1}, Narrowest: 130}
		if c := choose(t, []Board{b}, []Need{n}, usual); c.Made != made {
			t.Errorf("%g: made %v", width, c.Made)
		}
	}
}

// In maple the sapwood is wanted. 210 wide, brown heart of 60 in the middle of
// both faces: 75 of sapwood at each edge give strips of 70 each, 140.
func TestSapwoodWanted(t *testing.T) {
	b := bare("A", 1000, 210, 1)
	for f := range b.Sap {
		b.Sap[f] = [2]Widths{even(75), even(75)}
	}
	for _, c := range []struct {
		width, most float64
		made        bool
	}{{140, 0, true}, {141, 0, false}, {200, 0.30, true}, {200, 0.29, false}} {
		n := Need{ID: "top", Length: 900, Width: c.width, Wanted: face.WantSap, Most: [2]float64{c.most, 1}}
		got := choose(t, []Board{b}, []Need{n}, usual)
		if got.Made != c.made {
			t.Errorf("%+v: made %v", c, got.Made)
		}
	}
	// With heartwood wanted, 60 + nothing: 75 off each edge.
	n := Need{ID: "top", Length: 900, Width: 60, Most: [2]float64{0, 0}}
	if c := choose(t, []Board{b}, []Need{n}, usual); !c.Made {
		t.Error("the heart of 60")
	}
	n.Width = 61
	if c := choose(t, []Board{b}, []Need{n}, usual); c.Made {
		t.Error("the heart of 60 for 61")
	}
	n = Need{ID: "top", Length: 900, Width: 200, Wanted: face.WantBoth}
	if c := choose(t, []Board{b}, []Need{n}, usual); !c.Made {
		t.Error("both welcome")
	}
}

// Solid parts: legs of 60 from a board of 210: 3 x 70 + 2 x 3 = 216 is too wide,
// two lie side by side. With 45 of sapwood on both faces 210 - 5 - 45 = 160 hold
// two, with 140 one.
func TestSolidParts(t *testing.T) {
	leg := Need{ID: "leg", Length: 700, Width: 60, Count: 4, Most: [2]float64{0, 0}}
	for _, c := range []struct {
		boards []Board
		made   bool
	}{
		{[]Board{bare("A", 1503, 210, 1)}, true}, // 2 x 700 + 53 + 50
		{[]Board{bare("A", 1502, 210, 1)}, false},
		{[]Board{bare("A", 1503, 216, 1)}, true},
		{[]Board{sappy("A", 1503, 210, 1, 45, 45)}, true},
		{[]Board{sappy("A", 1503, 210, 1, 73, 73)}, false}, // 210 - 73 - 5 = 132, 60 + 13 + 60 = 133
		{[]Board{sappy("A", 1503, 210, 1, 72, 72)}, true},
	} {
		got := choose(t, c.boards, []Need{leg}, usual)
		if got.Made != c.made {
			t.Errorf("%+v: made %v", c.boards, got.Made)
		}
	}
	leg.Most = [2]float64{0.1, 0.1} // 6 mm each
	if c := choose(t, []Board{sappy("A", 1503, 210, 1, 78, 78)}, []Need{leg}, usual); !c.Made {
		t.Error("6 of 60 may be sapwood")
	}
}

func TestWithoutPricesTheLeastWood(t *testing.T) {
	boards := []Board{bare("A", 2000, 240, 0), bare("B", 1000, 240, 0), bare("C", 1000, 230, 0)}
	c := choose(t, boards, []Need{anyWood("top", 900, 200)}, usual)
	if c.By != ByWood || !slices.Equal(c.Boards, []string{"C"}) {
		t.Errorf("%+v", c)
	}
	layouttest.Near(t, "wood", c.Cost, 1000*230*26, 1e-6)
	// One that is paid already is used first, and not where it is not needed.
	boards[0].Price, boards[2].Price = 0, 9
	c = choose(t, boards, []Need{anyWood("top", 900, 200)}, usual)
	if c.By != ByMoney || c.Cost != 0 || len(c.Boards) != 1 {
		t.Errorf("%+v", c)
	}
}

func TestErrorsSayWhat(t *testing.T) {
	good := []Board{bare("A", 1000, 200, 1)}
	need := []Need{anyWood("top", 900, 100)}
	wide := sappy("A", 1000, 200, 1, 201, 0)
	for _, c := range []struct {
		what   string
		boards []Board
		needs  []Need
		work   Work
	}{
		{"a board twice", append(slices.Clone(good), good...), need, usual},
		{"a part twice", good, append(slices.Clone(need), need...), usual},
		{"no width", []Board{bare("A", 1000, 0, 1)}, need, usual},
		{"a price that is none", []Board{bare("A", 1000, 200, math.NaN())}, need, usual},
		{"more sapwood than board", []Board{wide}, need, usual},
		{"no length", good, []Need{anyWood("top", 0, 100)}, usual},
		{"a limit under 0", good, []Need{{ID: "x", Length: 1, Width: 1, Most: [2]float64{-1, 0}}}, usual},
		{"a kerf under 0", good, need, Work{Allowances: cutting.Allowances{Kerf: -1}}},
		{"a count under 0", good, []Need{{ID: "x", Length: 1, Width: 1, Count: -1}}, usual},
	} {
		if _, err := Choose(context.Background(), c.boards, c.needs, c.work, Options{}); err == nil {
			t.Errorf("%s: no error", c.what)
		}
		if _, err := Worths(context.Background(), c.boards, nil, c.needs, c.work, Options{}); err == nil {
			t.Errorf("%s: no error of Worths", c.what)
		}
		if _, err := Lacking(context.Background(), c.boards, c.needs, c.work, Options{}); err == nil {
			t.Errorf("%s: no error of Lacking", c.what)
		}
	}
	if c, err := Choose(context.Background(), good, nil, usual, Options{}); err != nil || !c.Made || len(c.Boards) > 0 {
		t.Error(c, err)
	}
	if c, err := Choose(context.Background(), nil, need, usual, Options{}); err != nil || c.Made || !c.Proved {
		t.Error(c, err)
	}
}
