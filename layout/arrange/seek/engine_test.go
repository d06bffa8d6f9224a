package seek

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"heartside/layout/face"
)

// full runs the large sets of cases, for hours without hurry.
var full = os.Getenv("HEARTSIDE_FULL") != ""

// small makes a panel short, as readings take time by length.
func small(p *face.Panel, pool []face.Strip) {
	for _, list := range [][]face.Strip{p.Strips, pool} {
		for i := range list {
			list[i].L = 230
			list[i].Shift = 0
		}
	}
	p.Length = 200
}

func engineFor(t testing.TB, ctx context.Context, p *face.Panel, pool []face.Strip, free freedom, seed uint64, budget int) *engine {
	t.Helper()
	e, err := prepare(p, pool, free, seed)
	if err != nil {
		t.Fatal(err)
	}
	e.ctx, e.judge, e.budget = ctx, plain{p.Wanted}, budget
	e.fill()
	return e
}

// bruteForce reads every way to lay the strips, with a reader and judge of its
// own, and returns the least points.
func bruteForce(p *face.Panel, pool []face.Strip, judge scorer) float64 {
	r := face.NewReader()
	r.SkipCoverage(true)
	all := append(slices.Clone(p.Strips), pool...)
	q := *p
	q.Strips = make([]face.Strip, len(p.Strips))
	best := math.Inf(1)
	used := make([]bool, len(all))
	var lay func(place int)
	lay = func(place int) {
		if place == len(q.Strips) {
			if q.StripsWidth() >= p.Width+2*p.PanelEdge-1e-6 {
				best = min(best, judge.Points(&q, r.Read(&q)))
			}
			return
		}
		if p.Strips[place].Pinned {
			q.Strips[place] = p.Strips[place]
			lay(place + 1)
			return
		}
		for i := range all {
			if used[i] || all[i].Pinned {
				continue
			}
			used[i] = true
			for up := 1; up <= 2; up++ {
				for _, turned := range []bool{false, true} {
					q.Strips[place] = all[i]
					q.Strips[place].Up, q.Strips[place].Turned = up, turned
					lay(place + 1)
				}
			}
			used[i] = false
		}
	}
	lay(0)
	return best
}

// The best under the full points is found, and said to be the best, on panels
// small enough to read every arrangement of.
func TestAgainstEveryArrangement(t *testing.T) {
	three, four, five := 40, 6, 0
	if full {
		three, four, five = 200, 100, 20
	} else if testing.Short() {
		three, four = 10, 1
	}
	try := func(seed uint64, n, spares int) {
		p, pool := drawn(seed, n, spares)
		small(p, pool)
		if n > 2 && seed%3 == 0 {
			p.Strips[seed%2].Pinned = true
		}
		if seed%4 == 1 {
			p.Wanted = face.WantSap
		}
		want := bruteForce(p, pool, plain{p.Wanted})
		e := engineFor(t, t.Context(), p, pool, freedom{swapPool: true}, seed, 200_000)
		if _, err := e.run(); err != nil {
			t.Fatal(err)
		}
		if math.Abs(e.best.points-want) > 1e-9 || !e.optimal || e.bound != e.best.points {
			t.Errorf("seed %d, %d strips, %d spares: %v, optimal %v, bound %v; the best of all is %v", seed, n, spares, e.best.points, e.optimal, e.bound, want)
		}
	}
	for k := range three {
		n := 1 + k%3
		try(uint64(k), n, min(3-n, k%2))
	}
	for k := range four {
		try(uint64(1000+k), 4, 0)
	}
	for k := range five {
		try(uint64(2000+k), 5, 0)
	}
}

// What is left out unread because its local cost is no better cannot be
// better: the local cost is never over the points.
func TestLocalCostIsABound(t *testing.T) {
	p, pool := drawn(7, 6, 3)
	e := engineFor(t, t.Context(), p, pool, freedom{swapPool: true}, 1, 1000)
	for range 60 {
		l := e.random()
		x, ok := e.points(l)
		if !ok || e.local(l) > x+1e-9 {
			t.Fatalf("local cost %v over points %v", e.local(l), x)
		}
	}
}

// starts1000 is what 1000 random layings with local moves come to with a given
// number of readings: each in its turn makes random moves and keeps those that
// are better.
func starts1000(e *engine, seed uint64) float64 {
	rnd := rand.New(rand.NewPCG(seed, 99))
	best := math.Inf(1)
	each := max(1, e.budget/1000)
	for range 1000 {
		l := e.random()
		if l == nil {
			continue
		}
		x, ok := e.points(l)
		if !ok {
			break
		}
		for range each - 1 {
			list := e.moves(nil, l)
			out := list[rnd.IntN(len(list))].apply(nil, l)
			y, ok := e.points(out)
			if !ok {
				break
			}
			if y < x {
				l, x = slices.Clone(out), y
			}
		}
		best = min(best, x)
	}
	return best
}

func TestAgainstRandomStarts(t *testing.T) {
	type size struct{ n, spares int }
	cases, budget := 1, 600
	if full {
		cases, budget = 50, 5000
	}
	sizes := []size{{10, 0}, {12, 4}, {16, 8}, {24, 0}}
	if testing.Short() {
		sizes = sizes[:1]
	}
	for _, s := range sizes {
		for k := range cases {
			p, pool := drawn(uint64(3000+k), s.n, s.spares)
			small(p, pool)
			free := freedom{swapPool: true}
			e := engineFor(t, t.Context(), p, pool, free, 1, budget)
			if _, err := e.run(); err != nil {
				t.Fatal(err)
			}
			other := engineFor(t, t.Context(), p, pool, free, 1, budget)
			got := starts1000(other, uint64(k))
			if e.tried > budget {
				t.Errorf("%v: %d readings of %d", s, e.tried, budget)
			}
			if e.best.points > got+1e-9 {
				t.Errorf("%v, case %d: %v, random starts %v", s, k, e.best.points, got)
			}
			if e.bound > e.best.points {
				t.Errorf("%v: bound %v over %v", s, e.bound, e.best.points)
			}
			t.Logf("%v: points %.2f, bound %.2f, random starts %.2f, %d readings, optimal %v", s, e.best.points, e.bound, got, e.tried, e.optimal)
		}
	}
}

// Turned round by half a turn, a panel of no shifts is the same, and counts
// once.
func TestTurnedRoundIsOne(t *testing.T) {
	p, _ := drawn(11, 4, 0)
	small(p, nil)
	e := engineFor(t, t.Context(), p, nil, freedom{}, 1, 400)
	if _, err := e.run(); err != nil {
		t.Fatal(err)
	}
	if !e.round {
		t.Fatal("not seen that turning round changes nothing")
	}
	for _, f := range e.list {
		if r := f.laying.round(); slices.Compare(r, f.laying) < 0 {
			t.Fatalf("%v is kept, though %v turned round is the same", f.laying, r)
		}
	}
	for name, spoil := range map[string]func(){
		"pinned": func() { p.Strips[0].Pinned = true },
		"shift":  func() { p.Strips[0].Pinned, p.Strips[0].Shift = false, 3 },
	} {
		spoil()
		e := engineFor(t, t.Context(), p, nil, freedom{}, 1, 100)
		if e.look(); e.round {
			t.Errorf("%s: turned round counts as the same", name)
		}
	}
}

// The moves keep every strip once and leave pinned ones alone.
func TestMovesKeepTheStrips(t *testing.T) {
	p, pool := drawn(13, 6, 2)
	p.Strips[2].Pinned = true
	e := engineFor(t, t.Context(), p, pool, freedom{swapPool: true, noRoll: true}, 1, 0)
	for range 20 {
		l := e.random()
		for _, m := range e.moves(nil, l) {
			out := m.apply(nil, l)
			if slices.Equal(out, l) {
				t.Fatalf("%+v changes nothing", m)
			}
			var set uint64
			for k := range out {
				if set>>out.strip(k)&1 == 1 {
					t.Fatalf("%+v lays strip %d twice", m, out.strip(k))
				}
				set |= 1 << out.strip(k)
				s := e.ways[out[k]]
				if s.UpFace() != e.members[out.strip(k)].UpFace() {
					t.Fatalf("%+v rolls a strip over", m)
				}
			}
			if out[2] != e.start[2] {
				t.Fatalf("%+v moves the pinned strip", m)
			}
			if e.widthOf(set) < p.Width+2*p.PanelEdge-1e-6 {
				t.Fatalf("%+v makes the panel too narrow", m)
			}
		}
	}
}
