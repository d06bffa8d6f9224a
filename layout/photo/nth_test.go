package photo

import (
	"math/rand/v2"
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
			if got := Nth(slices.Clone(v), k); got != sorted[k] {
				t.Fatalf("the %dth of %v is %g, want %g", k, v, got, sorted[k])
			}
		}
	}
}
