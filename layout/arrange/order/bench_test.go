package order

import (
	"math/rand/v2"
	"testing"
)

func benchProblem(m, n int) *Problem {
	p := randomProblem(rand.New(rand.NewPCG(8, uint64(m))), m, n, false)
	p.Allowed, p.Fixed, p.Enough = nil, nil, nil
	return p
}

func benchBest(b *testing.B, m, n, k int) {
	p := benchProblem(m, n)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Best(b.Context(), p, k); err != nil {
			b.Fatal(err)
		}
	}
}

// Budget: 30 ms.
func BenchmarkBest10(b *testing.B) { benchBest(b, 10, 10, 1) }

// Budget: 5 s and 1 GB.
func BenchmarkBest16Places12(b *testing.B) { benchBest(b, 16, 12, 1) }

func BenchmarkBest16Places12First1000(b *testing.B) { benchBest(b, 16, 12, 1000) }

func BenchmarkBest20(b *testing.B) { benchBest(b, 20, 20, 1) }

func BenchmarkBound28Places20(b *testing.B) {
	p := benchProblem(28, 20)
	for b.Loop() {
		if _, err := Bound(b.Context(), p); err != nil {
			b.Fatal(err)
		}
	}
}
