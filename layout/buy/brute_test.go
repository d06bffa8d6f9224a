package buy

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/cutting"
)

// The slow and obvious way, in whole steps of 10 mm: every set of boards; every
// number of lengths for each need, the longest first from either end; in every
// length every layout of strips on the grid, each strip either way up; and of
// all these what can be had of width and of sapwood on show and back.
const step = 10

// got is what some cuts give of all needs: width, sapwood on show and on the
// back, in steps.
type got [2][3]int8

type gots map[got]bool

// add puts a state in, its width no greater than what is needed.
func (g gots) add(v got, need [2]int8) {
	for q := range v {
		v[q][0] = min(v[q][0], need[q])
	}
	g[v] = true
}

// strips returns all that strips of one length can give of need q.
func strips(b *Board, q int, n *Need, need [2]int8, a cutting.Allowances) gots {
	e, kerf, w := int(a.Joint+a.Rest)/step, int(a.Kerf)/step, int(b.Width)/step
	sapAt := func(f, y int) bool {
		return y < int(b.Sap[f][0][0])/step || y >= w-int(b.Sap[f][1][0])/step
	}
	least := int(n.Narrowest) / step
	most := int(n.Widest) / step
	// from[y] is what can be had when the next blank may begin at y.
	from := make([]gots, w+kerf+2)
	for y := range from {
		from[y] = gots{}
	}
	from[0][got{}] = true
	all := gots{}
	for y := range from {
		for v := range from[y] {
			all[v] = true
			if y+1 < len(from) {
				from[y+1][v] = true
			}
			for wide := least; wide <= most && y+2*e+wide <= w; wide++ {
				sap := [2]int8{}
				for k := y + e; k < y+e+wide; k++ {
					for f := range sap {
						if sapAt(f, k) {
							sap[f]++
						}
					}
				}
				for up := range 2 {
					u := v
					u[q][0] += int8(wide)
					u[q][1] += sap[up]
					u[q][2] += sap[1-up]
					if n.Most[0] >= 1 {
						u[q][1] = 0
					}
					if n.Most[1] >= 1 {
						u[q][2] = 0
					}
					from[y+2*e+wide+kerf].add(u, need)
				}
			}
		}
	}
	return all
}

// both returns all sums of two.
func both(a, b gots, need [2]int8, may [2][2]int8) gots {
	out := gots{}
	for v := range a {
		for u := range b {
			s := v
			ok := true
			for q := range s {
				for k := range s[q] {
					s[q][k] += u[q][k]
				}
				ok = ok && s[q][1] <= may[q][0] && s[q][2] <= may[q][1]
			}
			if ok {
				out.add(s, need)
			}
		}
	}
	return out
}

// bruteCheapest returns the least cost of boards that make the needs, +Inf where
// none do. Sapwood is as wide all along.
func bruteCheapest(boards []Board, needs []Need, w Work) float64 {
	var need [2]int8
	var may [2][2]int8
	for q, n := range needs {
		need[q] = int8((n.Width + 2*n.PanelEdge) / step)
		for f := range may[q] {
			may[q][f] = int8(math.Floor(n.Most[f]*n.Width/step + 1e-9))
			if n.Most[f] >= 1 {
				may[q][f] = 100
			}
		}
	}
	a := w.Allowances
	per := make([]gots, len(boards))
	for i := range boards {
		b := &boards[i]
		per[i] = gots{got{}: true}
		one := make([]gots, len(needs))
		for q := range needs {
			one[q] = strips(b, q, &needs[q], need, a)
		}
		var lay func(left float64, now gots)
		lay = func(left float64, now gots) {
			for v := range now {
				per[i][v] = true
			}
			for q := range needs {
				if l := needs[q].Length; l <= left {
					lay(left-l-2*a.Ends-a.Kerf, both(now, one[q], need, may))
				}
			}
		}
		lay(b.Length-2*a.Ends, gots{got{}: true})
	}
	best := math.Inf(1)
	var set func(i int, cost float64, now gots)
	set = func(i int, cost float64, now gots) {
		if cost >= best {
			return
		}
		for v := range now {
			if v[0][0] >= need[0] && v[1][0] >= need[1] {
				best = cost
				return
			}
		}
		if i < len(boards) {
			set(i+1, cost+boards[i].Price, both(now, per[i], need, may))
			set(i+1, cost, now)
		}
	}
	set(0, 0, gots{got{}: true})
	return best
}

// coarse are allowances of whole steps.
var coarse = Work{Allowances: cutting.Allowances{Kerf: 10, Rest: 5, Joint: 5, Ends: 10}}

func randomYard(r *rand.Rand, n, needs int, sap bool) ([]Board, []Need) {
	var boards []Board
	for i := range n {
		b := Board{ID: fmt.Sprint(i), Length: float64(300 + 10*r.IntN(90)), Width: float64(100 + 10*r.IntN(12)), Thickness: 26}
		b.Price = math.Round(b.Length * b.Width / 5000 * (0.6 + 0.8*r.Float64()))
		for f := range 2 {
			for e := range 2 {
				if sap && r.IntN(3) > 0 {
					b.Sap[f][e] = even(float64(10 * r.IntN(5)))
				}
			}
		}
		boards = append(boards, b)
	}
	var list []Need
	for q := range needs {
		m := Need{ID: fmt.Sprint("p", q), Length: float64(250 + 10*r.IntN(25)), Width: float64(150 + 10*r.IntN(25)), Most: [2]float64{1, 1}, Narrowest: 50, Widest: float64(100 + 10*r.IntN(10))}
		if sap {
			// Limits of whole steps of the width.
			m.Most[0] = float64(r.IntN(4)) * step / m.Width
			if r.IntN(2) == 0 {
				m.Most[1] = float64(r.IntN(8)) * step / m.Width
			}
		}
		list = append(list, m)
	}
	return boards, list
}

func TestEqualToEverySetTried(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	made := 0
	for k := range 44 {
		n, needs := 12, 1
		if k%4 == 0 {
			n, needs = 8, 2
		}
		boards, list := randomYard(r, n, needs, false)
		want := bruteCheapest(boards, list, coarse)
		c := choose(t, boards, list, coarse)
		if c.Made != !math.IsInf(want, 1) || c.Made && c.Cost != want {
			t.Errorf("case %d: chose %g (made %v), every set tried gives %g\n%+v", k, c.Cost, c.Made, want, list)
		}
		if c.Made {
			made++
		}
	}
	if made < 20 {
		t.Errorf("only %d cases could be made", made)
	}
}

// With limits of sapwood the obvious way may do better, by rip lines that lie in
// sapwood; it never does worse, or what was chosen could not be made.
func TestSapLimitsAgainstEverySetTried(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	made, same := 0, 0
	dearer := 0.0
	for k := range 60 {
		boards, list := randomYard(r, 7, 1, true)
		want := bruteCheapest(boards, list, coarse)
		c := choose(t, boards, list, coarse)
		switch {
		case !c.Made:
			if !math.IsInf(want, 1) {
				t.Logf("case %d: not made, though it could be at %g", k, want)
			}
			continue
		case c.Cost < want:
			t.Errorf("case %d: chose %g, which cannot be: every set tried gives %g\n%+v\n%+v", k, c.Cost, want, boards, list)
		case c.Cost == want:
			same++
		}
		made++
		dearer += c.Cost/want - 1
	}
	t.Logf("%d made, %d at the least cost of all, on the mean %.2f %% dearer", made, same, 100*dearer/float64(made))
	if made < 20 || same < made*9/10 {
		t.Errorf("%d of %d at the least cost", same, made)
	}
}

// A worth is a difference of two least costs, and the rule of a price: just under
// its worth a board is bought, just over it is not.
func TestWorthAgainstEverySetTried(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	seen, some := 0, 0
	for range 12 {
		boards, list := randomYard(r, 8, 1, false)
		base := bruteCheapest(boards, list, coarse)
		worths, err := Worths(context.Background(), boards, nil, list, coarse, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if math.IsInf(base, 1) {
			if len(worths) > 0 {
				t.Errorf("nothing can be made: %+v", worths)
			}
			continue
		}
		for i, w := range worths {
			var others []Board
			free := append([]Board(nil), boards...)
			free[i].Price = 0
			for k := range boards {
				if k != i {
					others = append(others, boards[k])
				}
			}
			without, with := bruteCheapest(others, list, coarse), bruteCheapest(free, list, coarse)
			if w.Needed != math.IsInf(without, 1) || !w.Proved || !w.Needed && math.Abs(w.Amount-(without-with)) > 1e-9 {
				t.Errorf("board %s: %+v, want %g - %g", w.Board, w, without, with)
			}
			if seen++; w.Amount > 0 {
				some++
			}
		}
	}
	if seen < 24 || some < 5 {
		t.Errorf("%d boards, %d of them worth something", seen, some)
	}
}
