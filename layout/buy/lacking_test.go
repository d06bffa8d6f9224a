package buy

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
)

func lacking(t *testing.T, boards []Board, needs []Need, w Work) []Lack {
	t.Helper()
	l, err := Lacking(context.Background(), boards, needs, w, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// By hand: a panel of 2240 x 450, a tenth sapwood on show. Two boards of 150
// give 140 each, 280; 170 are lacking: a board of 180 x 2290 (25 at each end).
// 45 may be sapwood and the two have none, so 45 + 5 for the edge; but a strip
// of 50 beside it would still leave 125.
func TestOneMoreBoardByHand(t *testing.T) {
	need := []Need{{ID: "top", Length: 2240, Width: 450, Most: [2]float64{0.1, 1}}}
	have := []Board{bare("A", 2400, 150, 1), bare("B", 2400, 150, 1)}
	l := lacking(t, have, need, usual)
	if len(l) != 1 {
		t.Fatalf("%+v", l)
	}
	want := Lack{Need: "top", Boards: 1, Length: 2290, Width: 180, Sap: [2]float64{50, math.Inf(1)}, Panel: 170, Exact: true}
	if l[0] != want {
		t.Errorf("got %+v\nwant %+v", l[0], want)
	}
	// With 30 of sapwood on both faces of each, 25 on the strip, 50 of 45 are used
	// up: 5 are to be ripped off, and nothing more may come: 230 clear of 405, so
	// 175 clear: 185 wide, no sapwood but what the edge takes.
	have = []Board{sappy("A", 2400, 150, 1, 30, 30), sappy("B", 2400, 150, 1, 30, 30)}
	l = lacking(t, have, need, usual)
	want = Lack{Need: "top", Boards: 1, Length: 2290, Width: 185, Sap: [2]float64{5, math.Inf(1)}, Panel: 175, Exact: true}
	if len(l) != 1 || l[0] != want {
		t.Errorf("got %+v\nwant %+v", l, want)
	}
}

// Nothing at all: 450 in boards of 250 at most, 225 + 10 each.
func TestSeveralBoardsAreAskedFor(t *testing.T) {
	l := lacking(t, nil, []Need{anyWood("top", 900, 450)}, usual)
	if len(l) != 1 || l[0].Boards != 2 || l[0].Width != 235 || l[0].Length != 950 || l[0].Panel != 450 {
		t.Errorf("%+v", l)
	}
	l = lacking(t, nil, []Need{{ID: "leg", Length: 700, Width: 60, Thickness: 40, Count: 4}}, usual)
	if len(l) != 1 || l[0].Boards != 4 || l[0].Width != 70 || l[0].Length != 750 || l[0].Thickness != 40 || l[0].Sap != [2]float64{5, 5} {
		t.Errorf("%+v", l)
	}
	if l = lacking(t, []Board{bare("A", 1000, 230, 1), bare("B", 1000, 240, 1)}, []Need{anyWood("top", 900, 450)}, usual); len(l) > 0 {
		t.Errorf("nothing is lacking: %+v", l)
	}
}

// What is asked for makes the job; where it is said to be exact, no board that is
// 1 mm narrower or shorter does, nor one with 1 mm more of sapwood.
func TestWhatIsAskedForIsEnoughAndNoMore(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	asked, exact, tight := 0, 0, 0
	for k := range 120 {
		boards, needs := randomYard(r, 1+r.IntN(4), 1+k%2, k%3 > 0)
		if k%5 == 4 {
			for q := range needs {
				needs[q].Wanted = face.WantSap
			}
		}
		list := lacking(t, boards, needs, coarse)
		if made := choose(t, boards, needs, coarse).Made; made != (len(list) == 0) {
			t.Fatalf("case %d: made %v, lacking %+v", k, made, list)
		}
		if len(list) == 0 {
			continue
		}
		asked++
		with := func(narrower, shorter, sappier float64) bool {
			all := append([]Board(nil), boards...)
			for q, l := range list {
				for n := range l.Boards {
					b := Board{ID: string(rune('A'+q)) + string(rune('a'+n)), Length: l.Length - shorter, Width: l.Width - narrower, Thickness: 26}
					for f, s := range l.Sap {
						if needs[0].Wanted == face.WantSap {
							b.Sap[f][0] = even(b.Width)
						} else if !math.IsInf(s, 1) {
							b.Sap[f][0] = even(math.Min(b.Width, s+sappier))
						} else {
							b.Sap[f] = [2]Widths{even(b.Width), even(b.Width)}
						}
					}
					all = append(all, b)
				}
			}
			c, err := Choose(context.Background(), all, needs, coarse, Options{})
			if err != nil {
				t.Fatal(err)
			}
			return c.Made
		}
		if !with(0, 0, 0) {
			t.Errorf("case %d: %+v are not enough\n%+v\n%+v", k, list, boards, needs)
		}
		if len(list) == 1 && list[0].Exact {
			exact++
			if with(1, 0, 0) || with(0, 1, 0) {
				t.Errorf("case %d: less would do than %+v\n%+v\n%+v", k, list, boards, needs)
			}
			if !with(0, 0, 1) {
				tight++
			}
		}
	}
	t.Logf("%d asked, %d exact, %d of them tight in sapwood", asked, exact, tight)
	if asked < 40 || exact < 15 || tight < 5 {
		t.Errorf("too few cases")
	}
}
