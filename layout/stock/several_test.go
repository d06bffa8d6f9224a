package stock

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// By hand: a shelf of 780 x 160. A (800 x 170) gives it in one strip but is a
// third sapwood and costs 5; B and C (800 x 90) are clean, cost 4 each, and
// give it in two. So A is least cost, by itself fewest joints and leaves most
// boards whole; B and C look best in the fewest strips.
func sappyAndClean() (Supply, []Demand) {
	a, b, c := plank("A", 800, 170), plank("B", 800, 90), plank("C", 800, 90)
	for f := range a.Faces {
		a.Faces[f].Zones = []face.Zone{zone(face.Sap, geom.R(0, 50, 800, 106).Polygon())}
	}
	s := supplyOf(nothing, cutting.Machines{}, a, b, c)
	for i, v := range []float64{5, 4, 4} {
		s.Boards[i].Price.Whole = v
	}
	return s, []Demand{panel("shelf", 780, 160)}
}

func boardsOf(c *Choice) []string {
	var out []string
	for _, u := range c.Boards {
		out = append(out, u.Board)
	}
	return out
}

func TestSeveralPlansAreClearlyDifferent(t *testing.T) {
	s, d := sappyAndClean()
	for _, obj := range []Objective{LeastCost, BestLook} {
		last, calls := 0.0, 0
		var told []Choice
		got, err := Several(context.Background(), s, d, obj, 5, Options{}, func(done float64, list []Choice) {
			if calls++; done < last || done > 1 {
				t.Errorf("told %g after %g", done, last)
			}
			if last = done; list != nil {
				told = list
			}
		})
		if err != nil {
			t.Fatal(err)
		}
		if last != 1 || calls < 3 || !reflect.DeepEqual(told, got) {
			t.Errorf("%s: told %d times, at the end %g", obj, calls, last)
		}
		if len(got) < 2 {
			t.Fatalf("%s: %d plans, want at least two", obj, len(got))
		}
		if !slices.Contains(got[0].Aims, obj) {
			t.Errorf("%s: the first is best at %v", obj, got[0].Aims)
		}
		for i := range got {
			verify(t, string(obj), s, d, Options{}, got[i].Result)
			for k := range i {
				if !Different(s, &got[i].Result, &got[k].Result) {
					t.Errorf("%s: plans %d and %d are alike", obj, k, i)
				}
			}
			switch b := boardsOf(&got[i]); {
			case slices.Contains(got[i].Aims, BestLook):
				if !slices.Equal(b, []string{"B", "C"}) || got[i].Strips != 2 || got[i].Cost != 8 {
					t.Errorf("best look: %v, %d strips for %g", b, got[i].Strips, got[i].Cost)
				}
			case slices.Contains(got[i].Aims, FewestJoints):
				if !slices.Equal(b, []string{"A"}) || got[i].Strips != 1 {
					t.Errorf("fewest joints: %v, %d strips", b, got[i].Strips)
				}
			case slices.Contains(got[i].Aims, LeastCost):
				if !slices.Equal(b, []string{"A"}) || got[i].Cost != 5 || !slices.Contains(got[i].Aims, WholeBoards) {
					t.Errorf("least cost: %v, best at %v", b, got[i].Aims)
				}
			}
		}
		again, _ := Several(context.Background(), s, d, obj, 5, Options{}, nil)
		if !reflect.DeepEqual(got, again) {
			t.Errorf("%s: the second time other plans", obj)
		}
	}
}

// Two boards alike: the one or the other makes no other plan. A third that is
// longer does, though it serves no objective.
func TestBoardsAlikeMakeOnePlan(t *testing.T) {
	d := []Demand{panel("shelf", 780, 100)}
	s := supplyOf(nothing, cutting.Machines{}, plank("A", 800, 100), plank("B", 800, 100))
	got, err := Several(context.Background(), s, d, LeastWood, 5, Options{}, nil)
	if err != nil || len(got) != 1 {
		t.Errorf("%d plans, %v, want one", len(got), err)
	}
	s = supplyOf(nothing, cutting.Machines{}, plank("A", 800, 100), plank("B", 1000, 100))
	got, err = Several(context.Background(), s, d, LeastWood, 5, Options{}, nil)
	if err != nil || len(got) != 2 || got[1].Without != "A" || !slices.Equal(boardsOf(&got[1]), []string{"B"}) {
		t.Errorf("%d plans, %v, want one from each", len(got), err)
	}
	got, err = Several(context.Background(), s, d, LeastWood, 1, Options{}, nil)
	if err != nil || len(got) != 1 || !slices.Equal(boardsOf(&got[0]), []string{"A"}) {
		t.Errorf("%d plans, %v, want the first only", len(got), err)
	}
}

func TestDifferentByHand(t *testing.T) {
	a, b := plank("A", 2000, 200), plank("B", 2000, 210)
	s := supplyOf(nothing, cutting.Machines{}, a, b)
	plan := func(unwanted float64, strips ...face.Strip) *Result {
		r := &Result{Parts: []Part{{Demand: "t", Strips: strips, Unwanted: [2]float64{unwanted, 0}}}}
		for _, k := range []*face.Board{a, b} {
			if slices.ContainsFunc(strips, func(q face.Strip) bool { return q.Board == k }) {
				r.Boards = append(r.Boards, Use{Board: k.ID})
			}
		}
		return r
	}
	on := func(k *face.Board, x, w float64) face.Strip { return laid("", k, x, 0, 500, w) }
	base := plan(0.10, on(a, 0, 100), on(b, 0, 100))
	for what, c := range map[string]struct {
		other *Result
		want  bool
	}{
		"the same":                     {base, false},
		"elsewhere on the same boards": {plan(0.10, on(a, 700, 100), on(b, 900, 100)), false},
		"a board left whole":           {plan(0.10, on(a, 0, 100), on(a, 600, 100)), true},
		"one strip more":               {plan(0.10, on(a, 0, 50), on(a, 0, 50), on(b, 0, 100)), true},
		"0.15 of it of another board":  {plan(0.10, on(a, 0, 130), on(b, 0, 70)), false},
		"0.25 of it of another board":  {plan(0.10, on(a, 0, 150), on(b, 0, 50)), true},
		"4 points more sapwood":        {plan(0.14, on(a, 0, 100), on(b, 0, 100)), false},
		"6 points more sapwood":        {plan(0.16, on(a, 0, 100), on(b, 0, 100)), true},
	} {
		if got := Different(s, base, c.other); got != c.want {
			t.Errorf("%s: %v", what, got)
		}
		if got := Different(s, c.other, base); got != c.want {
			t.Errorf("%s, the other way round: %v", what, got)
		}
	}
}

// Called off at once there is one plan; called off later there are those so far.
func TestSeveralEndsWithTheContext(t *testing.T) {
	s, d := yard(6, 3)
	ctx, stop := context.WithCancel(context.Background())
	got, err := Several(ctx, s, d, LeastWood, 5, Options{}, func(_ float64, list []Choice) {
		if len(list) > 0 {
			stop()
		}
	})
	if err != nil || len(got) != 1 {
		t.Errorf("%d plans, %v, want the first", len(got), err)
	}
	if _, err := Several(context.Background(), Supply{Boards: []Stock{{}}}, d, LeastWood, 5, Options{}, nil); err == nil {
		t.Error("no board and no error")
	}
}
