package match

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The slide found is the best of all whole mm, held against trying every one.
func TestSlideIsTheBest(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	var w search
	better := 0
	for round := range 300 {
		line := func(n int) *track {
			tr := &track{from: -300}
			for e := range tr.width {
				v, rough := 30*rng.Float64(), rng.Float64()*float64(rng.IntN(3))
				tr.width[e], tr.unseen[e] = make([]float64, n), make([]bool, n)
				for k := range n {
					v = math.Abs(v + rough*rng.NormFloat64())
					if rng.IntN(60) == 0 {
						v = 30 * rng.Float64()
					}
					tr.width[e][k] = v
				}
			}
			return tr
		}
		x := side{line(150), Edge(rng.IntN(2)), rng.IntN(2) == 1, 600}
		y := side{line(150), Edge(rng.IntN(2)), rng.IntN(2) == 1, 600}
		j := joint{from: 0, to: 600, n: 61}
		lo, hi := -float64(rng.IntN(200)), float64(rng.IntN(200))
		cost := func(d float64) float64 {
			sum := 0.0
			for k := range j.n {
				u := Step * float64(k)
				// x slides by d along the board: at u lies what was d further.
				s := u + d
				if x.turned {
					s = x.length - u + d
				}
				sum += math.Abs(x.t.at(x.edge, s) - y.at(u))
			}
			return sum / float64(j.n)
		}
		limit := cost(0) - 0.2
		want, at := math.Inf(1), 0.0
		for d := lo; d <= hi; d++ {
			if c := cost(d); c < limit && (c < want-1e-9 || c <= want+1e-9 && math.Abs(d) < math.Abs(at)) {
				want, at = c, d
			}
		}
		d, mean := w.slide(j, x, y, 0, 0, lo, hi, limit)
		if math.IsInf(want, 1) != math.IsInf(mean, 1) || !math.IsInf(want, 1) && (math.Abs(mean-want) > 1e-6 || math.Abs(d) != math.Abs(at) && math.Abs(cost(d)-want) > 1e-9) {
			t.Fatalf("round %d: slide %g of %g, want %g of %g", round, d, mean, at, want)
		}
		if !math.IsInf(want, 1) {
			better++
		}
	}
	if better < 100 {
		t.Errorf("only %d of 300 rounds had a slide to find", better)
	}
}
