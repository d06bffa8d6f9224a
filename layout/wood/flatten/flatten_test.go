package flatten

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, tol)
	}
}

var board = Board{Length: 2400, Width: 200, Thickness: 26, Shape: Shape{Cup: 4, Bow: 12, Crook: 8, Twist: 6}}

// By hand: a blank of 1200 x 100 has a quarter of cup, bow and crook and of
// twist: 1, 3, 2, 1.5. Sure 26 - 1 - 3 - 1.5 - 1 = 19.5; the surface rises 3 +
// 1 + 1.5/4 = 4.375 at a corner and is lowest in the middle (twist is too small
// for a saddle: 0.375^2 < 4 x 3 x 1): likely 26 - 4.375 - 1 = 20.625. Straight
// 100 - 2.
func TestBlankByHand(t *testing.T) {
	l, err := Of(board, 1200, 100, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	if l.Shape != (Shape{1, 3, 2, 1.5}) {
		t.Errorf("shape %v", l.Shape)
	}
	near(t, "sure", l.Sure, 19.5, 1e-12)
	near(t, "likely", l.Likely, 20.625, 1e-12)
	near(t, "straight", l.Straight, 98, 1e-12)
	for _, s := range l.Working {
		if s.Formula == "" || s.Source == "" || s.Flag == "" || len(s.Values) == 0 {
			t.Errorf("working %+v", s)
		}
	}
	// The whole board: 26 - 22 - 1 = 3 surely.
	l, _ = Of(board, 2400, 200, 0.5)
	near(t, "whole", l.Sure, 3, 1e-12)
	// Half the width: cup falls to a quarter, bow stays.
	l, _ = Of(board, 2400, 100, 0)
	near(t, "half the width", l.Sure, 26-1-12-3, 1e-12)
}

// Closed forms: one parabola costs its rise; two add, whether they bend the
// same way (lowest in the middle, highest at the corners) or opposite ways (a
// saddle, u^2 - v^2 between -1 and 1). Twist alone runs from -t/4 to t/4: half
// of what the corner stands off. Opposite with twist: the highest point is on
// an end at v = c/(2b), a + c^2/4b, the lowest on an edge, -b - c^2/4a; with a
// = 3, b = 2, c = 1: 5 + 1/8 + 1/12.
func TestDepth(t *testing.T) {
	for _, c := range []struct {
		s    Shape
		want float64
	}{
		{Shape{}, 0}, {Shape{Cup: 3}, 3}, {Shape{Bow: -5}, 5}, {Shape{Cup: 3, Bow: 5}, 8}, {Shape{Cup: -3, Bow: 5}, 8},
		{Shape{Twist: 6}, 3}, {Shape{Twist: -6}, 3}, {Shape{Bow: 3, Cup: -2, Twist: 4}, 5 + 1.0/8 + 1.0/12},
		{Shape{Bow: 3, Cup: 2, Twist: 4}, 6}, {Shape{Bow: 3, Cup: 2, Twist: 4, Crook: 50}, 6},
		// A saddle with parabolas the same way: a = b = 1, c = 4: 6 at one
		// corner, -2 at the other.
		{Shape{Bow: 1, Cup: 1, Twist: 16}, 8},
		// a = 3, b = 0.5, c = 2: 5.5 at one corner; along that edge lowest at
		// u = -1/3, 0.5 - 1/3, still above the middle (c^2 = 4 < 4ab = 6).
		{Shape{Bow: 3, Cup: 0.5, Twist: 8}, 5.5},
	} {
		near(t, "depth", c.s.Depth(), c.want, 1e-12)
	}
}

// No plane does better: the surface at 21 x 21 points, against every plane
// that leans by steps; and the sure figure is never the better one.
func TestDepthAgainstLeaningPlanes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-10, 10).Draw(t, name) }
		s := Shape{Cup: f("cup"), Bow: f("bow"), Twist: f("twist")}
		d := s.Depth()
		if d > math.Abs(s.Cup)+math.Abs(s.Bow)+math.Abs(s.Twist)+1e-9 {
			t.Fatalf("%v: %g, more than all of it", s, d)
		}
		least := math.Inf(1)
		for p := -5.0; p <= 5; p++ {
			for q := -5.0; q <= 5; q++ {
				lo, hi := math.Inf(1), math.Inf(-1)
				for i := range 21 {
					for j := range 21 {
						u, v := float64(i-10)/10, float64(j-10)/10
						z := s.Bow*u*u + s.Cup*v*v + s.Twist*u*v/4 - p*u - q*v
						lo, hi = math.Min(lo, z), math.Max(hi, z)
					}
				}
				least = math.Min(least, hi-lo)
			}
		}
		// The points may miss the highest by half a step: 0.05^2 x 10, twice.
		if least > d+1e-9 || least < d-0.06 {
			t.Fatalf("%v: %g, by trying %g", s, d, least)
		}
	})
}

// Smaller blanks never leave less; a flat board loses the skim alone.
func TestSmallerIsBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		b := Board{2400, 200, 30, Shape{f(-6, 6, "cup"), f(-9, 9, "bow"), f(-9, 9, "crook"), f(-9, 9, "twist")}}
		l, w := f(100, 2400, "l"), f(20, 200, "w")
		big, err := Of(b, l, w, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		small, _ := Of(b, l*f(0.1, 1, "shorter"), w*f(0.1, 1, "narrower"), 0.5)
		if small.Likely < big.Likely-1e-9 || small.Sure < big.Sure-1e-9 || big.Sure > big.Likely+1e-9 {
			t.Fatalf("big %+v, small %+v", big, small)
		}
		flat, _ := Of(Board{2400, 200, 30, Shape{}}, l, w, 0.5)
		if flat.Sure != 29 || flat.Likely != 29 || flat.Straight != w {
			t.Fatalf("flat %+v", flat)
		}
	})
}

// A cupped board, 300 wide with 8 mm of cup, 26 thick, wanted 20: whole 26 - 8
// - 1 = 17, 3 short. Ripped in two with a kerf of 3 each strip is 148.5 wide
// and its cup 8 x 0.495^2 = 1.9602: 23.0398 left. It has no bow, so a shorter
// piece would not help. A thinner panel: 17.
func TestRipFirst(t *testing.T) {
	b := Board{2000, 300, 26, Shape{Cup: 8}}
	a, err := Will(b, 2000, 300, Wanted{Thickness: 20}, Options{Skim: 0.5, Kerf: 3, Narrowest: 50, Shortest: 300})
	if err != nil {
		t.Fatal(err)
	}
	if a.Verdict != WillNot || len(a.Remedies) != 2 {
		t.Fatalf("%+v", a)
	}
	near(t, "short", a.ShortSure, 3, 1e-12)
	r := a.Remedies[0]
	if r.Way != RipFirst || r.Pieces != 2 || r.Verdict != CleansUp {
		t.Errorf("%+v", r)
	}
	near(t, "strip", r.Width, 148.5, 1e-12)
	near(t, "left", r.Thickness, 23.0398, 1e-9)
	if r = a.Remedies[1]; r.Way != ThinnerPanel || r.Thickness != 17 {
		t.Errorf("%+v", r)
	}
	// Strips may be no narrower than 160: no ripping.
	a, _ = Will(b, 2000, 300, Wanted{Thickness: 20}, Options{Skim: 0.5, Kerf: 3, Narrowest: 160, Shortest: 300})
	if len(a.Remedies) != 1 || a.Remedies[0].Way != ThinnerPanel {
		t.Errorf("%+v", a.Remedies)
	}
}

// A bowed board, 10 mm on 2000, 26 thick, wanted 20: bow may be 26 - 1 - 20 =
// 5 at most: l = 2000 sqrt(5/10) = 1414.2, to the full mm 1414.
func TestCutShorter(t *testing.T) {
	b := Board{2000, 150, 26, Shape{Bow: 10}}
	o := Options{Skim: 0.5, Kerf: 3, Narrowest: 50, Shortest: 300}
	a, err := Will(b, 2000, 150, Wanted{Thickness: 20}, o)
	if err != nil {
		t.Fatal(err)
	}
	if a.Verdict != WillNot || a.Remedies[0].Way != CutShorter || a.Remedies[0].Length != 1414 {
		t.Fatalf("%+v", a)
	}
	if a, _ = Will(b, 1414, 150, Wanted{Thickness: 20}, o); a.Verdict != CleansUp || a.Remedies != nil {
		t.Errorf("%+v", a)
	}
	// Twist of 8 counts 8 surely and 4 likely: 17 and 21 of 26.
	a, _ = Will(Board{2000, 150, 26, Shape{Twist: 8}}, 2000, 150, Wanted{Thickness: 20}, o)
	if a.Verdict != Likely || a.ShortLikely != 0 {
		t.Errorf("%+v", a)
	}
	near(t, "short", a.ShortSure, 3, 1e-12)
	// Crook 6 on 2000, a blank 150 wide, 147 wanted: 144 straight, 3 short;
	// the piece with 3 of crook is 2000 sqrt(1/2) = 1414 long.
	a, _ = Will(Board{2000, 150, 26, Shape{Crook: 6}}, 2000, 150, Wanted{20, 147}, o)
	if a.Verdict != WillNot || len(a.Remedies) != 2 || a.Remedies[0].Length != 1414 || a.Remedies[1].Way != Narrower || a.Remedies[1].Width != 144 {
		t.Errorf("%+v", a)
	}
	near(t, "short width", a.ShortWidth, 3, 1e-12)
}

func TestBadInput(t *testing.T) {
	o := Options{Skim: 0.5}
	for _, b := range []Board{{}, {2000, 150, math.NaN(), Shape{}}, {2000, 150, 26, Shape{Cup: math.Inf(1)}}, {-1, 150, 26, Shape{}}} {
		if _, err := Will(b, 100, 50, Wanted{20, 0}, o); err == nil {
			t.Errorf("%v is taken", b)
		}
	}
	for _, c := range [][2]float64{{2401, 100}, {1000, 201}, {0, 100}, {1000, math.NaN()}} {
		if _, err := Of(board, c[0], c[1], 0.5); err == nil {
			t.Errorf("a blank of %v is taken", c)
		}
	}
	if _, err := Of(board, 1000, 100, -1); err == nil {
		t.Error("a skim below 0 is taken")
	}
	if _, err := Will(board, 1000, 100, Wanted{0, 0}, o); err == nil {
		t.Error("no thickness is taken")
	}
	if _, err := Will(board, 1000, 100, Wanted{20, 0}, Options{Kerf: math.NaN()}); err == nil {
		t.Error("a kerf that is no number is taken")
	}
	if _, err := Rip(board, 1000, 100, 0, 3, 0.5); err == nil {
		t.Error("no strips are taken")
	}
	if _, err := Rip(board, 1000, 300, 2, 3, 0.5); err == nil {
		t.Error("a blank wider than the board is taken")
	}
}
