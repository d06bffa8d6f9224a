package look

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// A flaw at the joint does not end the sapwood behind it: 20 mm of sapwood with
// a knot of 8 mm at its edge meets 20 mm. One with heartwood behind it does not
// make the heartwood light. Wood not seen yet speaks neither way.
func TestFlawAndUnseenAtAJoint(t *testing.T) {
	a := turned(strip(plank("A", face.Heart, [2]float64{0, 20})))
	knot := face.Zone{Kind: face.Flaw, Polygon: geom.R(200, -1, 650, 8).Polygon()}
	in, out, hidden := plank("F", face.Heart, [2]float64{0, 20}), plank("G", face.Heart), plank("U", face.Heart)
	part := plank("P", face.Heart, [2]float64{0, 20})
	in.Faces[0].Zones = append(in.Faces[0].Zones, knot)
	out.Faces[0].Zones = append(out.Faces[0].Zones, knot)
	// Not seen along half of the strip, 50 to 500 of the board.
	hidden.Faces[0].Zones = []face.Zone{{Kind: face.Unseen, Polygon: geom.R(0, -1, 500, 101).Polygon()}}
	part.Faces[0].Zones = append(part.Faces[0].Zones, hidden.Faces[0].Zones...)
	for _, c := range []struct {
		name   string
		rear   *face.Board
		border float64
	}{{"sapwood behind", in, 0}, {"heartwood behind", out, DefaultRules.Border}, {"heartwood, half not seen", hidden, DefaultRules.Border}, {"sapwood, half not seen", part, 0}} {
		p := top(a, strip(c.rear))
		near(t, c.name, points(scored(p, AsLaid), JointBorder), c.border)
		near(t, c.name+": step", points(scored(p, AsLaid), JointStep), 0)
	}
	// An outside edge that is not seen yet along half is known to be bare along
	// the other half.
	near(t, "bare", points(scored(top(strip(hidden), a), SapOut), EdgeBare), DefaultRules.Bare*0.5)
}

// Sapwood under an apron is on show nowhere. 20 x 900 mm of it along the front
// edge of 900 x 200, hidden along all or half of it: then 20 x 450 shows of
// 900 x 200 less 450 x 25, 5.33 %.
func TestHiddenWoodDoesNotCount(t *testing.T) {
	p := top(strip(plank("A", face.Heart, [2]float64{0, 20})), strip(plank("C", face.Heart)))
	p.Hidden = []geom.Polygon{geom.R(-1, -1, 901, 25).Polygon()}
	if sc := scored(p, HeartOnly); sc.Points != 0 {
		t.Errorf("all hidden: %+v", sc.Terms)
	}
	p.Hidden = []geom.Polygon{geom.R(-1, -1, 450, 25).Polygon()}
	near(t, "half hidden", points(scored(p, HeartOnly), OnShow), DefaultRules.OnShow*20*450/(900*200-450*25))
	// Sapwood meets sapwood along the left half of this joint, which nobody sees,
	// and heartwood along the right half, which is all that is seen.
	half := plank("H", face.Heart)
	half.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 500, 20).Polygon()}}
	q := top(turned(p.Strips[0]), strip(half))
	near(t, "joint all seen", points(scored(q, AsLaid), JointBorder), DefaultRules.Border/2)
	q.Hidden = []geom.Polygon{geom.R(-1, -1, 450, 201).Polygon()}
	near(t, "joint half hidden", points(scored(q, AsLaid), JointBorder), DefaultRules.Border)
	// Of 20 mm along an outside edge a groove of 18 leaves 2, too little to be
	// seen as a light edge; one of 10 leaves 10.
	e := top(p.Strips[0], turned(strip(plank("B", face.Heart, [2]float64{0, 20}))))
	for deep, bare := range map[float64]float64{18: 2, 10: 0} {
		e.Hidden = []geom.Polygon{geom.R(-1, -1, 901, deep).Polygon(), geom.R(-1, 200-deep, 901, 201).Polygon()}
		near(t, "groove", points(scored(e, SapOut), EdgeBare), bare*DefaultRules.Bare)
	}
}

// What comes off with the trimming makes no light edge: strips 12 mm wider than
// the panel lose 6 mm at each edge. Of 5 mm nothing is left; of 15 mm 9; of a
// wedge from 0 to 20 mm less than 3 are left along 9/20.
func TestTrimmedEdgeIsBare(t *testing.T) {
	wedge := plank("W", face.Heart)
	wedge.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{{X: 50, Y: 0}, {X: 950, Y: 0}, {X: 950, Y: 20}}}}
	for _, c := range []struct {
		name  string
		board *face.Board
		want  float64
	}{
		{"5 mm", plank("D", face.Heart, [2]float64{0, 5}), 1}, {"15 mm", plank("D", face.Heart, [2]float64{0, 15}), 0}, {"wedge", wedge, 0.45},
	} {
		p := top(strip(c.board), turned(strip(plank("E", face.Heart, [2]float64{0, 30}))))
		p.Width -= 12
		got := points(scored(p, SapOut), EdgeBare)
		if math.Abs(got-c.want*DefaultRules.Bare) > DefaultRules.Bare/90 { // one of 90 stations
			t.Errorf("%s: %.3f, by hand %.3f", c.name, got, c.want*DefaultRules.Bare)
		}
	}
}

// shaped draws a panel with an elliptic or whole outline, a hidden corner and
// some wane.
func shaped(r *rand.Rand, wanted face.Wanted) *face.Panel {
	p := draw(r, wanted)
	if r.IntN(2) == 0 {
		p.Shape = geom.Ellipse(geom.R(0, 0, p.Length, p.Width), 60)
	}
	if r.IntN(3) > 0 {
		p.Hidden = append(p.Hidden, geom.R(-1, -1, p.Length*r.Float64(), p.Width*r.Float64()).Polygon())
	}
	for i := range p.Strips {
		if b := p.Strips[i].Board; b != nil && r.IntN(3) == 0 {
			b.Faces[r.IntN(2)].Outline = geom.Polygon{{X: 0, Y: 3}, {X: 600, Y: 10 * r.Float64()}, {X: 1000, Y: 2}, {X: 990, Y: 95}, {X: 0, Y: 100}}
		}
	}
	return p
}

// The unwanted wood seen agrees with the reading, which cuts the zones, the
// shape and the hidden exactly.
func TestSeenWoodAgreesWithTheReading(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 10))
	for range 80 {
		p := shaped(r, face.Wanted(r.IntN(2)))
		show := face.ReadFull(p).Show
		want := show.Unwanted.Value * show.Area / (p.Length * p.Width)
		if got := NewJudge(p, AsLaid, DefaultRules).spread(p); math.Abs(got-want) > 0.008 {
			t.Fatalf("unwanted wood %.4f of the rectangle, the reading has %.4f", got, want)
		}
	}
}

func TestSumsHoldWhereShapedAndHidden(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 11))
	for range 80 {
		p := shaped(r, face.Wanted(r.IntN(3)))
		read := face.ReadFull(p)
		for _, n := range All {
			j := NewJudge(p, n, DefaultRules)
			sc, got := j.Score(p, read), j.Points(p, read)
			sum := 0.0
			for _, x := range sc.Terms {
				sum += x.Points
			}
			if !(math.Abs(sum-got) < 1e-9) || !(math.Abs(sc.LocalPoints-j.Local(p)) < 1e-9) || !(j.Whole(p, read) >= 0) {
				t.Fatalf("%s: terms %g, points %g; local %g and %g; whole %g", n, sum, got, sc.LocalPoints, j.Local(p), j.Whole(p, read))
			}
		}
	}
}

// Whatever the numbers, there is an answer: finite, not under 0, and soon.
func TestBadNumbers(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -5, 0, 1e300, -1e300, 1e9} {
		for k := range 9 {
			a, b := strip(plank("A", face.Heart, [2]float64{0, 20})), strip(plank("B", face.Heart, [2]float64{0, 20}))
			p := top(a, b, a)
			s := &p.Strips[0]
			*[...]*float64{&s.X, &s.Y, &s.L, &s.W, &s.Angle, &s.Shift, &p.Length, &p.Width, &p.Strips[1].W}[k] = bad
			read := face.ReadFull(top(a, b, a))
			for _, n := range All {
				j := NewJudge(p, n, DefaultRules)
				if x := j.Points(p, read); !(x >= 0) || math.IsInf(x, 1) {
					t.Errorf("%s, number %d as %g: %g", n, k, bad, x)
				}
				j.Score(p, read)
			}
		}
	}
	a := strip(plank("A", face.Heart, [2]float64{0, 20}))
	for _, n := range All {
		j := NewJudge(top(a), n, DefaultRules)
		if x := j.Single(&a, 0, 0); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s: no places: %g", n, x)
		}
		empty := top()
		if x := j.Points(empty, face.ReadFull(empty)); !(x >= 0) || math.IsInf(x, 1) {
			t.Errorf("%s: no strips: %g", n, x)
		}
	}
}

// A face without a photograph has the colour measured on the board's other
// face, as in the reading.
func TestColourOfTheOtherFace(t *testing.T) {
	a, b := plank("A", face.Heart), plank("B", face.Heart)
	x, y := colour.Lab{L: 35, A: 8, B: 14}, colour.Lab{L: 60, A: 8, B: 14}
	a.Faces[0].Heart, a.Faces[0].Reference = &x, "card"
	b.Faces[1].Heart, b.Faces[1].Reference = &y, "card"
	near(t, "step", points(scored(top(strip(a), strip(b)), AsLaid), ColourStep), DefaultRules.Colour)
}

// Laying the same strips anew asks for no more memory.
func TestPointsDoNotAllocate(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 12))
	for _, p := range []*face.Panel{draw(r, face.WantHeart), shaped(r, face.WantHeart)} {
		read := face.ReadFull(p)
		for _, n := range All {
			j := NewJudge(p, n, DefaultRules)
			j.Points(p, read)
			if got := testing.AllocsPerRun(20, func() { j.Points(p, read) }); got > 0 {
				t.Errorf("%s: %.0f allocations", n, got)
			}
		}
	}
}

// BenchmarkPointsHidden24 is BenchmarkPoints24 with a groove along three sides.
func BenchmarkPointsHidden24(b *testing.B) {
	r := rand.New(rand.NewPCG(8, 8))
	p := &face.Panel{ID: "top", Length: 900, Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits}
	for len(p.Strips) < 24 {
		p.Strips = append(p.Strips, draw(r, face.WantHeart).Strips...)
	}
	p.Strips = p.Strips[:24]
	p.Width = p.StripsWidth() - 10
	p.Hidden = []geom.Polygon{
		geom.R(-1, -1, 901, 10).Polygon(), geom.R(-1, p.Width-10, 901, p.Width+1).Polygon(), geom.R(-1, -1, 10, p.Width+1).Polygon(),
	}
	read := face.ReadFull(p)
	j := NewJudge(p, SapOut, DefaultRules)
	b.ReportAllocs()
	for b.Loop() {
		j.Points(p, read)
	}
}
