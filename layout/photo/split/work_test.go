package split

import (
	"context"
	"runtime"
	"slices"
	"testing"
)

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
