package seek

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/together"
)

// The best of all ways to lay two panels of up to three strips is found, and
// said to be it.
func TestSetAgainstEveryArrangement(t *testing.T) {
	cases := 40
	if testing.Short() {
		cases = 8
	}
	looks := []look.Name{look.SapToSap, look.SapOut, look.SapIn, look.HeartOnly, look.EvenMix}
	for k := range cases {
		rnd := rand.New(rand.NewPCG(uint64(k), 77))
		way := together.Way(k % 2)
		n, m := 1+rnd.IntN(3), 1+rnd.IntN(3)
		if k%20 == 0 {
			n, m = 3, 3 // 147 456 ways
		} else if !full {
			m = min(m, 5-n)
		}
		f := setOf(t, uint64(200+k), way, n, m)
		if k%5 == 4 {
			f.Part(1).Strips[0].Pinned = true
			f = faceOf(t, way, f.Part(0), f.Part(1))
		}
		name := looks[k%len(looks)]
		p := newPointsOf(f, name)
		a, b := p.everyLie(0, f.Part(0).Strips), p.everyLie(1, f.Part(1).Strips)
		want := everySet(p, a, b)
		got, err := SearchSet(t.Context(), SetRequest{Face: f, Look: name, Rules: look.DefaultRules, Seed: 1, Readings: 2*len(a)*len(b) + 500}, nil)
		if err != nil {
			t.Fatal(err)
		}
		best := got.Answers[0]
		if math.Abs(best.Points-want) > 1e-6 || !got.Optimal || math.Abs(got.Bound-want) > 1e-6 {
			t.Errorf("case %d, %s, %d and %d strips: %v points, optimal %v, bound %v; the best of all has %v",
				k, name, len(f.Part(0).Strips), len(f.Part(1).Strips), best.Points, got.Optimal, got.Bound, want)
		}
		if x := p.of(best.Strips); math.Abs(x-best.Points) > 1e-6 {
			t.Errorf("case %d: %v points, judged afresh %v", k, best.Points, x)
		}
	}
}

// Where strips may change panels, every parting of them is tried.
func TestExchangeAgainstEveryArrangement(t *testing.T) {
	cases := 4
	if testing.Short() {
		cases = 1
	}
	for k := range cases {
		way := together.Way(k % 2)
		f := sameWidths(t, uint64(300+k), way, 80, 2, 2)
		p := newPointsOf(f, look.SapToSap)
		all := slices.Concat(f.Part(0).Strips, f.Part(1).Strips)
		want := math.Inf(1)
		for i := range all {
			for j := i + 1; j < len(all); j++ {
				var here, there []face.Strip
				for n, s := range all {
					if n == i || n == j {
						here = append(here, s)
					} else {
						there = append(there, s)
					}
				}
				want = min(want, everySet(p, p.everyLie(0, here), p.everyLie(1, there)))
			}
		}
		if may, alike := MayExchange(f); !may || !alike {
			t.Fatal("strips of one width may not change panels")
		}
		req := SetRequest{Face: f, Look: look.SapToSap, Rules: look.DefaultRules, Seed: 1, Readings: 40_000, Exchange: true}
		got, err := SearchSet(t.Context(), req, nil)
		if err != nil {
			t.Fatal(err)
		}
		if x := got.Answers[0].Points; math.Abs(x-want) > 1e-6 || !got.Optimal {
			t.Errorf("case %d: %v points, optimal %v; the best of all has %v", k, x, got.Optimal, want)
		}
		req.Exchange = false
		kept, err := SearchSet(t.Context(), req, nil)
		if err != nil || kept.Answers[0].Points < want-1e-6 {
			t.Errorf("case %d: %v points without leave to change, %v with it, %v", k, kept.Answers[0].Points, want, err)
		}
	}
}

// partsOf checks that each strip lies in one panel once, and returns which
// panel holds which.
func partsOf(t *testing.T, f *together.Face, a SetAnswer) map[string]int {
	t.Helper()
	out := map[string]int{}
	for k, list := range a.Strips {
		if len(list) != len(f.Part(k).Strips) {
			t.Errorf("panel %d has %d strips, want %d", k, len(list), len(f.Part(k).Strips))
		}
		for _, s := range list {
			if _, twice := out[s.ID]; twice {
				t.Errorf("%s lies twice", s.ID)
			}
			out[s.ID] = k
		}
	}
	return out
}

// Strips of different widths change panels only so that each panel stays wide
// enough; of panels of other lengths or shapes not at all.
func TestExchangeMindsSizes(t *testing.T) {
	f := setOf(t, 401, together.Across, 4, 3)
	if may, alike := MayExchange(f); !may || alike {
		t.Errorf("may %v, without asking %v: the widths differ", may, alike)
	}
	got, err := SearchSet(t.Context(), SetRequest{Face: f, Look: look.SapToSap, Rules: look.DefaultRules, Seed: 1, Readings: 1500, Exchange: true}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range got.Answers {
		partsOf(t, f, a)
		for k, list := range a.Strips {
			q := *f.Part(k)
			q.Strips = list
			if q.StripsWidth() < q.Width+2*q.PanelEdge-1e-6 {
				t.Errorf("panel %d is %v wide, needs %v", k, q.StripsWidth(), q.Width+2*q.PanelEdge)
			}
		}
	}
	longer := *f.Part(1)
	longer.Length -= 5
	g := faceOf(t, together.Across, f.Part(0), &longer)
	if may, _ := MayExchange(g); may {
		t.Error("strips may go between panels of other lengths")
	}
	got, err = SearchSet(t.Context(), SetRequest{Face: g, Look: look.SapToSap, Rules: look.DefaultRules, Seed: 1, Readings: 600, Exchange: true}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for id, k := range partsOf(t, g, got.Answers[0]) {
		if id[:1] != g.Part(k).ID {
			t.Errorf("%s went to panel %s", id, g.Part(k).ID)
		}
	}
}

// Never worse than what lies there, nor than the panels arranged one after
// another by the same search.
func TestSetIsNeverWorse(t *testing.T) {
	cases := 6
	if testing.Short() {
		cases = 2
	}
	for k := range cases {
		f := setOf(t, uint64(500+k), together.Way(k%2), 4, 5, 3)
		name := []look.Name{look.SapOut, look.SapToSap, look.EvenMix}[k%3]
		req := SetRequest{Face: f, Look: name, Rules: look.DefaultRules, Seed: 3, Readings: 400}
		got, err := SearchSet(t.Context(), req, nil)
		if err != nil {
			t.Fatal(err)
		}
		work := f.Fork()
		var strips [][]face.Strip
		for k := range f.Len() {
			r, err := Search(t.Context(), Request{Panel: *f.Part(k), In: work, At: k, Look: name, Rules: look.DefaultRules, Seed: 3, Readings: 400}, nil)
			if err != nil {
				t.Fatal(err)
			}
			strips = append(strips, r.Answers[0].Strips)
			work.Lay(k, r.Answers[0].Strips)
		}
		after := newPointsOf(f, name).of(strips)
		if x := got.Answers[0].Points; x > after+1e-6 || x > got.As.Points+1e-6 {
			t.Errorf("case %d: %v points, one after another %v, as laid %v", k, x, after, got.As.Points)
		}
		if got.Bound > got.Answers[0].Points+1e-9 {
			t.Errorf("case %d: bound %v over %v", k, got.Bound, got.Answers[0].Points)
		}
		if got.Optimal && got.Bound < got.Answers[0].Points-1e-9 {
			t.Errorf("case %d: said to be the best with a bound below", k)
		}
	}
}

// The same request gives the same answers; what is told only gets better; a
// search that is called off keeps the best that was told.
func TestSetStreamsAndStops(t *testing.T) {
	f := setOf(t, 601, together.Across, 5, 5)
	req := SetRequest{Face: f, Look: look.SapOut, Rules: look.DefaultRules, Seed: 1, Readings: 500}
	run := func(ctx context.Context, each func(SetResult)) SetResult {
		got, err := SearchSet(ctx, req, each)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	last, calls := math.Inf(1), 0
	a := run(t.Context(), func(r SetResult) {
		calls++
		if x := r.Answers[0].Points; x > last+1e-9 {
			t.Errorf("%v is worse than %v", x, last)
		} else {
			last = x
		}
	})
	if calls < 3 || math.Abs(last-a.Answers[0].Points) > 1e-9 {
		t.Errorf("%d calls, the last %v, best %v", calls, last, a.Answers[0].Points)
	}
	if b := run(t.Context(), nil); !reflect.DeepEqual(a, b) {
		t.Error("the same request gives other answers")
	}
	for _, after := range []int{1, 3, calls - 1} {
		ctx, cancel := context.WithCancel(t.Context())
		n, best := 0, math.Inf(1)
		got := run(ctx, func(r SetResult) {
			best = r.Answers[0].Points
			if n++; n == after {
				cancel()
			}
		})
		if x := got.Answers[0].Points; x > best+1e-9 {
			t.Errorf("called off after %d: %v points, told %v", after, x, best)
		}
		if got.Optimal {
			t.Errorf("called off after %d: said to be the best", after)
		}
		cancel()
	}
	// Called off before it began: as it lies.
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	got := run(ctx, nil)
	if len(got.Answers) != 1 || got.Answers[0].Points != got.As.Points || got.Optimal {
		t.Errorf("%d answers, %v points, as laid %v, optimal %v", len(got.Answers), got.Answers[0].Points, got.As.Points, got.Optimal)
	}
}

// The least cost of the joints of panels taken one by one is that of all.
func TestLeastOfEachIsLeastOfAll(t *testing.T) {
	f := setOf(t, 701, together.Along, 3, 4)
	f.Part(0).Strips[1].Pinned = true
	f = faceOf(t, together.Along, f.Part(0), f.Part(1))
	req := SetRequest{Face: f, Look: look.SapOut, Rules: look.DefaultRules, Seed: 1}
	e, err := prepareGroup(&req)
	if err != nil {
		t.Fatal(err)
	}
	e.ctx, e.budget = t.Context(), 1
	e.fill()
	sum := 0.0
	for k := range e.group.panels {
		best := math.Inf(1)
		p := newPointsOf(f, look.SapOut)
		for _, l := range p.everyLie(k, f.Part(k).Strips) {
			q := *f.Part(k)
			q.Strips = l.strips
			best = min(best, p.own[k].Local(&q))
		}
		sum += best
	}
	if got, ok := e.group.least(t.Context()); !ok || math.Abs(got-sum) > 1e-9 {
		t.Errorf("%v, %v; of all ways %v", got, ok, sum)
	}
}

func TestSetCannotBeArranged(t *testing.T) {
	if _, err := SearchSet(t.Context(), SetRequest{}, nil); err == nil {
		t.Error("no panels: no error")
	}
	f := setOf(t, 801, together.Across, 30, 34)
	if _, err := SearchSet(t.Context(), SetRequest{Face: f, Look: look.SapOut}, nil); err == nil {
		t.Error("64 strips and a gap: no error")
	}
	empty := *f.Part(0)
	empty.Strips = nil
	if _, err := SearchSet(t.Context(), SetRequest{Face: faceOf(t, together.Across, &empty, f.Part(1)), Look: look.SapOut}, nil); err == nil {
		t.Error("a panel without strips: no error")
	}
}

func BenchmarkSet(b *testing.B) {
	for _, n := range []int{5, 8} {
		b.Run(fmt.Sprintf("2x%d", n), func(b *testing.B) {
			f := setOf(b, 1, together.Across, n, n)
			for b.Loop() {
				r, err := SearchSet(b.Context(), SetRequest{Face: f, Look: look.SapToSap, Rules: look.DefaultRules, Seed: 1, Readings: 2000}, nil)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(r.Answers[0].Points, "points")
				b.ReportMetric(r.Bound, "bound")
				b.ReportMetric(float64(r.Tried), "read")
			}
		})
	}
}
