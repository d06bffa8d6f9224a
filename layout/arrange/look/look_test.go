package look

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// plank is a board of 1000 x 100 x 25 mm of one kind with bands of the other
// along its length on face 1: [from, to] across. Face 2 is bare.
func plank(id string, base face.Kind, bands ...[2]float64) *face.Board {
	other := face.Sap
	if base == face.Sap {
		other = face.Heart
	}
	b := &face.Board{ID: id, Length: 1000, Width: 100, Thickness: 25, AssumedHeart: colour.Lab{L: 35, A: 9, B: 15}, AssumedSap: colour.Lab{L: 75, A: 5, B: 22}}
	b.Faces[0].Base, b.Faces[1].Base = base, base
	for _, y := range bands {
		b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: other, Polygon: geom.R(0, y[0], 1000, y[1]).Polygon()})
	}
	return b
}

// strip is all of a board's face, 900 x 100 mm.
func strip(b *face.Board) face.Strip {
	return face.Strip{ID: b.ID, Board: b, X: 50, L: 900, W: 100, Up: 1}
}

func turned(s face.Strip) face.Strip { s.Turned = true; return s }

// top is a panel of as many strips of 100 mm, trimmed to nothing.
func top(strips ...face.Strip) *face.Panel {
	return &face.Panel{ID: "top", Length: 900, Width: 100 * float64(len(strips)), Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits, Strips: strips}
}

func scored(p *face.Panel, n Name) Score {
	return NewJudge(p, n, DefaultRules).Score(p, face.ReadFull(p))
}

func points(sc Score, k TermKind) float64 {
	sum := 0.0
	for _, t := range sc.Terms {
		if t.Kind == k {
			sum += t.Points
		}
	}
	return sum
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-3*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: %.4f, by hand %.4f", what, got, want)
	}
}

// Two strips, each with 20 mm of sapwood along its front edge. Laid alike, the
// joint has sapwood on the rear strip's side alone, all along; with the front
// one turned sapwood meets sapwood, 20 against 20; with the rear one turned it
// lies along both outside edges.
func TestTwoStripsByHand(t *testing.T) {
	a, b := strip(plank("A", face.Heart, [2]float64{0, 20})), strip(plank("B", face.Heart, [2]float64{0, 20}))
	r := DefaultRules
	for _, c := range []struct {
		name                             string
		p                                *face.Panel
		border, astray, away, mirror, on float64
	}{
		// Share 40/200 of the face is unwanted. Astray for sap-out: B's 20/200.
		// A's lies 10 mm from the front edge of 200 in the mean: 0.1 of half the
		// width; B's at 110, 90 from the back edge: 0.9; the mean is 0.5. By bins
		// of 200/60 mm, bands of six bins each: exact to those.
		{"alike", top(a, b), r.Border, r.Astray * 0.1, r.Away * 0.5, r.Mirror, r.OnShow * 0.2},
		{"meeting", top(turned(a), b), 0, r.Astray * 0.2, r.Away * 0.9, 0, r.OnShow * 0.2},
		{"outside", top(a, turned(b)), 0, 0, r.Away * 0.1, 0, r.OnShow * 0.2},
	} {
		sc := scored(c.p, SapOut)
		near(t, c.name+" border", points(sc, JointBorder), c.border)
		near(t, c.name+" astray", points(sc, Astray), c.astray)
		near(t, c.name+" away", points(sc, Away), c.away)
		near(t, c.name+" mirror", points(sc, Mirror), c.mirror)
		near(t, c.name+" on show", points(scored(c.p, HeartOnly), OnShow), c.on)
	}
	// An outside edge without sapwood is bare all along.
	near(t, "bare", points(scored(top(turned(a), b), SapOut), EdgeBare), 2*r.Bare)
	near(t, "bare", points(scored(top(a, turned(b)), SapOut), EdgeBare), 0)
	near(t, "light edges", points(scored(top(a, turned(b)), SapToSap), EdgeLight), 2*r.Bare*r.LikeToLike)
}

// Widths of 30 and 20 at a joint differ by a third of the wider: a third of the
// weight, times that of like to like where it is asked.
func TestStepByHand(t *testing.T) {
	a, b := strip(plank("A", face.Heart, [2]float64{0, 30})), strip(plank("B", face.Heart, [2]float64{0, 20}))
	p := top(turned(a), b)
	near(t, "step", points(scored(p, AsLaid), JointStep), DefaultRules.Step/3)
	near(t, "step, like to like", points(scored(p, SapToSap), JointStep), DefaultRules.Step*DefaultRules.LikeToLike/3)
}

// A wedge from 0 to 30 mm at one joint of two strips: the far strip bare. It is
// under the least of 3 mm for a tenth of the way, so a border for 0.9 of it.
func TestWedgeByHand(t *testing.T) {
	b := plank("A", face.Heart)
	b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{{X: 50, Y: 100}, {X: 950, Y: 70}, {X: 950, Y: 100}}}}
	p := top(strip(b), strip(plank("B", face.Heart)))
	near(t, "border", points(scored(p, AsLaid), JointBorder), 0.9*DefaultRules.Border)
}

// For each look the arrangement a maker would lay has least against it; common
// practice, no source. Four strips: two with sapwood along one edge, two bare.
func TestLooksRankAsAMakerWould(t *testing.T) {
	a, b := strip(plank("A", face.Heart, [2]float64{0, 25})), strip(plank("B", face.Heart, [2]float64{0, 25}))
	c, d := strip(plank("C", face.Heart)), strip(plank("D", face.Heart))
	over := func(s face.Strip) face.Strip { s.Up = 2; return s }
	laid := map[string]*face.Panel{
		"outside": top(a, c, d, turned(b)),
		"middle":  top(c, turned(a), b, d),
		"hidden":  top(over(a), c, d, over(b)),
		"one":     top(c, a, d, over(b)), // one light streak
		"apart":   top(c, a, b, d),
	}
	for _, k := range []struct {
		look Name
		best string
	}{{SapOut, "outside"}, {SapIn, "middle"}, {HeartOnly, "hidden"}} {
		best, at := math.Inf(1), ""
		for name, p := range laid {
			if x := scored(p, k.look).Points; x < best {
				best, at = x, name
			}
		}
		if at != k.best {
			t.Errorf("%s: %q has least against it, %q is what a maker would lay", k.look, at, k.best)
		}
	}
	// Whatever the look, a lone streak is worse than the same wood hidden, and
	// weighs more than any joint.
	for _, n := range All {
		one := scored(laid["one"], n)
		if points(one, LoneStreak) < DefaultRules.Streak {
			t.Errorf("%s: the lone streak counts %.1f", n, points(one, LoneStreak))
		}
		if one.Points <= scored(laid["hidden"], n).Points && n != EvenMix {
			t.Errorf("%s: a lone streak is no worse than none", n)
		}
	}
	if s := scored(laid["outside"], SapToSap); s.Points <= scored(laid["middle"], SapToSap).Points {
		t.Error("sap to sap: edges of the panel are as good as meeting in a joint")
	}
}

// All of the wood at one edge is half a width away from lying evenly; spread
// in even bands over the width it is next to nothing.
func TestUnevenByHand(t *testing.T) {
	a := strip(plank("A", face.Heart, [2]float64{0, 5}))
	bare := strip(plank("B", face.Heart))
	j := NewJudge(top(a, bare, bare, bare), EvenMix, DefaultRules)
	j.spread(top(a, bare, bare, bare))
	// All in the first of 60 bins: half, less half a bin for its own width.
	near(t, "at one edge", j.uneven(), 0.5-0.5/60)
	p := top(a, a, a, a)
	j.spread(p)
	if d := j.uneven(); d > 0.13 {
		t.Errorf("four bands: %.3f", d)
	}
}

func TestDirectionsRingsAndMoisture(t *testing.T) {
	a, b := plank("A", face.Heart), plank("B", face.Heart)
	a.Planes, b.Planes = face.PlanesFromMarked, face.PlanesFromMarked
	a.BarkFace, b.BarkFace = 1, 1
	a.Moisture, b.Moisture = 8, 11
	s, u := strip(a), strip(b)
	sc := scored(top(s, u), AsLaid)
	near(t, "planes", points(sc, PlanesApart), 0)
	near(t, "moisture", points(sc, Moisture), DefaultRules.Moisture)
	near(t, "planes", points(scored(top(s, turned(u)), AsLaid), PlanesApart), DefaultRules.Planing)
	rules := DefaultRules
	for _, c := range []struct {
		rings Rings
		up    [2]int
		want  float64
	}{{AnyRings, [2]int{1, 1}, 0}, {Alternate, [2]int{1, 1}, 1}, {Alternate, [2]int{1, 2}, 0}, {BarkUp, [2]int{1, 2}, 1}, {HeartUp, [2]int{1, 1}, 2}} {
		rules.Rings = c.rings
		s.Up, u.Up = c.up[0], c.up[1]
		p := top(s, u)
		near(t, "rings", points(NewJudge(p, AsLaid, rules).Score(p, face.ReadFull(p)), RingsWrong), c.want*rules.RingsWrong)
	}
}

func TestColourStepOnlyWhereComparable(t *testing.T) {
	a, b := plank("A", face.Heart), plank("B", face.Heart)
	x, y := colour.Lab{L: 35, A: 8, B: 14}, colour.Lab{L: 50, A: 8, B: 14}
	a.Faces[0].Heart, b.Faces[0].Heart = &x, &y
	p := top(strip(a), strip(b))
	near(t, "no common reference", points(scored(p, AsLaid), ColourStep), 0)
	a.Faces[0].Reference, b.Faces[0].Reference = "card", "card"
	// Well over 12 apart: all of the weight.
	near(t, "common reference", points(scored(top(strip(a), strip(b)), AsLaid), ColourStep), DefaultRules.Colour)
}

// draw makes a panel by lot: strips of boards with wedges and islands of
// sapwood, some faces bare, a place empty now and then.
func draw(r *rand.Rand, wanted face.Wanted) *face.Panel {
	n := 2 + r.IntN(5)
	p := &face.Panel{ID: "top", Length: 700 + 200*r.Float64(), Thickness: 20, Wanted: wanted, Limit: [2]float64{0.3, 1}, Limits: face.DefaultLimits, PanelEdge: 5}
	base := face.Heart
	if wanted == face.WantSap {
		base = face.Sap
	}
	for i := range n {
		b := plank(string(rune('A'+i)), base)
		b.Planes, b.BarkFace = face.Planes(r.IntN(4)), r.IntN(3)
		b.Moisture = 6 + 4*r.Float64()
		for f := range b.Faces {
			for range r.IntN(3) {
				k := face.Sap
				if wanted == face.WantSap {
					k = face.Heart
				}
				if r.IntN(6) == 0 {
					k = face.Unseen
				}
				w, v := 60*r.Float64(), 60*r.Float64()
				ring := geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: w}, {X: 0, Y: v}}
				if r.IntN(2) == 0 {
					ring = geom.R(300*r.Float64(), 20, 400+500*r.Float64(), 20+w).Polygon()
				}
				b.Faces[f].Zones = append(b.Faces[f].Zones, face.Zone{Kind: k, Polygon: ring})
			}
		}
		s := face.Strip{ID: b.ID, Board: b, X: 10 * r.Float64(), Y: 4 * r.Float64(), L: 940, W: 60 + 30*r.Float64(), Up: 1 + r.IntN(2), Turned: r.IntN(2) == 0}
		if r.IntN(12) == 0 {
			s.Board = nil
		}
		p.Strips = append(p.Strips, s)
		p.Width += s.W
	}
	p.Width -= 12
	return p
}

func TestSumsHoldByLot(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 150 {
		p := draw(r, face.Wanted(r.IntN(3)))
		read := face.ReadFull(p)
		for _, n := range All {
			j := NewJudge(p, n, DefaultRules)
			sc := j.Score(p, read)
			sum, local := 0.0, 0.0
			for _, x := range sc.Terms {
				if !(x.Points > 0) || math.IsInf(x.Points, 0) {
					t.Fatalf("%s: %s counts %g", n, x.Kind, x.Points)
				}
				if !slices.Contains(Kinds[:], x.Kind) {
					t.Fatalf("%s is not among the kinds", x.Kind)
				}
				sum += x.Points
				if x.Local {
					local += x.Points
				}
			}
			if math.Abs(sum-j.Points(p, read)) > 1e-9 || math.Abs(local-j.Local(p)) > 1e-9 || local > sum+1e-9 {
				t.Fatalf("%s: terms %.6f, points %.6f; local terms %.6f, local %.6f", n, sum, j.Points(p, read), local, j.Local(p))
			}
		}
	}
}

// A panel turned round by half a turn is the same panel from across the room.
func TestTurnedRoundIsTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 100 {
		p := draw(r, face.Wanted(r.IntN(2)))
		q := *p
		q.Strips = slices.Clone(p.Strips)
		slices.Reverse(q.Strips)
		for i := range q.Strips {
			q.Strips[i].Turned = !q.Strips[i].Turned
			q.Strips[i].Shift = -q.Strips[i].Shift
		}
		for _, n := range All {
			a, b := NewJudge(p, n, DefaultRules), NewJudge(p, n, DefaultRules)
			x, y := a.Local(p), b.Local(&q)
			if math.Abs(x-y) > 1e-6*(1+x) {
				t.Fatalf("%s: local %.6f, turned round %.6f", n, x, y)
			}
			x, y = a.Points(p, face.ReadFull(p)), b.Points(&q, face.ReadFull(&q))
			if math.Abs(x-y) > 1e-3*(1+x) {
				t.Fatalf("%s: %.6f, turned round %.6f", n, x, y)
			}
		}
	}
}

// With sapwood wanted a panel scores as the one with the two woods exchanged.
func TestWantedSwapped(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range 60 {
		p := draw(r, face.WantHeart)
		q := *p
		q.Wanted, q.Strips = face.WantSap, slices.Clone(p.Strips)
		for i := range q.Strips {
			if q.Strips[i].Board != nil {
				q.Strips[i].Board = exchanged(q.Strips[i].Board)
			}
		}
		for _, n := range All {
			x, y := scored(p, n).Points, scored(&q, n).Points
			if math.Abs(x-y) > 1e-6*(1+x) {
				t.Fatalf("%s: %.6f, exchanged %.6f", n, x, y)
			}
		}
	}
}

func exchanged(b *face.Board) *face.Board {
	c := *b
	swap := func(k face.Kind) face.Kind {
		switch k {
		case face.Heart:
			return face.Sap
		case face.Sap:
			return face.Heart
		}
		return k
	}
	for f := range c.Faces {
		c.Faces[f].Base = swap(b.Faces[f].Base)
		c.Faces[f].Zones = slices.Clone(b.Faces[f].Zones)
		for i := range c.Faces[f].Zones {
			c.Faces[f].Zones[i].Kind = swap(c.Faces[f].Zones[i].Kind)
		}
	}
	c.AssumedHeart, c.AssumedSap = b.AssumedSap, b.AssumedHeart
	return &c
}

// Where both woods are welcome no look has anything to ask of them.
func TestBothWanted(t *testing.T) {
	p := top(strip(plank("A", face.Heart, [2]float64{0, 30})), strip(plank("B", face.Heart)))
	p.Wanted = face.WantBoth
	for _, n := range All {
		if sc := scored(p, n); sc.Points != 0 {
			t.Errorf("%s: %+v", n, sc.Terms)
		}
	}
}

// The light shares agree with those of the reading, which cuts the zones
// exactly.
func TestProfileAgreesWithTheReading(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 60 {
		p := draw(r, face.WantHeart)
		p.Strips = slices.DeleteFunc(p.Strips, func(s face.Strip) bool { return s.Board == nil })
		if len(p.Strips) == 0 || p.StripsWidth() < p.Width {
			continue
		}
		j := NewJudge(p, AsLaid, DefaultRules)
		if got, want := j.spread(p), face.ReadFull(p).Show.Unwanted.Value; math.Abs(got-want) > 0.006 {
			t.Fatalf("unwanted share %.4f, the reading has %.4f", got, want)
		}
	}
}

func BenchmarkPoints24(b *testing.B) {
	r := rand.New(rand.NewPCG(8, 8))
	p := &face.Panel{ID: "top", Length: 900, Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits}
	for len(p.Strips) < 24 {
		p.Strips = append(p.Strips, draw(r, face.WantHeart).Strips...)
	}
	p.Strips = p.Strips[:24]
	p.Width = p.StripsWidth() - 10
	read := face.ReadFull(p)
	j := NewJudge(p, SapOut, DefaultRules)
	b.ReportAllocs()
	for b.Loop() {
		j.Points(p, read)
	}
}
