package order

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// What the search gives is held against every order there is.
func TestBestAgainstEveryOrder(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	cases, none := 500, 0
	if testing.Short() {
		cases = 100
	}
	for k := range cases {
		m := 1 + rnd.IntN(5)
		n := 1 + rnd.IntN(m)
		switch k % 50 {
		case 0:
			m, n = 7, 3
		case 1:
			m, n = 6, 4
		}
		p := randomProblem(rnd, m, n, k%2 == 0)
		want := bruteForce(p)
		if len(want) == 0 {
			none++
		}
		want = want[:min(len(want), 60)]
		got, err := Best(t.Context(), p, 60)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) != len(want) {
			t.Fatalf("case %d: %d orders, want %d", k, len(got), len(want))
		}
		for i := range want {
			if math.Abs(got[i].Cost-want[i].Cost) > 1e-9 || !slices.Equal(got[i].Strips, want[i].Strips) || !slices.Equal(got[i].States, want[i].States) {
				t.Fatalf("case %d, order %d: %v, want %v", k, i, got[i], want[i])
			}
		}
	}
	if none == 0 || none > cases/2 {
		t.Errorf("%d of %d cases have no order: the cases do not test much", none, cases)
	}
}

// Six strips, all places, all states: 6! * 4^6 orders, the cost of the best.
func TestBestOfSixStrips(t *testing.T) {
	if testing.Short() {
		t.Skip("millions of orders")
	}
	rnd := rand.New(rand.NewPCG(2, 2))
	p := randomProblem(rnd, 6, 6, false)
	p.Fixed, p.Enough = nil, nil
	p.Allowed = []uint8{15, 15, 15, 5, 10, 15}
	want := bruteForce(p)
	got, err := Best(t.Context(), p, 1000)
	if err != nil || len(got) != 1000 {
		t.Fatal(len(got), err)
	}
	for i := range got {
		if math.Abs(got[i].Cost-want[i].Cost) > 1e-9 {
			t.Fatalf("order %d costs %v, want %v", i, got[i].Cost, want[i].Cost)
		}
	}
}

// Where everything costs the same, orders come by strip, then state.
func TestTiesComeInOrder(t *testing.T) {
	p := &Problem{Strips: 12, Places: 12, Single: make([]float64, 12*12*States), Pair: make([]float64, 48*48)}
	got, err := Best(t.Context(), p, 6)
	if err != nil {
		t.Fatal(err)
	}
	for k, a := range got {
		for place, i := range a.Strips {
			want := uint8(0)
			if place == 11 {
				want = uint8(k % 4)
			} else if place == 10 {
				want = uint8(k / 4)
			}
			if i != place || a.States[place] != want {
				t.Fatalf("order %d is %v", k, a)
			}
		}
	}
}

// 0.1 + 0.2 is not 0.3 in floating point, but as a cost it is.
func TestSumsThatShouldBeEqualAre(t *testing.T) {
	p := &Problem{Strips: 2, Places: 2, Allowed: []uint8{1, 1}, Single: make([]float64, 2*2*States), Pair: make([]float64, 64)}
	single := func(place, strip int, c float64) { p.Single[(place*2+strip)*States] = c }
	single(0, 0, 0.1)
	single(1, 1, 0.2)
	single(0, 1, 0.3)
	single(1, 0, 0)
	got, err := Best(t.Context(), p, 2)
	if err != nil || len(got) != 2 || got[0].Strips[0] != 0 {
		t.Errorf("%v, %v; want the order that begins with strip 0 first", got, err)
	}
}

func TestWalkStops(t *testing.T) {
	p := randomProblem(rand.New(rand.NewPCG(3, 3)), 5, 5, true)
	p.Fixed, p.Enough = nil, nil
	n := 0
	err := Walk(t.Context(), p, func(Answer) bool { n++; return n < 3 })
	if err != nil || n != 3 {
		t.Errorf("%d visits, %v; want 3", n, err)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	p := randomProblem(rand.New(rand.NewPCG(4, 4)), 8, 8, true)
	p.Fixed, p.Enough, p.Allowed = nil, nil, nil
	n := 0
	err := Walk(ctx, p, func(Answer) bool {
		n++
		cancel()
		return true
	})
	if !errors.Is(err, context.Canceled) || n == 0 || n > 300 {
		t.Errorf("%d orders after the end, %v", n, err)
	}
	if got, err := Best(ctx, p, 1); !errors.Is(err, context.Canceled) || len(got) > 0 {
		t.Errorf("%v, %v; want nothing but the context's error", got, err)
	}
	if b, err := Bound(ctx, p); !errors.Is(err, context.Canceled) || !math.IsInf(b, -1) {
		t.Errorf("bound %v, %v; want none", b, err)
	}
}

func TestTooLarge(t *testing.T) {
	big := func(m, n int) *Problem {
		return &Problem{Strips: m, Places: n, Single: make([]float64, n*m*States), Pair: make([]float64, m*m*States*States)}
	}
	if _, err := Best(t.Context(), big(30, 30), 1); !errors.Is(err, ErrTooLarge) {
		t.Errorf("30 of 30 strips: %v, want ErrTooLarge", err)
	}
	// All sets of 1 to n of m strips, 8 bytes for each state of each strip of
	// the set: the sum of k C(m, k) is m 2^(m-1) for n = m.
	for _, c := range []struct {
		m, n int
		want float64
	}{{12, 12, 12 * 2048 * 32}, {5, 2, (5 + 2*10) * 32}} {
		if bytes, _ := Bytes(big(c.m, c.n)); bytes != c.want {
			t.Errorf("%d of %d strips: %v bytes, want %v", c.n, c.m, bytes, c.want)
		}
	}
	if got, err := Best(t.Context(), big(40, 3), 1); err != nil || len(got) != 1 {
		t.Errorf("3 of 40 strips: %v, %v", got, err)
	}
}

func TestBadProblems(t *testing.T) {
	good := func() *Problem {
		return randomProblem(rand.New(rand.NewPCG(5, 5)), 4, 3, false)
	}
	for name, spoil := range map[string]func(*Problem){
		"no strips":       func(p *Problem) { p.Strips = 0 },
		"too many":        func(p *Problem) { p.Strips = 65 },
		"no places":       func(p *Problem) { p.Places = 0 },
		"more places":     func(p *Problem) { p.Places = 5 },
		"allowed":         func(p *Problem) { p.Allowed = []uint8{1} },
		"single":          func(p *Problem) { p.Single = p.Single[1:] },
		"pair":            func(p *Problem) { p.Pair = p.Pair[1:] },
		"not a number":    func(p *Problem) { p.Single[3] = math.NaN() },
		"minus infinity":  func(p *Problem) { p.Single[3] = math.Inf(-1) },
		"negative pair":   func(p *Problem) { p.Pair[5] = -1 },
		"pinned twice":    func(p *Problem) { p.Fixed = []Fixed{{0, 1, 0}, {1, 1, 0}} },
		"two on a place":  func(p *Problem) { p.Fixed = []Fixed{{0, 1, 0}, {0, 2, 0}} },
		"pinned nowhere":  func(p *Problem) { p.Fixed = []Fixed{{3, 1, 0}} },
		"pinned no strip": func(p *Problem) { p.Fixed = []Fixed{{0, -1, 0}} },
		"pinned no state": func(p *Problem) { p.Fixed = []Fixed{{0, 1, 4}} },
	} {
		p := good()
		spoil(p)
		if _, err := Best(t.Context(), p, 1); err == nil {
			t.Errorf("%s: Best says nothing", name)
		}
		if _, err := Bound(t.Context(), p); err == nil {
			t.Errorf("%s: Bound says nothing", name)
		}
	}
}
