package order

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A bound is never over the cheapest of all orders. With at most eight free
// strips the memory holds all of them, so it is the optimum itself where Enough
// asks nothing.
func TestBoundAgainstEveryOrder(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 6))
	for k := range 200 {
		m := 1 + rnd.IntN(5)
		p := randomProblem(rnd, m, 1+rnd.IntN(m), k%2 == 0)
		list := bruteForce(p)
		got, err := Bound(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		if len(list) == 0 {
			if p.Enough == nil && !math.IsInf(got, 1) {
				t.Errorf("case %d: bound %v where there is no order", k, got)
			}
			continue
		}
		best := list[0].Cost
		if got > best {
			t.Errorf("case %d: bound %v over the best %v", k, got, best)
		}
		if p.Enough == nil && got < best-1e-6 {
			t.Errorf("case %d: bound %v below the best %v, though nothing is forgotten", k, got, best)
		}
	}
}

// With more strips than the memory holds it is still a bound, and better than
// what each place costs by itself with the cheapest joint in front of it.
func TestBoundAgainstBest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 7))
	for k := range 6 {
		p := randomProblem(rnd, 12, 9+k%4, k%2 == 0)
		p.Enough = nil
		best, err := Best(t.Context(), p, 1)
		if err != nil || len(best) != 1 {
			t.Fatal(len(best), err)
		}
		got, err := Bound(t.Context(), p)
		if err != nil || got > best[0].Cost {
			t.Errorf("case %d: bound %v over the best %v, %v", k, got, best[0].Cost, err)
		}
		plain := 0.0
		for place := range p.Places {
			least := math.Inf(1)
			for i := range p.Strips {
				for s := range States {
					if p.Allowed == nil || p.Allowed[i]>>s&1 == 1 || len(p.Fixed) > 0 {
						least = min(least, p.Single[(place*p.Strips+i)*States+s])
					}
				}
			}
			plain += least
		}
		if got < plain-1e-6 {
			t.Errorf("case %d: bound %v, the places alone give %v", k, got, plain)
		}
		t.Logf("bound %.3f of %.3f", got, best[0].Cost)
	}
}

// Strips that cost nothing are soon used up: of 8 free ones and 16 that cost 1
// anywhere, 18 places take 10 that cost. A walk that forgets would come back to
// the free ones.
func TestBoundSeesWhatIsUsedUp(t *testing.T) {
	const m, n, free = 24, 18, 8
	p := &Problem{Strips: m, Places: n, Single: make([]float64, n*m*States), Pair: make([]float64, m*m*States*States)}
	for k := range p.Single {
		if k/States%m >= free {
			p.Single[k] = 1
		}
	}
	got, err := Bound(t.Context(), p)
	if err != nil || got > n-free || got < 0.9*(n-free) {
		t.Errorf("bound %v of %d, %v", got, n-free, err)
	}
}
