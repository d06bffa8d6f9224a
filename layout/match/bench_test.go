package match

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
)

// wavy is a pool of n strips from boards with wandering sap lines along both
// edges of both faces, each free to slide by 600 mm.
func wavy(n int) []Source {
	rng := rand.New(rand.NewPCG(3, 9))
	var list []Source
	for i := range n {
		b := plank(fmt.Sprint("B", i), 1600, 140)
		for f := 1; f <= 2; f++ {
			line := func() func(float64) float64 {
				w, a, c := 15+25*rng.Float64(), 6*rng.Float64(), 6*rng.Float64()
				p, q := 300+500*rng.Float64(), 100+200*rng.Float64()
				return func(x float64) float64 {
					return w + a*math.Sin(x/p*2*math.Pi) + c*math.Sin(x/q*2*math.Pi)/3
				}
			}
			edged(b, f, face.Sap, line())
			beyond(b, f, face.Sap, line())
		}
		list = append(list, Source{Strip: strip(fmt.Sprint("S", i), b, 300, 10, 900, 110), MinSlide: -300, MaxSlide: 400})
	}
	return list
}

func BenchmarkPairs30(b *testing.B) {
	list := wavy(30)
	b.ReportAllocs()
	for b.Loop() {
		got := Pairs(context.Background(), list, Options{Length: 900})
		b.ReportMetric(float64(len(got)), "pairs")
	}
}
