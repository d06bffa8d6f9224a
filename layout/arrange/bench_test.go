package arrange

import (
	"context"
	"math/rand/v2"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/face"
)

// photographed gives every face colours as from a photograph, in cells of 5
// mm: those of its wood with some noise.
func photographed(p *face.Panel, seed uint64) {
	rng := rand.New(rand.NewPCG(seed, 3))
	for i := range p.Strips {
		b := p.Strips[i].Board
		for f := range b.Faces {
			field := &colour.Field{Step: 5, NX: int(b.Length / 5), NY: int(b.Width / 5)}
			for range field.NX * field.NY {
				field.Lab = append(field.Lab, colour.Lab{L: 35 + 4*rng.NormFloat64(), A: 8 + rng.NormFloat64(), B: 14 + rng.NormFloat64()})
			}
			b.Faces[f].Field, b.Faces[f].Reference = field, "card"
		}
	}
}

// All fixes of a panel of 12 strips: with two streaks beside one another, and
// drawn at random with photographs, where some twenty warnings stand.
func BenchmarkFixes12(b *testing.B) {
	plain := laid(12)
	edgeSap(plain, 4, 1, 24)
	edgeSap(plain, 5, 1, 26)
	full := random(12, 5)
	photographed(full, 1)
	for _, c := range []struct {
		name string
		p    *face.Panel
	}{{"streaks", plain}, {"photographs", full}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			var found []Fixed
			for b.Loop() {
				found = All(context.Background(), nil, c.p, nil, options)
			}
			b.ReportMetric(float64(len(found)), "warnings")
		})
	}
}
