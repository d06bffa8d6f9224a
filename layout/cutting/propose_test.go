package cutting

import (
	"fmt"
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

var shop = Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50}

func stack(n int, length, width float64) []*face.Board {
	var out []*face.Board
	for i := 0; i < n; i++ {
		out = append(out, board(fmt.Sprintf("%c", 'A'+i), length, width))
	}
	return out
}

func reason(p Proposal, key string) (Reason, bool) {
	for _, r := range p.Reasons {
		if r.Key == key {
			return r, true
		}
	}
	return Reason{}, false
}

// A top of 900 x 450, 5 over at each edge: 460 to make. Boards of 2400 x 210
// give two of 92 side by side (2 * 101 + 3 = 205) and two lengths of 980 + 3,
// four in all: five strips come from two boards. Of 115 (blank 124) only one
// goes beside another, but four from two boards too; 92 is nearer to 100.
func TestProposeByHand(t *testing.T) {
	p := &face.Panel{Length: 900, Width: 450, PanelEdge: 5}
	got := Propose(p, stack(3, 2400, 210), nil, plain, shop, 0.5)
	if len(got.Places) != 5 {
		t.Fatalf("%d places, want 5: %+v", len(got.Places), got)
	}
	for _, q := range got.Places {
		layouttest.Near(t, "length", q.L, 930, 1e-9)
		layouttest.Near(t, "width", q.W, 92, 1e-9)
	}
	if r, ok := reason(got, ReasonBoards); !ok || r.A != 2 {
		t.Errorf("reasons %v, want two boards", got.Reasons)
	}
}

func TestProposeSumsUp(t *testing.T) {
	for _, w := range []float64{100, 333.3, 450, 601.7, 1000} {
		p := &face.Panel{Length: 900, Width: w, PanelEdge: 5}
		got := Propose(p, stack(6, 2400, 210), nil, plain, shop, 0.5)
		sum, least, most := 0.0, math.Inf(1), 0.0
		for _, q := range got.Places {
			sum += q.W
			least, most = math.Min(least, q.W), math.Max(most, q.W)
		}
		// On half mm, and no more over than that takes.
		layouttest.Near(t, "all together", sum, math.Ceil((w+10)*2)/2, 1e-9)
		if least < 0.9*most {
			t.Errorf("width %g: from %g to %g", w, least, most)
		}
		if n := len(got.Places); n > 1 && (least < 70 || most > 130) {
			t.Errorf("width %g: %d strips of %g to %g", w, n, least, most)
		}
	}
}

func TestProposeKeepsToBoardsAndMachines(t *testing.T) {
	p := &face.Panel{Length: 900, Width: 450, PanelEdge: 5}
	// Boards 960 long give 910, 20 less than wished.
	got := Propose(p, stack(6, 960, 210), nil, plain, shop, 0.5)
	if r, ok := reason(got, ReasonShort); !ok || r.A != 910 || r.B != 930 || got.Places[0].L != 910 {
		t.Errorf("short boards: %+v", got)
	}
	// Boards 900 long give 850: nothing is long enough, and nothing can be cut.
	got = Propose(p, stack(6, 900, 210), nil, plain, shop, 0.5)
	if r, ok := reason(got, ReasonTooShort); !ok || r.A != 850 || got.Places[0].L != 900 {
		t.Errorf("too short boards: %+v", got)
	}
	if r, ok := reason(got, ReasonNotEnough); !ok || r.A != 0 {
		t.Errorf("too short boards: %+v", got)
	}
	// A machine of 80 takes blanks of 80: strips of at most 71.
	got = Propose(p, stack(6, 2400, 210), nil, plain, Machines{Flatten: 80}, 0.5)
	if r, ok := reason(got, ReasonMachine); !ok || r.A != 71 || r.B != 80 || got.Places[0].W > 71 {
		t.Errorf("narrow machine: %+v", got)
	}
	// Boards 90 wide give 81 at most.
	got = Propose(p, stack(9, 2400, 90), nil, plain, shop, 0.5)
	for _, q := range got.Places {
		if q.W > 81 {
			t.Errorf("narrow boards: %+v", got)
		}
	}
	if got = Propose(p, nil, nil, plain, shop, 0.5); len(got.Places) != 5 {
		t.Errorf("no boards yet: %+v, want five of 92", got)
	}
	if got = Propose(&face.Panel{}, stack(1, 2400, 210), nil, plain, shop, 0.5); len(got.Places) != 0 {
		t.Errorf("no size: %+v", got)
	}
	if got = Propose(&face.Panel{Length: 900, Width: 1e12}, stack(1, 2400, 210), nil, plain, shop, 0.5); len(got.Places) != 200 {
		t.Errorf("a width beyond reason: %d places", len(got.Places))
	}
	if got = Propose(&face.Panel{Length: 200, Width: 30}, nil, nil, plain, shop, 0.5); len(got.Places) != 1 || got.Places[0].W != 30 {
		t.Errorf("a rail: %+v", got)
	}
}

// In sixteenths of an inch, by hand: a top of 18 inches with 5 mm over at each
// edge needs 467.2 mm, 294.3 sixteenths, so 295. Five strips of 59 are 295:
// 3 11/16 inch each. Four of 74 leave one of 295 - 3 * 74 = 73. 36 inches and
// 30 mm over are 594.9 sixteenths, so 595.
func TestProposeOnSixteenths(t *testing.T) {
	const sixteenth = 25.4 / 16
	p := &face.Panel{Length: 36 * 25.4, Width: 18 * 25.4, PanelEdge: 5}
	got := Propose(p, stack(4, 2400, 210), nil, plain, shop, sixteenth)
	if len(got.Places) != 5 {
		t.Fatalf("%+v, want five strips", got)
	}
	for _, q := range got.Places {
		layouttest.Near(t, "width in sixteenths", q.W/sixteenth, 59, 1e-6)
		layouttest.Near(t, "length in sixteenths", q.L/sixteenth, 595, 1e-6)
	}
	for i, want := range []float64{74, 74, 74, 73} {
		layouttest.Near(t, "one of four, in sixteenths", Evenly(4, 900, 295*sixteenth, sixteenth)[i].W/sixteenth, want, 1e-6)
	}
	// 20 strips of 101 units: alike they would be 6 wide and the last would have
	// to be -13; so one of them is 6 and the others 5.
	for i, q := range Evenly(20, 900, 101, 1) {
		want := 5.0
		if i == 0 {
			want = 6
		}
		layouttest.Near(t, "one of twenty", q.W, want, 1e-9)
	}
	if Evenly(0, 900, 100, 1) != nil {
		t.Error("no strips have a width")
	}
}

// What other strips use is not offered again: one board of 2400 x 210 gives
// four of five; two of its places are taken, so two are left.
func TestProposeCountsWhatIsUsed(t *testing.T) {
	p := &face.Panel{Length: 900, Width: 450, PanelEdge: 5}
	boards := stack(1, 2400, 210)
	used := []face.Strip{strip("u", boards[0], 25, 4.5, 930, 92, 0), strip("v", boards[0], 25, 108.5, 930, 92, 0)}
	got := Propose(p, boards, used, plain, shop, 0.5)
	r, ok := reason(got, ReasonNotEnough)
	if !ok || r.A > 2 || r.A < 1 {
		t.Errorf("reasons %v, want that at most two can be cut", got.Reasons)
	}
}

func TestPlaceAllFits(t *testing.T) {
	p := &face.Panel{ID: "top", Length: 900, Width: 450, PanelEdge: 5, Limit: [2]float64{1, 1}}
	boards := stack(2, 2400, 210)
	// Sap along the marked edge of both faces, and a knot.
	for _, b := range boards {
		b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 2400, 20).Polygon()}}
		b.Faces[1].Zones = []face.Zone{{Kind: face.Sap, Polygon: b.Other().ApplyTo(geom.R(0, 0, 2400, 60).Polygon())}}
	}
	for i, q := range Propose(p, boards, nil, plain, shop, 0.5).Places {
		p.Strips = append(p.Strips, face.Strip{ID: fmt.Sprint("s", i), L: q.L, W: q.W, Up: 1})
	}
	got := PlaceAll(p, boards, nil, plain)
	for i := range got {
		if got[i].Board == nil {
			t.Fatalf("strip %s found no room", got[i].ID)
		}
		if got[i].ID != p.Strips[i].ID || got[i].W != p.Strips[i].W {
			t.Errorf("strip %d changed to %+v", i, got[i])
		}
		if p.Strips[i].Board != nil {
			t.Error("the panel given was changed")
		}
	}
	q := *p
	q.Strips = got
	if f := Check([]*face.Panel{&q}, nil, plain, shop); len(only(f, face.OutsideBoard))+len(only(f, face.PartsOverlap)) > 0 {
		t.Errorf("findings %v", f)
	}
	// The first strip goes where there is none: beyond 60 nothing is light.
	if got[0].Y < 60 {
		t.Errorf("the first strip lies at %g, in the sap", got[0].Y)
	}
}

func TestPlaceAllKeepsClearOfKnots(t *testing.T) {
	b := board("A", 1200, 120)
	b.Faces[0].Zones = []face.Zone{{Kind: face.Flaw, Polygon: geom.R(300, 50, 330, 70).Polygon()}}
	p := &face.Panel{ID: "top", Length: 300, Width: 80, Strips: []face.Strip{{ID: "s", L: 330, W: 90, Up: 1}}}
	got := PlaceAll(p, []*face.Board{b}, nil, plain)
	blank := Blank(&got[0], plain)
	if got[0].Board == nil || Clearance(blank, geom.R(300, 50, 330, 70).Polygon()) < 0 {
		t.Errorf("lies at %g, %g over the knot", got[0].X, got[0].Y)
	}
	// Where the knot leaves no other room it is taken.
	short := board("B", 400, 120)
	short.Faces[0].Zones = []face.Zone{{Kind: face.Flaw, Polygon: geom.R(200, 50, 230, 70).Polygon()}}
	if got = PlaceAll(p, []*face.Board{short}, nil, plain); got[0].Board != short {
		t.Error("no room found on the board with a knot")
	}
	if got = PlaceAll(p, stack(1, 300, 120), nil, plain); got[0].Board != nil {
		t.Error("laid on a board that is too short")
	}
}
