package stock

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/cutting"
	"heartside/layout/face"
)

var (
	usual    = cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, FlawMargin: 5, Snipe: 60}
	nothing  = cutting.Allowances{}
	machines = cutting.Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50}
	anyWood  = [2]float64{1, 1}
)

func panel(id string, l, w float64) Demand { return Demand{ID: id, Length: l, Width: w, Most: anyWood} }

func solid(id string, n int, l, w float64) Demand {
	return Demand{ID: id, Length: l, Width: w, Count: n, Most: anyWood}
}

func supplyOf(a cutting.Allowances, m cutting.Machines, boards ...*face.Board) Supply {
	s := Supply{Allowances: a, Machines: m}
	for _, b := range boards {
		s.Boards = append(s.Boards, Stock{Board: b})
	}
	return s
}

// verify judges a plan by cutting's own checker and by the demands.
func verify(t *testing.T, what string, s Supply, demands []Demand, o Options, r Result) {
	t.Helper()
	if len(r.Parts) != len(demands) {
		t.Fatalf("%s: %d parts, want %d", what, len(r.Parts), len(demands))
	}
	var panels []*face.Panel
	strips := 0
	for k, d := range demands {
		part := r.Parts[k]
		strips += len(part.Strips)
		sum, narrow, wide := 0.0, math.Inf(1), 0.0
		for _, q := range part.Strips {
			sum += q.W
			narrow, wide = math.Min(narrow, q.W), math.Max(wide, q.W)
			if q.L < d.Length-1e-6 || q.L > math.Max(d.Length+30, s.Machines.Shortest)+1e-6 {
				t.Errorf("%s: %s is %g long for %g", what, q.ID, q.L, d.Length)
			}
			if q.Board.Thickness < d.Thickness {
				t.Errorf("%s: %s comes from board %s, %g thick", what, q.ID, q.Board.ID, q.Board.Thickness)
			}
			if d.Count > 0 { // flaws are looked for in every piece by itself
				panels = append(panels, &face.Panel{ID: q.ID, Length: d.Length, Width: d.Width, Limit: anyWood, Strips: []face.Strip{q}})
			}
		}
		if d.Count > 0 {
			missing := 0
			if part.Short != nil {
				missing = part.Short.Strips
			}
			if len(part.Strips)+missing != d.Count {
				t.Errorf("%s: %d of %s and %d missing, want %d", what, len(part.Strips), d.ID, missing, d.Count)
			}
			continue
		}
		panels = append(panels, &face.Panel{ID: d.ID, Length: d.Length, Width: d.Width, Limit: anyWood, Strips: part.Strips})
		need := math.Ceil(d.Width + 2*d.PanelEdge - 1e-6)
		if part.Short != nil {
			need -= part.Short.Width
		}
		if math.Abs(sum-need) > 1e-6 {
			t.Errorf("%s: the strips of %s are %g wide together, want %g", what, d.ID, sum, need)
		}
		if len(part.Strips) > 0 && (narrow < 50-1e-9 || o.Narrowest == 0 && narrow < wide/3-1e-9) {
			t.Errorf("%s: strips of %s from %g to %g wide", what, d.ID, narrow, wide)
		}
	}
	if strips != r.Strips {
		t.Errorf("%s: %d strips told, %d there", what, r.Strips, strips)
	}
	for _, f := range cutting.Check(panels, s.Taken, s.Allowances, s.Machines) {
		switch {
		case f.Kind == face.OverMachineWidth && f.Why == "panel": // is glued up in sections
		case f.Panel == "": // what was taken before
		default:
			t.Errorf("%s: %s: %s %s, strips %v: %g, limit %g", what, f.Panel, f.Kind, f.Why, f.Strips, f.Measure, f.Limit)
		}
	}
}

// Whatever is planned on boards with wane, sapwood and flaws on both faces,
// beside what lies there already, stands up to cutting's checker.
func TestPlansStandUpToTheChecker(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and longer where races are looked for")
	}
	const cases = 36
	made := 0
	for seed := range uint64(cases) {
		rng := rand.New(rand.NewPCG(seed, 77))
		var boards []*face.Board
		for i := range 2 + rng.IntN(3) {
			boards = append(boards, random(rng, string(rune('A'+i))))
		}
		s := supplyOf(usual, machines, boards...)
		if seed%3 == 0 {
			s.Taken = []face.Strip{{ID: "x", Board: boards[0], X: 150 * rng.Float64(), Y: 20 + 20*rng.Float64(), L: 300, W: 60, Angle: 3 * rng.Float64(), Up: 1}}
		}
		demands := []Demand{panel("top", 300+200*rng.Float64(), 150+150*rng.Float64())}
		if seed%2 == 0 {
			demands = append(demands, solid("leg", 1+rng.IntN(3), 320, 45+15*rng.Float64()))
		}
		demands[0].PanelEdge = 5
		demands[0].Look = look.All[int(seed)%len(look.All)]
		demands[0].BothShow = seed%5 == 0
		obj := []Objective{LeastWood, LeastCost, BestLook, FewestJoints, WholeBoards}[seed%5]
		o := Options{Nodes: 60, Rounds: 3, Seed: seed}
		r, err := Plan(context.Background(), s, demands, obj, o)
		if err != nil {
			t.Fatal(err)
		}
		what := fmt.Sprintf("seed %d, %s", seed, obj)
		verify(t, what, s, demands, o, r)
		if r.Parts[0].Short == nil {
			made++
		}
		again, _ := Plan(context.Background(), s, demands, obj, o)
		if !reflect.DeepEqual(r, again) {
			t.Errorf("%s: the second time another plan", what)
		}
	}
	if made < cases/2 {
		t.Errorf("%d of %d panels are made in full: too few to tell", made, cases)
	}
}
