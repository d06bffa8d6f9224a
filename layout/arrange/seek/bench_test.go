package seek

import (
	"fmt"
	"math"
	"testing"

	"heartside/layout/face"
)

// free costs nothing, so that only reading is measured.
type free struct{}

func (free) Single(*face.Strip, int, int) float64          { return 0 }
func (free) Pair(_, _ *face.Strip) float64                 { return 0 }
func (free) Points(_ *face.Panel, r *face.Reading) float64 { return math.Abs(r.Show.Balance) }

// What one arrangement costs to read, laid by lot, on a panel 900 long.
func BenchmarkReading(b *testing.B) {
	for _, n := range []int{5, 10, 24} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p, _ := drawn(1, n, 0)
			e := engineFor(b, b.Context(), p, nil, freedom{}, 1, math.MaxInt)
			e.judge = free{}
			b.ReportAllocs()
			for b.Loop() {
				e.read(e.random())
			}
		})
	}
}

// A whole search of 2000 readings.
func BenchmarkSearch(b *testing.B) {
	for _, n := range []int{10, 24} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p, pool := drawn(1, n, 4)
			for b.Loop() {
				e := engineFor(b, b.Context(), p, pool, freedom{swapPool: true}, 1, 2000)
				if _, err := e.run(); err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(e.best.points, "points")
				b.ReportMetric(e.bound, "bound")
			}
		})
	}
}
