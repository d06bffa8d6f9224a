package model

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

func TestCrossing(t *testing.T) {
	for _, c := range []struct {
		name string
		p    geom.Polygon
		want bool
	}{
		{"square", ring(0, 0, 10, 0, 10, 10, 0, 10), false},
		{"bow tie", ring(0, 0, 10, 10, 10, 0, 0, 10), true},
		{"touches itself at a corner", ring(0, 0, 5, 5, 10, 0, 10, 10, 5, 5, 0, 10), false},
		{"there and back", ring(0, 0, 10, 0, 10, 10, 10, 0, 20, 0, 20, -5), false},
		{"corner on a side", ring(0, 0, 10, 0, 10, 10, 5, 0, 0, 10), false},
		{"star", ring(0, 3, 10, 3, 2, 9, 5, 0, 8, 9), true},
		{"upright crossing", ring(0, 0, 10, 0, 10, 10, 5, 10, 5, -5, 0, -5), true},
	} {
		if _, _, got := crossing(c.p); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// Every pair of sides, by whole numbers, exactly.
func crossingSlowly(x, y []int) bool {
	n := len(x)
	side := func(a, b, c int) int {
		return (x[b]-x[a])*(y[c]-y[a]) - (y[b]-y[a])*(x[c]-x[a])
	}
	for i := range n {
		for j := range i {
			a, b, c, d := j, (j+1)%n, i, (i+1)%n
			if (side(a, b, c) > 0) != (side(a, b, d) > 0) && side(a, b, c) != 0 && side(a, b, d) != 0 &&
				(side(c, d, a) > 0) != (side(c, d, b) > 0) && side(c, d, a) != 0 && side(c, d, b) != 0 {
				return true
			}
		}
	}
	return false
}

func TestCrossingAgainstEveryPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "corners")
		x := rapid.SliceOfN(rapid.IntRange(0, 12), n, n).Draw(t, "x")
		y := rapid.SliceOfN(rapid.IntRange(0, 12), n, n).Draw(t, "y")
		p := make(geom.Polygon, n)
		for i := range p {
			p[i] = geom.Pt(float64(x[i]), float64(y[i]))
		}
		if _, _, got := crossing(p); got != crossingSlowly(x, y) {
			t.Fatalf("%v: crosses %v", p, got)
		}
	})
}

func TestClippedArea(t *testing.T) {
	r := geom.R(0, 0, 100, 50)
	for _, c := range []struct {
		p    geom.Polygon
		want float64
	}{
		{ring(10, 10, 20, 10, 20, 20, 10, 20), 100},
		{ring(-10, -10, 10, -10, 10, 10, -10, 10), 100},    // a quarter of 20 x 20
		{ring(-50, 0, 50, 0, 0, 100), 1875},                // right half of the triangle: from 50 wide to 25 wide over 50
		{ring(-10, -10, 110, -10, 110, 60, -10, 60), 5000}, // all of it
		{ring(0, 60, 100, 60, 50, 90), 0},
		{ring(0, 50, 100, 50, 50, 90), 0},
	} {
		if got := clippedArea(c.p, r); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %g, want %g", c.p, got, c.want)
		}
	}
}
