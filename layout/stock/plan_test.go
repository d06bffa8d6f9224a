package stock

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

func plan1(t *testing.T, s Supply, demands []Demand, obj Objective, o Options) Result {
	t.Helper()
	r, err := Plan(context.Background(), s, demands, obj, o)
	if err != nil {
		t.Fatal(err)
	}
	verify(t, string(obj), s, demands, o, r)
	return r
}

// A small part spends the only board for a big one, the mistake of the rack. By
// hand: the top, 1500 x 190, lies only in A (1600 x 200). Four legs of 700 x 60
// fit A best, but also B: two lengths of 700 in 1480, two lanes of 60 with a
// kerf of 3 in 140. So the legs come from B, in whatever order they are asked
// for and whatever the boards cost.
func TestSmallPartsLeaveTheOnlyBoard(t *testing.T) {
	a, b := plank("A", 1600, 200), plank("B", 1480, 140)
	s := supplyOf(cutting.Allowances{Kerf: 3}, cutting.Machines{}, a, b)
	s.Boards[1].Price.Whole = 90 // B is dear, A is paid
	legs, top := solid("leg", 4, 700, 60), panel("top", 1500, 190)
	for _, demands := range [][]Demand{{legs, top}, {top, legs}} {
		for _, obj := range []Objective{LeastWood, LeastCost, BestLook, FewestJoints, WholeBoards} {
			r := plan1(t, s, demands, obj, Options{})
			for _, part := range r.Parts {
				if part.Short != nil {
					t.Errorf("%s: %s is short: %+v", obj, part.Demand, part.Short)
				}
				for _, q := range part.Strips {
					if want := map[string]string{"leg": "B", "top": "A"}[part.Demand]; q.Board.ID != want {
						t.Errorf("%s: %s from board %s, want %s", obj, q.ID, q.Board.ID, want)
					}
				}
			}
		}
		got, err := Scarce(context.Background(), s, []Demand{legs, top})
		want := []Only{{Part: "top", Board: "A", Others: []string{"leg"}, Alone: true}}
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("scarce %+v, %v, want %+v", got, err, want)
		}
	}
}

// A chain: P fits A only, Q fits A and B, R fits A, B and C, each taking a whole
// board. Serving R first from the first board that will do spoils P or Q.
func TestChainOfScarceBoards(t *testing.T) {
	s := supplyOf(nothing, cutting.Machines{}, plank("A", 2000, 100), plank("B", 1500, 100), plank("C", 1000, 100))
	o := Options{OverLength: -1}
	r := plan1(t, s, []Demand{panel("R", 800, 100), panel("Q", 1300, 100), panel("P", 1900, 100)}, LeastCost, o)
	for i, want := range []string{"C", "B", "A"} {
		if p := r.Parts[i]; p.Short != nil || len(p.Strips) != 1 || p.Strips[0].Board.ID != want {
			t.Errorf("%s: %+v, want one strip of %s", p.Demand, p, want)
		}
	}
}

// Of two boards alike neither is needed for a part that takes one, both are for a
// part that takes two; a part that cannot be made at all needs none.
func TestScarceAmongBoardsAlike(t *testing.T) {
	s := supplyOf(nothing, cutting.Machines{}, plank("A", 900, 100), plank("B", 900, 100))
	for _, c := range []struct {
		width float64
		want  []Only
	}{
		{100, nil},
		{200, []Only{{Part: "p", Board: "A", Others: []string{"leg"}}, {Part: "p", Board: "B", Others: []string{"leg"}}}},
		{210, nil},
	} {
		got, err := Scarce(context.Background(), s, []Demand{panel("p", 800, c.width), solid("leg", 1, 100, 40)})
		if err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%g wide: %+v, %v, want %+v", c.width, got, err, c.want)
		}
	}
}

// By hand, with the usual allowances: the blank of a panel 930 long is 980 and
// more, so A (1000 x 200) gives one strip of 950 x 191, and D, 920 long, is 60
// too short. 290 + 2 x 5 less 191 leaves 109, one more strip of up to 191.
func TestShortTellsWhy(t *testing.T) {
	s := supplyOf(usual, machines, plank("A", 1000, 200), plank("D", 920, 210), plank("E", 1200, 40))
	s.Allowances.Snipe = 0
	thin := plank("F", 1500, 300)
	thin.Thickness = 18
	s.Boards = append(s.Boards, Stock{Board: thin})
	d := panel("top", 930, 290)
	d.PanelEdge, d.Thickness = 5, 20
	r := plan1(t, s, []Demand{d}, LeastWood, Options{})
	want := &Short{Strips: 1, L: 930, W: 109, Width: 109, Boards: []Near{
		{"A", UsedUp, 0, []string{"top"}}, {"D", TooShort, 60, nil}, {"E", TooNarrow, 50 + 9 - 40, nil}, {"F", TooThin, 2, nil},
	}}
	if got := r.Parts[0].Short; !reflect.DeepEqual(got, want) {
		t.Errorf("short %+v, want %+v", got, want)
	}
	if q := r.Parts[0].Strips; len(q) != 1 || q[0].L != 950 || q[0].W != 191 {
		t.Errorf("strips %+v, want one of 950 x 191", q)
	}
}

// The band of heartwood is 110 wide everywhere but slanted by atan(40 / 1000) =
// 2.29 degrees. Over 700 mm its borders move by 28, so that a strip of 100 square
// to the board lies c over the one at one end and 18 - c over the other at the
// other, which is least together at c = 9: two wedges of 9 x 225 / 2, 2025 mm2
// or 0.0289 of the strip.
func TestStripsFollowTheHeart(t *testing.T) {
	b := plank("A", 1000, 200)
	b.Faces[0].Zones = []face.Zone{
		zone(face.Sap, layouttest.Poly(t, "0,0 1000,0 1000,20 0,60")),
		zone(face.Sap, layouttest.Poly(t, "0,170 1000,130 1000,200 0,200")),
	}
	b.Faces[1] = face.BoardFace{Base: face.Sap}
	d := panel("top", 700, 100)
	s := supplyOf(nothing, cutting.Machines{}, b)
	r := plan1(t, s, []Demand{d}, BestLook, Options{Narrowest: 100})
	layouttest.Near(t, "unwanted", r.Parts[0].Unwanted[0], 0, 1e-3)
	if q := r.Parts[0].Strips; len(q) != 1 || math.Abs(q[0].Angle+2.29) > 0.05 || q[0].Up != 1 {
		t.Errorf("strips %+v, want one at -2.29 degrees", q)
	}
	r = plan1(t, s, []Demand{d}, BestLook, Options{Straight: true, Narrowest: 100})
	if u := r.Parts[0].Unwanted[0]; u < 0.0289 {
		t.Errorf("square to the board %g of it is sapwood, want 0.0289 at least", u)
	}
	// Light and dark swapped: the same strip of a maple board.
	for f := range b.Faces {
		b.Faces[f].Base = 1 - b.Faces[f].Base
		for i := range b.Faces[f].Zones {
			b.Faces[f].Zones[i].Kind = face.Heart
		}
	}
	d.Wanted = face.WantSap
	swapped := plan1(t, s, []Demand{d}, BestLook, Options{})
	layouttest.Near(t, "unwanted swapped", swapped.Parts[0].Unwanted[0], 0, 1e-3)
	d.Wanted = face.WantBoth
	both := plan1(t, s, []Demand{d}, BestLook, Options{})
	layouttest.Near(t, "unwanted where both are wanted", both.Parts[0].Unwanted[0], 0, 0)
}

// Sapwood in bands along the whole board: where some place of a strip shows none
// on one face, by trying all of them on a grid of 10 mm, the plan shows none.
func TestBestLookFindsCleanWood(t *testing.T) {
	clean := 0
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 21))
		b := plank("A", 500, 200)
		var sap [2][20]bool
		for f := range b.Faces {
			for range 2 {
				y, w := rng.IntN(17), 1+rng.IntN(3)
				b.Faces[f].Zones = append(b.Faces[f].Zones, zone(face.Sap, geom.R(0, float64(10*y), 500, float64(10*(y+w))).Polygon()))
				for k := y; k < y+w; k++ {
					sap[f][k] = true
				}
			}
		}
		w := 10 + rng.IntN(6)
		want := false
		for f := range sap {
			for y := 0; y+w <= 20; y++ {
				ok := true
				for k := y; k < y+w; k++ {
					ok = ok && !sap[f][k]
				}
				want = want || ok
			}
		}
		d := panel("p", 480, float64(10*w))
		r := plan1(t, supplyOf(nothing, cutting.Machines{}, b), []Demand{d}, BestLook, Options{Narrowest: float64(10 * w)})
		if got := r.Parts[0].Unwanted[0] < 1e-9; got != want {
			t.Errorf("seed %d: clean %v, want %v", seed, got, want)
		}
		if want {
			clean++
		}
	}
	if clean < 5 || clean > 35 {
		t.Errorf("%d of 40 cases can be clean: they tell nothing", clean)
	}
}

// An even mix takes strips whose share lies between its limits where there are
// any: B holds 0.4 of sapwood, A none, C all.
func TestEvenMixTakesMixedStrips(t *testing.T) {
	a, b, c := plank("A", 600, 100), plank("B", 600, 100), plank("C", 600, 100)
	for f := range b.Faces {
		b.Faces[f].Zones = []face.Zone{zone(face.Sap, geom.R(0, 0, 600, 40).Polygon())}
		c.Faces[f].Base = face.Sap
	}
	d := panel("p", 580, 100)
	d.Look = look.EvenMix
	r := plan1(t, supplyOf(nothing, cutting.Machines{}, a, c, b), []Demand{d}, BestLook, Options{})
	layouttest.Near(t, "share", r.Parts[0].Unwanted[0], 0.4, 1e-9)
	d.Look = look.HeartOnly
	r = plan1(t, supplyOf(nothing, cutting.Machines{}, c, b, a), []Demand{d}, BestLook, Options{})
	layouttest.Near(t, "heart only", r.Parts[0].Unwanted[0], 0, 1e-9)
}

// A limit goes before the objective: A is cheap and a third sapwood, B dear and
// clean.
func TestLimitsGoFirst(t *testing.T) {
	a, b := plank("A", 600, 90), plank("B", 600, 90)
	for f := range a.Faces {
		a.Faces[f].Zones = []face.Zone{zone(face.Sap, geom.R(0, 30, 600, 60).Polygon())}
	}
	s := supplyOf(nothing, cutting.Machines{}, a, b)
	s.Boards[1].Price.Whole = 50
	d := panel("p", 580, 90)
	if r := plan1(t, s, []Demand{d}, LeastCost, Options{}); r.Cost != 0 || r.Parts[0].OverMost {
		t.Errorf("any wood: %+v", r)
	}
	d.Most[0] = 0.1
	if r := plan1(t, s, []Demand{d}, LeastCost, Options{}); r.Cost != 50 || r.Parts[0].OverMost {
		t.Errorf("little sapwood: %+v", r)
	}
	s.Boards = s.Boards[:1]
	if r := plan1(t, s, []Demand{d}, LeastCost, Options{}); !r.Parts[0].OverMost || r.Parts[0].Short != nil {
		t.Errorf("the limit cannot be kept: %+v", r)
	}
}

func TestPlanEndsWithTheContext(t *testing.T) {
	s, demands := yard(12, 6)
	ctx, stop := context.WithCancel(context.Background())
	calls, last := 0, 0
	o := Options{Progress: func(p Progress) {
		if calls++; p.Done < last || p.Of < p.Done {
			t.Errorf("progress from %d to %d of %d", last, p.Done, p.Of)
		}
		last = p.Done
		stop()
	}}
	r, err := Plan(ctx, s, demands, LeastWood, o)
	if err != nil || !r.Stopped || r.Proved || calls == 0 || r.Strips == 0 {
		t.Fatalf("stopped %v, proved %v, %d strips, %d calls, %v", r.Stopped, r.Proved, r.Strips, calls, err)
	}
	verify(t, "stopped", s, demands, o, r)
}

func TestPlanErrors(t *testing.T) {
	good := supplyOf(usual, machines, plank("A", 900, 200))
	d := []Demand{panel("p", 500, 200)}
	for what, c := range map[string]struct {
		s   Supply
		d   []Demand
		obj Objective
	}{
		"objective":   {good, d, "best"},
		"no board":    {Supply{Boards: []Stock{{}}}, d, LeastWood},
		"board twice": {supplyOf(usual, machines, plank("A", 9, 9), plank("A", 9, 9)), d, LeastWood},
		"board size":  {supplyOf(usual, machines, plank("A", math.NaN(), 9)), d, LeastWood},
		"allowance":   {Supply{Allowances: cutting.Allowances{Kerf: -1}}, d, LeastWood},
		"part twice":  {good, append(d, d...), LeastWood},
		"part size":   {good, []Demand{panel("p", 0, 9)}, LeastWood},
		"count":       {good, []Demand{solid("p", -1, 9, 9)}, LeastWood},
		"limit":       {good, []Demand{{ID: "p", Length: 9, Width: 9, Most: [2]float64{-1, 1}}}, LeastWood},
		"price":       {Supply{Boards: []Stock{{plank("A", 9, 9), Price{Whole: math.Inf(1)}}}}, d, LeastWood},
	} {
		if _, err := Plan(context.Background(), c.s, c.d, c.obj, Options{}); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
	if r, err := Plan(context.Background(), Supply{}, d, LeastWood, Options{}); err != nil || r.Parts[0].Short == nil {
		t.Errorf("no boards: %+v, %v", r, err)
	}
}
