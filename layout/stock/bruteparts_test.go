package stock

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/cutting"
)

// Panels and solid parts compete for the same boards, tried in all ways: every
// piece is as wide as a board, so that a board is filled by any set of pieces
// whose blanks and the kerfs between them are not longer than it. All shares of
// the pieces among the boards are gone through.

// piece is a solid part, or the one strip of a panel.
type piece struct{ demand, length, thick int }

// shares returns the least value of all ways to share pieces out, and how much of
// them is left over at least, mm of length: what can be made goes first.
func shares(list []piece, s Supply, value func(used []int, pieces []int) float64) (missing, least float64) {
	n := len(s.Boards)
	long, count := make([]int, n), make([]int, n)
	missing, least = math.Inf(1), math.Inf(1)
	a := s.Allowances
	var next func(i, left int)
	next = func(i, left int) {
		if float64(left) > missing {
			return
		}
		if i == len(list) {
			v := value(long, count)
			if float64(left) < missing {
				missing, least = float64(left), v
			} else if v < least {
				least = v
			}
			return
		}
		blank := list[i].length + int(2*a.Ends)
		for b := range n {
			more := blank
			if count[b] > 0 {
				more += int(a.Kerf)
			}
			if s.Boards[b].Board.Thickness < float64(list[i].thick) || long[b]+more > int(s.Boards[b].Board.Length) {
				continue
			}
			long[b] += more
			count[b]++
			next(i+1, left)
			long[b] -= more
			count[b]--
		}
		next(i+1, left+list[i].length)
	}
	next(0, 0)
	return missing, least
}

func TestPartsAndPanelsAgainstAllShares(t *testing.T) {
	const cases, lane = 80, 60
	tight, proved := 0, 0
	for seed := range uint64(cases) {
		rng := rand.New(rand.NewPCG(seed, 11))
		s := Supply{}
		for i := range 2 + rng.IntN(2) {
			b := plank(string(rune('A'+i)), float64(400+50*rng.IntN(14)), lane)
			b.Thickness = float64(20 + 10*rng.IntN(2))
			s.Boards = append(s.Boards, Stock{b, Price{Whole: float64(1 + rng.IntN(9))}})
		}
		if seed%2 == 1 {
			s.Allowances = cutting.Allowances{Kerf: 10, Ends: 20}
		}
		var demands []Demand
		var list []piece
		for k := range 2 + rng.IntN(2) {
			d := Demand{ID: fmt.Sprint("d", k), Length: float64(150 + 50*rng.IntN(10)), Width: lane, Most: anyWood, Thickness: float64(20 + 10*rng.IntN(2))}
			n := 1
			if k%2 == int(seed%2) {
				d.Count = 1 + rng.IntN(3)
				n = d.Count
			}
			demands = append(demands, d)
			for range n {
				list = append(list, piece{k, int(d.Length), int(d.Thickness)})
			}
		}
		for _, obj := range []Objective{WholeBoards, LeastCost} {
			missing, least := shares(list, s, func(_, count []int) float64 {
				v := 0.0
				for b, n := range count {
					switch {
					case n == 0:
					case obj == LeastCost:
						v += s.Boards[b].Price.Whole
					default:
						v++
					}
				}
				return v
			})
			o := Options{OverLength: -1}
			r, err := Plan(context.Background(), s, demands, obj, o)
			if err != nil {
				t.Fatal(err)
			}
			what := fmt.Sprintf("seed %d, %s", seed, obj)
			verify(t, what, s, demands, o, r)
			if math.Abs(r.Missing/lane-missing) > 1e-6 {
				t.Errorf("%s: %g mm missing, %g at least", what, r.Missing/lane, missing)
			}
			got := r.Cost
			if obj == WholeBoards {
				got = float64(len(r.Boards))
			}
			if math.Abs(got-least) > 1e-6 {
				t.Errorf("%s: %g, want %g (proved %v)", what, got, least, r.Proved)
			}
			if missing > 0 {
				tight++
			}
			if r.Proved {
				proved++
			}
		}
	}
	t.Logf("%d of %d proved, in %d something is missing", proved, 2*cases, tight)
	if tight < cases/4 || tight > 2*cases*3/4 {
		t.Errorf("in %d of %d cases something is missing: they tell little", tight, 2*cases)
	}
}

// A leg of 700 and a panel of 400, each one lane: A is 720 long, B 450. Serving
// the panel first from the first board that will do leaves the leg without
// wood.
func TestTheLongBoardIsLeftToTheLeg(t *testing.T) {
	s := supplyOf(nothing, cutting.Machines{}, plank("A", 720, 60), plank("B", 450, 60))
	leg, strip := solid("leg", 1, 700, 60), panel("shelf", 400, 60)
	for _, demands := range [][]Demand{{strip, leg}, {leg, strip}} {
		for _, obj := range []Objective{LeastWood, LeastCost, BestLook, FewestJoints, WholeBoards} {
			r := plan1(t, s, demands, obj, Options{})
			for _, p := range r.Parts {
				if want := map[string]string{"leg": "A", "shelf": "B"}[p.Demand]; p.Short != nil || len(p.Strips) != 1 || p.Strips[0].Board.ID != want {
					t.Errorf("%s: %s: %+v, want it from board %s", obj, p.Demand, p, want)
				}
			}
		}
	}
	// With A in use by another part nothing is long enough for the leg.
	s.Taken = append(s.Taken, laid("rail 1", s.Boards[0].Board, 0, 0, 300, 60))
	r := plan1(t, s, []Demand{leg, strip}, LeastWood, Options{})
	got := r.Parts[0].Short
	if got == nil || got.Strips != 1 || len(got.Boards) != 2 || got.Boards[0].Why != InUse || len(got.Boards[0].For) != 1 || got.Boards[0].For[0] != "rail 1" || got.Boards[1].Why != TooShort || got.Boards[1].By != 250 {
		t.Errorf("short %+v", got)
	}
}
