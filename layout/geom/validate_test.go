package geom

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestValidateNamesTheRuleAndThePlace(t *testing.T) {
	ring := func(s string) Polygon { return poly(t, s) }
	cases := []struct {
		name        string
		p           Polygon
		rule        ShapeRule // "" is sound
		edge, other int
		at          Point
	}{
		{"nil", nil, TooFewPoints, -1, -1, Point{}},
		{"two points", ring("0,0 1,1"), TooFewPoints, -1, -1, Point{}},
		{"triangle", ring("0,0 10,0 0,10"), "", 0, 0, Point{}},
		{"clockwise", ring("0,10 10,0 0,0"), "", 0, 0, Point{}},
		{"NaN", Polygon{{0, 0}, {1, 0}, {math.NaN(), 1}}, NotFinite, 2, -1, Point{}},
		{"infinite", Polygon{{0, 0}, {1, math.Inf(-1)}, {0, 1}}, NotFinite, 1, -1, Point{}},
		{"bow-tie", ring("0,0 100,50 100,0 0,50"), CrossesItself, 0, 2, Pt(50, 25)},
		{"small loop at a corner", ring("0,0 90,0 110,20 90,20 110,0 120,0 120,50 0,50"), CrossesItself, 1, 3, Pt(100, 10)},
		{"crosses at its own corner", ring("0,0 50,25 100,50 100,0 50,25 0,50"), CrossesItself, 0, 3, Pt(50, 25)},
		{"passes through a corner onto the other side", ring("0,0 100,0 100,50 50,0 40,-20 0,50"), CrossesItself, 0, 4, Pt(200.0/7, 0)},
		{"run twice", ring("0,0 10,0 10,10 0,10 0,0 10,0 10,10 0,10"), CrossesItself, 0, 3, Pt(0, 0)},
		{"corner touches an edge from inside", ring("0,0 100,0 100,50 50,0 0,50"), "", 0, 0, Point{}},
		{"two squares at a corner", ring("0,0 10,0 10,10 20,10 20,20 10,20 10,10 0,10"), "", 0, 0, Point{}},
		{"hole by a bridge", ring("0,0 100,0 100,50 0,50 0,0 20,10 20,40 80,40 80,10 20,10"), "", 0, 0, Point{}},
		{"repeated points", ring("0,0 0,0 10,0 10,0 10,10 0,10 0,10"), "", 0, 0, Point{}},
		{"spike", ring("0,0 100,0 100,10 50,10 80,40 50,10 0,10"), "", 0, 0, Point{}},
		{"on a line", ring("0,0 10,0 20,0"), ZeroArea, -1, -1, Point{}},
		{"on a slanted line", ring("0.1,0.1 0.3,0.3 0.7,0.7"), ZeroArea, -1, -1, Point{}},
		{"there and back", ring("0,0 10,5 20,3 10,5"), ZeroArea, -1, -1, Point{}},
		{"one point", ring("3,3 3,3 3,3"), ZeroArea, -1, -1, Point{}},
		{"far from the origin", Translate(1e6, 1e6).ApplyTo(ring("0,0 1,0 1,1 0,1")), "", 0, 0, Point{}},
		{"thin but real", ring("0,0 2400,0 2400,0.001 0,0.001"), "", 0, 0, Point{}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			err := c.p.Validate()
			if c.rule == "" {
				if err != nil {
					t.Fatalf("a sound ring: %v", err)
				}
				return
			}
			var e *ShapeError
			if !errors.As(err, &e) {
				t.Fatalf("got %v, want the rule %s", err, c.rule)
			}
			if e.Rule != c.rule || e.Edge != c.edge || e.Other != c.other || e.Points != len(c.p) {
				t.Errorf("got %+v, want rule %s, edges %d and %d", e, c.rule, c.edge, c.other)
			}
			if c.rule == CrossesItself && e.At.Dist(c.at) > 1e-9 {
				t.Errorf("at %v, want %v", e.At, c.at)
			}
		})
	}
}

func TestShapeErrorCountsFromOne(t *testing.T) {
	err := poly(t, "0,0 100,50 100,0 0,50").Validate()
	for _, want := range []string{"50.0, 25.0", "point 1", "point 3"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
}

// Rings drawn round a middle point cannot cross themselves; swapping two
// neighbouring corners of one with all corners in convex position always makes
// a crossing.
func TestValidateTellsSoundFromCrossed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 30).Draw(t, "corners")
		star, round := make(Polygon, n), make(Polygon, n)
		for i := range star {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(1, 60).Draw(t, "radius")
			star[i], round[i] = Pt(r*c, r*s), Pt(40*c, 25*s)
		}
		if err := star.Validate(); err != nil {
			t.Fatalf("star %v: %v", star, err)
		}
		k := rapid.IntRange(0, n-1).Draw(t, "swap")
		round[k], round[(k+1)%n] = round[(k+1)%n], round[k]
		var e *ShapeError
		if err := round.Validate(); !errors.As(err, &e) || e.Rule != CrossesItself {
			t.Fatalf("crossed ring %v: %v", round, err)
		}
	})
}
