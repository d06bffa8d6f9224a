package match

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// find returns the pair with those lies.
func find(pairs []Pair, front, rear Lie) (Pair, bool) {
	for _, p := range pairs {
		if p.FrontLie == front && p.RearLie == rear {
			return p, true
		}
	}
	return Pair{}, false
}

func pool(strips ...face.Strip) (list []Source) {
	for _, s := range strips {
		list = append(list, Source{Strip: s})
	}
	return list
}

// Two strips with 20 and 21 mm of sap along the marked edge of face 1. Of the
// sixteen ways for two edges to meet only the two that bring those two edges
// and faces together are a band, and they are the same turned half round: the
// front strip shows face 1 and brings its near edge to the rear, so it is
// turned; the rear strip brings its near edge to the front unturned.
func TestConstantBands(t *testing.T) {
	a := strip("A1", edged(plank("A", 900, 100), 1, face.Sap, constant(20)), 0, 0, 900, 100)
	b := strip("B1", edged(plank("B", 900, 100), 1, face.Sap, constant(21)), 0, 0, 900, 100)
	got := Pairs(context.Background(), pool(a, b), Options{})
	if len(got) != 1 {
		t.Fatalf("%d pairs, want 1: %+v", len(got), got)
	}
	p := got[0]
	if p.Front != 0 || p.Rear != 1 || p.FrontLie != (Lie{1, true}) || p.RearLie != (Lie{1, false}) || p.FrontEdge != Near || p.RearEdge != Near || p.Slid != -1 {
		t.Errorf("pair %+v", p)
	}
	s := p.Seam
	near(t, "mean", s.Mean, 1, 1e-9)
	near(t, "greatest", s.Greatest, 1, 1e-9)
	near(t, "width", s.Width, 41, 1e-9)
	near(t, "both", s.Both, 1, 0)
	near(t, "within", s.Within, 1, 0)
	if len(s.Front) != 91 || s.From != 0 {
		t.Errorf("%d places from %g, want 91 from 0", len(s.Front), s.From)
	}
	// 30 mm against 20 is more than the tolerance of 4.
	wide := strip("C1", edged(plank("C", 900, 100), 1, face.Sap, constant(30)), 0, 0, 900, 100)
	if got := Pairs(context.Background(), pool(a, wide), Options{}); len(got) != 0 {
		t.Errorf("20 against 30 mm: %d pairs", len(got))
	}
}

// The same band on face 2 along the upper edge as seen, which is the marked
// edge of the board: with face 2 up the strip has it along its rear edge
// unturned (design: up 2 shows t = 20 of W 95 at v = 75).
func TestFaceTwo(t *testing.T) {
	a := strip("A1", beyond(plank("A", 900, 100), 2, face.Sap, constant(20)), 0, 0, 900, 100)
	b := strip("B1", edged(plank("B", 900, 100), 1, face.Sap, constant(20)), 0, 0, 900, 100)
	got := Pairs(context.Background(), pool(a, b), Options{})
	if len(got) != 1 || got[0].FrontLie != (Lie{2, false}) || got[0].RearLie != (Lie{1, false}) || got[0].FrontEdge != Near {
		t.Fatalf("pairs %+v", got)
	}
	// Where A may only lie turned, the same pair comes the other way round.
	list := pool(a, b)
	list[0].Lies = []Lie{{2, true}}
	got = Pairs(context.Background(), list, Options{})
	if len(got) != 1 || got[0].Front != 1 || got[0].FrontLie != (Lie{1, true}) || got[0].RearLie != (Lie{2, true}) {
		t.Fatalf("pairs of a strip that may only lie turned: %+v", got)
	}
	list[0].Lies = []Lie{{1, false}, {1, true}}
	if got = Pairs(context.Background(), list, Options{}); len(got) != 0 {
		t.Errorf("face 1 has no sap and gave %+v", got)
	}
}

// A wedge 10 + 0.04 x on a board of 1600 against one of 26 + 0.04 x: the first
// has to slide by (26 - 10) / 0.04 = 400 mm away from the marked end. Turned,
// the second rises the other way, and nothing agrees.
func TestWedgeSlide(t *testing.T) {
	a := strip("A1", beyond(plank("A", 1600, 100), 1, face.Sap, func(x float64) float64 { return 10 + 0.04*x }), 0, 0, 900, 100)
	b := strip("B1", edged(plank("B", 900, 100), 1, face.Sap, func(x float64) float64 { return 26 + 0.04*x }), 0, 0, 900, 100)
	list := pool(a, b)
	list[0].MaxSlide = 700
	got := Pairs(context.Background(), list, Options{Tolerance: 2})
	if len(got) != 1 {
		t.Fatalf("%d pairs, want 1: %+v", len(got), got)
	}
	p := got[0]
	if p.FrontLie != (Lie{1, false}) || p.RearLie != (Lie{1, false}) || p.Slid != 0 {
		t.Errorf("pair %+v", p)
	}
	near(t, "slide", p.Slide, 400, 0.5)
	near(t, "mean", p.Seam.Mean, 0, 1e-6)
	// 26 at the left, 44 in the middle, 62 at the right: 88 on the mean over
	// both.
	near(t, "left", p.Seam.FrontW[0], 26, 1e-2)
	near(t, "right", p.Seam.RearW[2], 62, 1e-2)
	near(t, "width", p.Seam.Width, 88, 1e-2)
	// The limit holds: at 250 mm the widths differ by 0.04 x 150 = 6 mm.
	list[0].MaxSlide = 250
	got = Pairs(context.Background(), list, Options{Tolerance: 7})
	if len(got) != 1 || got[0].Slide != 250 {
		t.Fatalf("limited: %+v", got)
	}
	near(t, "limited mean", got[0].Seam.Mean, 6, 1e-6)
	// Turned round, the slide stays one away from the marked end: both strips
	// may only lie with their marked ends at the right.
	list[0].MaxSlide = 700
	list[0].Lies, list[1].Lies = []Lie{{1, true}}, []Lie{{1, true}}
	got = Pairs(context.Background(), list, Options{Tolerance: 2})
	if len(got) != 1 || got[0].Front != 1 || got[0].Slid != 0 {
		t.Fatalf("turned: %+v", got)
	}
	near(t, "turned slide", got[0].Slide, 400, 0.5)
}

// A sap line 30 + 12 sin(2 pi x / 700) + 6 sin(2 pi x / 330), and the same cut
// 237 mm further along another board: sliding the first there by 237 mm, or
// the second back, lays them level.
func TestWavyLineSlide(t *testing.T) {
	line := func(x float64) float64 {
		return 30 + 12*math.Sin(2*math.Pi*x/700) + 6*math.Sin(2*math.Pi*x/330)
	}
	a := strip("A1", beyond(plank("A", 1500, 120), 1, face.Sap, line), 0, 0, 900, 120)
	b := strip("B1", edged(plank("B", 1500, 120), 1, face.Sap, func(x float64) float64 { return line(x + 237) }), 0, 0, 900, 120)
	list := pool(a, b)
	list[0].MaxSlide, list[1].MaxSlide = 600, 600
	p, ok := find(Pairs(context.Background(), list, Options{}), Lie{1, false}, Lie{1, false})
	if !ok || p.Slid != 0 {
		t.Fatalf("found %v %+v", ok, p)
	}
	near(t, "slide", p.Slide, 237, 1) // far within a step of 10
	near(t, "mean", p.Seam.Mean, 0, 0.2)
}

// With light and dark swapped the same edges pair: on boards all of sap the
// heart that is drawn is unwanted where sap is wanted.
func TestSwapped(t *testing.T) {
	ash := func(id string, w float64) face.Strip {
		b := plank(id, 900, 100)
		b.Faces[0].Base, b.Faces[1].Base = face.Sap, face.Sap
		return strip(id+"1", edged(b, 1, face.Heart, constant(w)), 0, 0, 900, 100)
	}
	list := pool(ash("A", 25), ash("B", 27))
	got := Pairs(context.Background(), list, Options{Wanted: face.WantSap})
	if len(got) != 1 || got[0].FrontLie != (Lie{1, true}) || got[0].RearLie != (Lie{1, false}) {
		t.Fatalf("pairs %+v", got)
	}
	near(t, "width", got[0].Seam.Width, 52, 1e-9)
	if got := Pairs(context.Background(), list, Options{Wanted: face.WantBoth}); got != nil {
		t.Errorf("both wanted: %+v", got)
	}
}

func TestNothingUnwanted(t *testing.T) {
	a, b := strip("A1", plank("A", 900, 100), 0, 0, 900, 100), strip("B1", plank("B", 900, 100), 0, 0, 900, 100)
	if got := Pairs(context.Background(), pool(a, b, face.Strip{ID: "empty", L: 900, W: 100}), Options{}); len(got) != 0 {
		t.Errorf("no unwanted wood: %+v", got)
	}
	if _, ok := Between(&a, &b, Options{}); ok {
		t.Error("a seam without unwanted wood")
	}
	a.L = math.NaN()
	if _, ok := Between(&a, &b, Options{}); ok {
		t.Error("a seam of a strip without a length")
	}
}

// A knot that hides where 20 mm of sap end is drawn straight over; sap that
// goes on behind a knot at the edge is not ended by it.
func TestFlawsDoNotEndTheBand(t *testing.T) {
	a := edged(plank("A", 900, 100), 1, face.Sap, constant(20))
	for _, r := range [2]geom.Rect{geom.R(300, 15, 340, 40), geom.R(500, 0, 530, 10)} {
		a.Faces[0].Zones = append(a.Faces[0].Zones, face.Zone{Kind: face.Flaw, Polygon: r.Polygon()})
	}
	b := edged(plank("B", 900, 100), 1, face.Sap, constant(20))
	sa, sb := strip("A1", a, 0, 0, 900, 100), strip("B1", b, 0, 0, 900, 100)
	sa.Turned = true
	s, ok := Between(&sa, &sb, Options{})
	if !ok {
		t.Fatal("no seam")
	}
	near(t, "greatest", s.Greatest, 0, 1e-9)
	// What is not seen yet is told, and counts as none: 90 of 900 mm, at the
	// places 10 to 90 beside the 91 there are, give or take one.
	a.Faces[0].Zones = append(a.Faces[0].Zones, face.Zone{Kind: face.Unseen, Polygon: geom.R(5, 0, 95, 100).Polygon()})
	s, _ = Between(&sa, &sb, Options{})
	near(t, "unseen", s.Unseen, 9.0/91, 1.0/91)
	near(t, "greatest", s.Greatest, 20, 1e-9)
}

// A strip shorter than its neighbour lies centred: u of the rear is that of
// the front plus 50. The panel is trimmed to 600: X from 100 to 700 of the 800
// of the front strip. The sap is 0.1 x: at the left of the joint 10 against 15.
func TestJointIsTrimmed(t *testing.T) {
	tenth := func(x float64) float64 { return 0.1 * x }
	a := strip("A1", beyond(plank("A", 800, 120), 1, face.Sap, tenth), 0, 0, 800, 120)
	b := strip("B1", edged(plank("B", 900, 120), 1, face.Sap, tenth), 0, 0, 900, 120)
	s, ok := Between(&a, &b, Options{Length: 600})
	if !ok || len(s.Front) != 61 || s.From != 100 {
		t.Fatalf("%v, %d places from %g", ok, len(s.Front), s.From)
	}
	near(t, "front left", s.FrontW[0], 10, 1e-6)
	near(t, "rear left", s.RearW[0], 15, 1e-6)
	near(t, "mean", s.Mean, 5, 1e-6)
}

// The widths are those that the reading of the panel tells of the same joint.
func TestWidthsAsRead(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		p := face.Panel{ID: "top", Length: 860, Width: 180, Limits: face.DefaultLimits, Limit: [2]float64{1, 1}}
		for i := range 2 {
			b := plank(string(rune('A'+i)), 1000, 130)
			for f := 1; f <= 2; f++ {
				c, d := 20*rng.Float64(), 0.02*rng.Float64()
				edged(b, f, face.Sap, func(x float64) float64 { return 35 + c + d*x })
				beyond(b, f, face.Sap, func(x float64) float64 { return 27 + d*x })
			}
			s := strip(b.ID+"1", b, 30, 20, 900, 95)
			s.Angle, s.Up, s.Turned = 0.5-rng.Float64(), 1+rng.IntN(2), rng.IntN(2) == 1
			p.Strips = append(p.Strips, s)
		}
		want := face.ReadFull(&p).Joints[0]
		got, _ := Between(&p.Strips[0], &p.Strips[1], Options{Length: p.Length})
		for k := range want.FrontW {
			near(t, "front", got.FrontW[k], want.FrontW[k], 0.02)
			near(t, "rear", got.RearW[k], want.RearW[k], 0.02)
		}
	}
}

// Laid as a pair says, two strips read anew from their boards have the seam it
// told, and the panel's reading the same widths.
func TestPairsAsLaid(t *testing.T) {
	list := wavy(14)
	for i := range list {
		list[i].Strip.Angle = float64(i%3) - 1
		list[i].Strip.Y = 16
		list[i].Strip.W = 95
	}
	o := Options{Length: 860, Worth: 0.2, Tolerance: 6}
	pairs := Pairs(context.Background(), list, o)
	slid := 0
	for i := range pairs {
		p := &pairs[i]
		front, rear := p.Strips(list)
		s, ok := Between(&front, &rear, o)
		if !ok {
			t.Fatalf("no seam: %+v", p)
		}
		near(t, "mean", s.Mean, p.Seam.Mean, 0.1)
		panel := face.Panel{ID: "top", Length: 860, Width: 180, Limits: face.DefaultLimits, Strips: []face.Strip{front, rear}}
		want := face.ReadFull(&panel).Joints[0]
		for k := range want.FrontW {
			near(t, "front", p.Seam.FrontW[k], want.FrontW[k], 0.2)
			near(t, "rear", p.Seam.RearW[k], want.RearW[k], 0.2)
		}
		if p.Slid >= 0 {
			slid++
		}
		if i > 0 && math.Round(10*p.Seam.Mean) < math.Round(10*pairs[i-1].Seam.Mean) {
			t.Errorf("pair %d is better than the one before", i)
		}
	}
	if len(pairs) < 5 || slid == 0 {
		t.Errorf("%d pairs, %d of them slid", len(pairs), slid)
	}
}

// By hand: a blank of 950 x 109 at 30 on a board of 2000 (ends 25, edges 4.5)
// lies from 5 to 955; another's from 1455 with a kerf of 3 between them.
func TestRoom(t *testing.T) {
	b := plank("A", 2000, 250)
	al := cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	s := strip("A1", b, 30, 10, 900, 100)
	lo, hi := Room(&s, nil, al)
	near(t, "lo", lo, -5, 1e-9)
	near(t, "hi", hi, 2000-955, 1e-9)
	ahead := strip("A2", b, 1480, 60, 300, 100)
	beside := strip("A3", b, 30, 10+109+3, 300, 100)
	lo, hi = Room(&s, []face.Strip{s, ahead, beside}, al)
	near(t, "lo", lo, -5, 1e-9)
	near(t, "hi beside another", hi, 1455-3-955, 1e-9)
	for _, c := range []func(*face.Strip){
		func(s *face.Strip) { s.Stage = face.Sawn }, func(s *face.Strip) { s.Pinned = true },
		func(s *face.Strip) { s.Board = nil }, func(s *face.Strip) { s.X = -40 },
	} {
		q := s
		c(&q)
		if lo, hi := Room(&q, nil, al); lo != 0 || hi != 0 {
			t.Errorf("room %g, %g for %+v", lo, hi, q)
		}
	}
	// At 30 degrees it slides until the blank's corner meets the board's edge:
	// the highest, at (925, 104.5), lies 925/2 + 104.5 cos 30 over y.
	wide := plank("W", 2000, 900)
	s = strip("W1", wide, 300, 100, 900, 100)
	s.Angle = 30
	_, hi = Room(&s, nil, al)
	near(t, "hi at an angle", hi, (900-(100+925*0.5+104.5*math.Sqrt(3)/2))/0.5, 1e-9)
}

// What was measured on the planed face holds for the face that was up, over
// what the board says; such a strip slides no more.
func TestPlanedFace(t *testing.T) {
	a := strip("A1", edged(plank("A", 1600, 100), 1, face.Sap, constant(20)), 0, 0, 900, 100)
	a.Planed = &face.PlanedFace{Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{geom.Pt(0, 0), geom.Pt(900, 0), geom.Pt(900, 48), geom.Pt(0, 12)}}}}
	b := strip("B1", edged(plank("B", 900, 100), 1, face.Sap, constant(30)), 0, 0, 900, 100)
	a.Turned = true
	s, _ := Between(&a, &b, Options{})
	near(t, "left", s.FrontW[0], 48, 1e-2) // turned, the wide end lies at the left
	near(t, "mean", s.Mean, 9, 0.2)        // from 18 over to 18 under, nothing in the middle
	list := pool(a, b)
	list[0].MaxSlide = 700
	for _, p := range Pairs(context.Background(), list, Options{Tolerance: 20}) {
		if p.Slid == 0 {
			t.Errorf("a planed strip slides: %+v", p)
		}
	}
}

func TestEndsEarly(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a := strip("A1", edged(plank("A", 900, 100), 1, face.Sap, constant(20)), 0, 0, 900, 100)
	if got := Pairs(ctx, pool(a, a), Options{}); len(got) != 0 {
		t.Errorf("%d pairs after the end", len(got))
	}
}
