package split

import (
	"context"
	"math/rand/v2"
	"runtime"
	"slices"
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
