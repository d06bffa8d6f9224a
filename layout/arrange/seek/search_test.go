package seek

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
)

func request(seed uint64, n, spares int) Request {
	p, pool := drawn(seed, n, spares)
	small(p, pool)
	return Request{Panel: *p, Pool: pool, Look: look.SapOut, Rules: look.DefaultRules, Seed: 1, Readings: 500}
}

// holds checks what every answer must keep, and returns the best points.
func holds(t *testing.T, req *Request, r Result) float64 {
	t.Helper()
	if len(r.Answers) == 0 {
		t.Fatal("no answer")
	}
	ids := func(lists ...[]face.Strip) (out []string) {
		for _, list := range lists {
			for _, s := range list {
				if s.Board != nil {
					out = append(out, s.ID)
				}
			}
		}
		slices.Sort(out)
		return out
	}
	for k, a := range r.Answers {
		if got, want := ids(a.Strips, a.Left), ids(req.Panel.Strips, req.Pool); !slices.Equal(got, want) {
			t.Errorf("answer %d has %v, want each of %v once", k, got, want)
		}
		if len(a.Strips) != len(req.Panel.Strips) {
			t.Errorf("answer %d has %d strips, want %d", k, len(a.Strips), len(req.Panel.Strips))
		}
		p := req.Panel
		p.Strips = a.Strips
		if p.StripsWidth() < p.Width+2*p.PanelEdge-1e-6 {
			t.Errorf("answer %d is too narrow: %v", k, p.StripsWidth())
		}
		// The same read and judged from nothing.
		frame := req.Panel
		full := face.ReadFull(&p)
		if x := look.NewJudge(&frame, req.Look, req.Rules).Points(&p, full); math.Abs(x-a.Score.Points) > 1e-6 {
			t.Errorf("answer %d: %v points, read afresh %v", k, a.Score.Points, x)
		}
		if math.Abs(a.Reading.Coverage-full.Show.Coverage) > 1e-9 || math.Abs(a.Reading.Light-full.Show.Light.Value) > 1e-9 {
			t.Errorf("answer %d: reading %+v, afresh %v and %v", k, a.Reading, full.Show.Coverage, full.Show.Light.Value)
		}
		if a.Score.Points < r.Bound-1e-6 || a.Score.Points < r.Answers[0].Score.Points-1e-9 {
			t.Errorf("answer %d: %v points, bound %v, first answer %v", k, a.Score.Points, r.Bound, r.Answers[0].Score.Points)
		}
		if len(a.Looks) != len(look.All) {
			t.Errorf("answer %d: points for %d looks", k, len(a.Looks))
		}
	}
	return r.Answers[0].Score.Points
}

func TestSearch(t *testing.T) {
	req := request(21, 6, 2)
	req.SwapWithPool = true
	last, calls := math.Inf(1), 0
	got, err := Search(t.Context(), req, func(r Result) {
		calls++
		if x := r.Answers[0].Score.Points; x > last {
			t.Errorf("%v is worse than %v", x, last)
		} else {
			last = x
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	best := holds(t, &req, got)
	if calls == 0 || math.Abs(last-best) > 1e-9 || best > got.As.Score.Points+1e-9 {
		t.Errorf("%d calls, last %v, best %v, as laid %v", calls, last, best, got.As.Score.Points)
	}
	if got.Tried > req.Readings {
		t.Errorf("%d readings of %d", got.Tried, req.Readings)
	}
	for k, a := range got.Answers {
		t.Logf("answer %d: %.2f points, %.2f apart", k, a.Score.Points, a.Differs)
		if k > 0 && a.Differs < different/2 {
			t.Errorf("answer %d is much like the first: %v", k, a.Differs)
		}
	}
	again, err := Search(t.Context(), req, nil)
	if err != nil || !reflect.DeepEqual(got, again) {
		t.Errorf("the same request gives other answers, %v", err)
	}
}

// For every look the best of all arrangements is found and said to be so.
func TestEveryLookAgainstEveryArrangement(t *testing.T) {
	cases := 2
	if full {
		cases = 30
	} else if testing.Short() {
		cases = 1
	}
	for _, name := range look.All {
		for k := range cases {
			req := request(uint64(100+k), 3, k%2)
			req.Look, req.SwapWithPool, req.Readings = name, true, 100_000
			if k%3 == 1 {
				req.Panel.Wanted = face.WantSap
			}
			got, err := Search(t.Context(), req, nil)
			if err != nil {
				t.Fatal(err)
			}
			best := holds(t, &req, got)
			if name == look.AsLaid {
				continue
			}
			p := req.Panel
			want := bruteForce(&p, req.Pool, look.NewJudge(&p, name, req.Rules))
			if math.Abs(best-want) > 1e-6 || !got.Optimal || !got.Proved || math.Abs(got.Bound-want) > 1e-6 {
				t.Errorf("%s, case %d: %v points, optimal %v, bound %v; the best of all has %v", name, k, best, got.Optimal, got.Bound, want)
			}
		}
	}
}

func TestPinnedStay(t *testing.T) {
	for seed := range uint64(5) {
		req := request(30+seed, 6, 3)
		req.SwapWithPool = true
		req.Panel.Strips[1].Pinned = true
		req.Panel.Strips[4].Stage = face.Glued
		got, err := Search(t.Context(), req, nil)
		if err != nil {
			t.Fatal(err)
		}
		holds(t, &req, got)
		for _, a := range got.Answers {
			for _, k := range []int{1, 4} {
				if a.Strips[k] != req.Panel.Strips[k] {
					t.Errorf("place %d: %+v, want the strip that is pinned there", k, a.Strips[k])
				}
			}
		}
	}
}

func TestForbidden(t *testing.T) {
	req := request(41, 5, 0)
	req.NoTurn, req.NoRoll = true, true
	got, err := Search(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	holds(t, &req, got)
	for _, a := range got.Answers {
		for _, s := range a.Strips {
			k := slices.IndexFunc(req.Panel.Strips, func(x face.Strip) bool { return x.ID == s.ID })
			if o := req.Panel.Strips[k]; o.Turned != s.Turned || o.UpFace() != s.UpFace() {
				t.Errorf("%s lies otherwise", s.ID)
			}
		}
	}
}

// Without leave to swap, the pool only fills the empty place.
func TestPoolFillsEmptyPlaces(t *testing.T) {
	req := request(51, 5, 3)
	req.Panel.Strips[2].Board = nil
	req.Panel.Strips[2].ID = ""
	for i := range req.Pool {
		req.Pool[i].W = 110
	}
	got, err := Search(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	holds(t, &req, got)
	for _, a := range got.Answers {
		for _, s := range req.Panel.Strips {
			if s.Board != nil && !slices.ContainsFunc(a.Strips, func(x face.Strip) bool { return x.ID == s.ID }) {
				t.Errorf("%s was given up", s.ID)
			}
		}
		if len(a.Left) != 2 {
			t.Errorf("%d left, want 2 of 3 spares", len(a.Left))
		}
	}
	// Nothing to fill it with: it stays.
	req.Pool = nil
	got, err = Search(t.Context(), req, nil)
	if err != nil || len(got.Answers) == 0 || got.Answers[0].Strips[2].Board != nil {
		t.Errorf("the empty place does not stay: %v", err)
	}
}

func TestPoolMustFit(t *testing.T) {
	p, pool := drawn(61, 4, 4)
	pool[0].L = p.Length - 1
	pool[1].L, pool[1].Shift = p.Length+10, 6
	thin := *pool[2].Board
	thin.Thickness = p.Thickness - 1
	pool[2].Board = &thin
	if got := fitting(p, pool); !slices.Equal(got, []int{3}) {
		t.Errorf("%v may take a place, want only the last", got)
	}
}

func TestCalledOff(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	req := request(71, 8, 0)
	req.Readings = 100_000
	n, last := 0, 0.0
	got, err := Search(ctx, req, func(r Result) {
		last = r.Answers[0].Score.Points
		if n++; n == 3 {
			cancel()
		}
	})
	if err != nil || n != 3 {
		t.Fatalf("%d calls, %v", n, err)
	}
	if x := holds(t, &req, got); x != last {
		t.Errorf("%v, best when it was called off %v", x, last)
	}
	// Called off before it began: the panel as it lies.
	got, err = Search(ctx, req, nil)
	if err != nil || len(got.Answers) != 1 || !reflect.DeepEqual(got.Answers[0].Strips, req.Panel.Strips) {
		t.Errorf("%d answers, %v; want the panel as it lies", len(got.Answers), err)
	}
}

// With heart and sap changed and the other wanted, the answers are the same.
func TestWantedSwapped(t *testing.T) {
	req := request(81, 5, 2)
	req.SwapWithPool = true
	got, err := Search(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	other := req
	other.Panel.Strips, other.Pool = swapped(req.Panel.Strips), swapped(req.Pool)
	other.Panel.Wanted = face.WantSap
	back, err := Search(t.Context(), other, nil)
	if err != nil || len(got.Answers) != len(back.Answers) {
		t.Fatalf("%d answers, %d swapped, %v", len(got.Answers), len(back.Answers), err)
	}
	for k := range got.Answers {
		a, b := got.Answers[k], back.Answers[k]
		if math.Abs(a.Score.Points-b.Score.Points) > 1e-9 {
			t.Errorf("answer %d: %v points, swapped %v", k, a.Score.Points, b.Score.Points)
		}
		for i := range a.Strips {
			if x, y := a.Strips[i], b.Strips[i]; x.ID != y.ID || x.Up != y.Up || x.Turned != y.Turned {
				t.Errorf("answer %d, place %d: %s, swapped %s", k, i, x.ID, y.ID)
			}
		}
	}
}

func TestBothWanted(t *testing.T) {
	req := request(91, 4, 0)
	req.Panel.Wanted = face.WantBoth
	got, err := Search(t.Context(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	holds(t, &req, got)
}

func TestOnlyJudged(t *testing.T) {
	req := request(92, 4, 0)
	req.Look = look.AsLaid
	got, err := Search(t.Context(), req, nil)
	if err != nil || len(got.Answers) != 1 || !reflect.DeepEqual(got.Answers[0].Strips, req.Panel.Strips) {
		t.Errorf("%d answers, %v; want the panel as it lies", len(got.Answers), err)
	}
}

func TestCannotBeArranged(t *testing.T) {
	for name, spoil := range map[string]func(*Request){
		"no strips": func(r *Request) { r.Panel.Strips = nil },
		"no length": func(r *Request) { r.Panel.Length = 0 },
		"no width":  func(r *Request) { r.Panel.Width = math.NaN() },
		"too many":  func(r *Request) { r.Panel.Strips = make([]face.Strip, 65) },
	} {
		req := request(93, 3, 0)
		spoil(&req)
		if _, err := Search(t.Context(), req, nil); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
