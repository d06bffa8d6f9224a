package look

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"heartside/layout/face"
)

// laidAs says how a panel lies: strips front to back, small where turned, with
// a stroke where rolled over.
func laidAs(p *face.Panel) string {
	var out strings.Builder
	for i := range p.Strips {
		id := p.Strips[i].ID
		if p.Strips[i].Turned {
			id = strings.ToLower(id)
		}
		out.WriteString(id)
		if p.Strips[i].Up == 2 {
			out.WriteString("'")
		}
	}
	return out.String()
}

// everyOrder calls f with the strips in every order and in every state, those
// of rolling over only where asked.
func everyOrder(strips []face.Strip, roll bool, f func(p *face.Panel)) {
	states := 2
	if roll {
		states = 4
	}
	var rec func(done, left []face.Strip)
	rec = func(done, left []face.Strip) {
		if len(left) == 0 {
			f(top(slices.Clone(done)...))
			return
		}
		for i := range left {
			rest := slices.Delete(slices.Clone(left), i, i+1)
			for state := range states {
				s := left[i]
				s.Turned, s.Up = state&1 == 1, 1+state/2
				rec(append(slices.Clone(done), s), rest)
			}
		}
	}
	rec(nil, strips)
}

// Three strips of 100 x 900 mm: A and B with 20 mm of sapwood along one edge, C
// bare. Of all orders and turns the best for each look, and what is against it,
// by hand. That light wood goes out, in, or edge to edge so is common practice,
// no source.
func TestBestOfThreeStripsByHand(t *testing.T) {
	a, b := strip(plank("A", face.Heart, [2]float64{0, 20})), strip(plank("B", face.Heart, [2]float64{0, 20}))
	c := strip(plank("C", face.Heart))
	q := DefaultRules
	for _, k := range []struct {
		look Name
		roll bool
		best []string // C lies either way in each
		want float64
	}{
		// Bands at 0..20 and 280..300 of 300: 10 of 150 mm from the edges in the mean.
		{SapOut, false, []string{"ACb", "BCa"}, q.Away * 10 / 150},
		// One band at 80..120. The front strip's 20 of 300 lies a place out, 2/3 of
		// the way: 4/9. The band lies 50 of 150 mm from the middle, nothing mirrors
		// it, and its balance point is 50 of 300 mm off: lopsided.
		{SapIn, false, []string{"aBC", "bAC", "CaB", "CbA"}, q.Astray*20/300*4/9 + q.Away*50/150 + q.Mirror + q.Lopsided},
		// The same band: no joint has anything against it. Mirroring counts half.
		{SapToSap, false, []string{"aBC", "bAC", "CaB", "CbA"}, q.Mirror/2 + q.Lopsided},
		// All of it underneath.
		{HeartOnly, true, []string{"A'B'C", "A'CB'", "B'A'C", "B'CA'", "CA'B'", "CB'A'"}, 0},
	} {
		least := math.Inf(1)
		var best []string
		everyOrder([]face.Strip{a, b, c}, k.roll, func(p *face.Panel) {
			x := scored(p, k.look).Points
			switch {
			case x < least-1e-6:
				least, best = x, []string{laidAs(p)}
			case x <= least+1e-6:
				best = append(best, laidAs(p))
			}
		})
		near(t, string(k.look), least, k.want)
		for _, got := range best {
			plain := strings.NewReplacer("c'", "C", "C'", "C", "c", "C").Replace(got)
			if k.roll {
				plain = strings.ToUpper(plain)
			}
			if !slices.Contains(k.best, plain) {
				t.Errorf("%s: %s is among the best, by hand %v", k.look, got, k.best)
			}
		}
		// C turned is as good; rolled over it is C from below.
		if each := len(best) / len(k.best); each < 2 {
			t.Errorf("%s: %d of the best found, by hand %v", k.look, len(best), k.best)
		}
	}
}

// A lone streak put into a panel that has none makes it worse for every look.
// It counts more than all that any one joint can. Mistake 4 of the trade: one sap
// strip off-centre; common practice, no source.
func TestLoneStreakMakesItWorse(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	tried := 0
	for range 100 {
		bare := func(id string) face.Strip { return strip(plank(id, face.Heart)) }
		w := 5 + 25*r.Float64()
		edge := func(id string) face.Strip { return strip(plank(id, face.Heart, [2]float64{0, w})) }
		p := [...]*face.Panel{
			top(bare("A"), bare("B"), bare("C"), bare("D"), bare("E")),
			top(edge("A"), bare("B"), bare("C"), bare("D"), turned(edge("E"))),
			top(bare("A"), bare("B"), turned(edge("C")), edge("D"), bare("E"), bare("F")),
		}[r.IntN(3)]
		from, wide := 30*r.Float64(), 8+25*r.Float64()
		with := *p
		with.Strips = slices.Clone(p.Strips)
		with.Strips[1] = strip(plank("B", face.Heart, [2]float64{25 + from, 25 + from + wide}))
		if lone(p) != 0 || lone(&with) != 1 {
			continue
		}
		tried++
		for _, n := range All {
			x, y := scored(p, n), scored(&with, n)
			if y.Points <= x.Points || points(y, LoneStreak) <= DefaultRules.Border*DefaultRules.LikeToLike {
				t.Errorf("%s: %.2f without, %.2f with a lone streak of %.0f mm at %.0f", n, x.Points, y.Points, wide, 125+from)
			}
		}
	}
	if tried < 25 {
		t.Errorf("only %d panels told", tried)
	}
}

func lone(p *face.Panel) int {
	n := 0
	for _, w := range face.ReadFull(p).Warnings {
		if w.Kind == face.LoneStreak {
			n++
		}
	}
	return n
}

// A little sapwood is nearer to an even mix than none: what it lacks in
// evenness may not outweigh that. 4 mm of 400 are 1 %, a fifth of what makes
// spread count fully: off by 24 % of 60 points; at the front edge half a width,
// less half of one of 60 bins, from even.
func TestLittleIsNotUnevenAtOnce(t *testing.T) {
	bare, thin := strip(plank("B", face.Heart)), strip(plank("A", face.Heart, [2]float64{0, 4}))
	p := top(thin, bare, bare, bare)
	near(t, "off the mix", points(scored(p, EvenMix), OffMix), DefaultRules.OffMix*0.24)
	near(t, "uneven", points(scored(p, EvenMix), Uneven), DefaultRules.Uneven*2*(0.5-0.5/60)/5)
}

// Spread over the width is better than bunched, for an even mix. Bands of 30 mm
// in every strip of 100, against the same wood in the front strip and a half.
func TestEvenBeatsBunched(t *testing.T) {
	a := strip(plank("A", face.Heart, [2]float64{35, 65}))
	all, half, bare := strip(plank("S", face.Sap)), strip(plank("H", face.Heart, [2]float64{0, 20})), strip(plank("B", face.Heart))
	even, bunched := scored(top(a, a, a, a), EvenMix), scored(top(all, half, bare, bare), EvenMix)
	// Both hold 120 of 400. By hand each band of the even one has its wood spread
	// over 100 mm: moved by a triangle of 35/400 either way, at most.
	if even.Points >= bunched.Points {
		t.Errorf("even %.2f, bunched %.2f", even.Points, bunched.Points)
	}
	near(t, "off the mix", points(even, OffMix)+points(bunched, OffMix), 0)
}

// Terms name the strips they speak of.
func TestTermsNameTheirStrips(t *testing.T) {
	a, b := strip(plank("A", face.Heart, [2]float64{0, 20})), strip(plank("B", face.Heart, [2]float64{40, 60}))
	c, d := strip(plank("C", face.Heart)), strip(plank("D", face.Heart))
	p := top(turned(a), c, b, d)
	for _, k := range []struct {
		look   Name
		kind   TermKind
		joint  int
		strips string
	}{
		{SapToSap, JointBorder, 0, "A C"}, {SapOut, LoneStreak, -1, "A"}, {SapOut, EdgeBare, -1, "D"},
		{HeartOnly, OnShow, -1, "B"}, {SapOut, Mirror, -1, "A B"},
	} {
		found := slices.ContainsFunc(scored(p, k.look).Terms, func(x Term) bool {
			return x.Kind == k.kind && x.Joint == k.joint && strings.Join(x.Strips, " ") == k.strips
		})
		if !found {
			t.Errorf("%s: no %s of %s at joint %d among %+v", k.look, k.kind, k.strips, k.joint, scored(p, k.look).Terms)
		}
	}
	// A bare middle third, 133 to 267 of 400, is that of the strips from 100 to 300.
	sc := scored(top(a, c, d, turned(strip(plank("E", face.Heart, [2]float64{0, 20})))), SapIn)
	i := slices.IndexFunc(sc.Terms, func(x Term) bool { return x.Kind == MiddleBare })
	if i < 0 || strings.Join(sc.Terms[i].Strips, " ") != "C D" {
		t.Errorf("the bare middle is not that of C and D: %+v", sc.Terms)
	}
}

// Bands of 20 mm in the middle of every strip: 50, 150, 250, 350 of 400. Four in
// step look like a pole; three do not, nor one out of step (the last but one
// strip's by a quarter of a step), nor one twice as wide, nor short ones.
func TestStripesByHand(t *testing.T) {
	a := strip(plank("A", face.Heart, [2]float64{40, 60}))
	off, wide := strip(plank("O", face.Heart, [2]float64{65, 85})), strip(plank("W", face.Heart, [2]float64{30, 70}))
	bare := strip(plank("B", face.Heart))
	for _, c := range []struct {
		name string
		p    *face.Panel
		look Name
		want float64
	}{
		{"in step", top(a, a, a, a), AsLaid, DefaultRules.Stripes}, {"three", top(a, a, a, bare), AsLaid, 0},
		{"out of step", top(a, a, off, a), AsLaid, 0}, {"one wide", top(a, a, wide, a), AsLaid, 0},
		{"asked for", top(a, a, a, a), SapToSap, 0}, {"asked for", top(a, a, a, a), EvenMix, 0},
	} {
		near(t, c.name, points(scored(c.p, c.look), Stripes), c.want)
	}
}
