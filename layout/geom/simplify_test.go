package geom

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestSimplifyKeepsWhatMatters(t *testing.T) {
	cases := []struct {
		name, ring string
		deviation  float64
		want       string
	}{
		{"points in line", "0,0 50,0 100,0 100,25 100,50 0,50", 0.1, "0,0 100,0 100,50 0,50"},
		{"a small dent goes", "0,0 50,0.4 100,0 100,50 0,50", 0.5, "0,0 100,0 100,50 0,50"},
		{"a large dent stays", "0,0 50,0.6 100,0 100,50 0,50", 0.5, "0,0 50,0.6 100,0 100,50 0,50"},
		{"repeated points", "0,0 0,0 100,0 100,0 100,50 0,50", 0.1, "0,0 100,0 100,50 0,50"},
		{"triangle", "0,0 100,0 50,0.01", 5, "0,0 100,0 50,0.01"},
		{"no deviation", "0,0 50,0 100,0 100,50", 0, "0,0 50,0 100,0 100,50"},
		{"deviation not a number", "0,0 50,0 100,0 100,50", math.NaN(), "0,0 50,0 100,0 100,50"},
	}
	for _, c := range cases {
		if got := poly(t, c.ring).Simplify(c.deviation).String(); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func TestSimplifyStaysWithinTheDeviation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 60).Draw(t, "points")
		deviation := rapid.Float64Range(0.1, 20).Draw(t, "deviation")
		p := make(Polygon, n)
		for i := range p {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(20, 60).Draw(t, "radius")
			p[i] = Pt(r*c, r*s)
		}
		got := p.Simplify(deviation)
		if err := got.Validate(); err != nil {
			t.Fatalf("not sound any more: %v", err)
		}
		for _, q := range got {
			if !slices.Contains(p, q) {
				t.Fatalf("%v was no point of the ring", q)
			}
		}
		for _, q := range p {
			if _, _, d := got.Nearest(q); d > deviation+1e-9 {
				t.Fatalf("%v lies %g from the result, more than %g", q, d, deviation)
			}
		}
	})
}
