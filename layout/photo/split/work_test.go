package split

import (
	"context"
	"errors"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
)

func TestNthIsThatOfTheSorted(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := 1; n < 60; n++ {
		v := make([]float64, n)
		for i := range v {
			v[i] = float64(r.IntN(n)) // some alike
		}
		sorted := slices.Sorted(slices.Values(v))
		for k := range sorted {
			if got := nth(slices.Clone(v), k); got != sorted[k] {
				t.Fatalf("the %dth of %v is %g, want %g", k, v, got, sorted[k])
			}
		}
	}
}

func TestEachDoesAllOnce(t *testing.T) {
	var done [100]atomic.Int32
	if err := each(context.Background(), len(done), func(i int) { done[i].Add(1) }); err != nil {
		t.Fatal(err)
	}
	for i := range done {
		if n := done[i].Load(); n != 1 {
			t.Errorf("number %d is done %d times", i, n)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := each(ctx, 5, func(int) { t.Error("done after the end") }); !errors.Is(err, context.Canceled) {
		t.Errorf("ended: %v", err)
	}
}

// The answer does not rest on how many cores there are.
func TestSplitIsTheSameOnAnyNumberOfCores(t *testing.T) {
	s := drawn(600, 120, .7, func(x, y float64) bool { return y < 30+x/60 })
	var was *Result
	for _, cores := range []int{1, 4} {
		before := runtime.GOMAXPROCS(cores)
		f, err := New(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		r, err := f.Auto(context.Background())
		runtime.GOMAXPROCS(before)
		if err != nil {
			t.Fatal(err)
		}
		if was != nil && (!slices.Equal(r.Mask.Pix, was.Mask.Pix) || r.Confidence != was.Confidence || !slices.Equal(r.Sure.P, was.Sure.P)) {
			t.Errorf("on %d cores it is another: %g sure, not %g", cores, r.Confidence, was.Confidence)
		}
		was = r
	}
}
