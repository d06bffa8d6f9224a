package stock

import (
	"context"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
)

// yard is a supply of boards of many sizes with sapwood, wane and knots, and
// panels and legs to be made from it.
func yard(boards, parts int) (Supply, []Demand) {
	rng := rand.New(rand.NewPCG(9, 9))
	s := Supply{Allowances: usual, Machines: machines}
	for i := range boards {
		b := random(rng, string(rune('A'+i%26))+string(rune('a'+i/26)))
		b.Length += 1200
		for f := range b.Faces { // zones and wane reach over all of it
			for k := range b.Faces[f].Zones {
				b.Faces[f].Zones[k].Polygon = geom.Scale(b.Length/(b.Length-1200), 1).ApplyTo(b.Faces[f].Zones[k].Polygon)
			}
			if b.Faces[f].Outline != nil {
				b.Faces[f].Outline = geom.Scale(b.Length/(b.Length-1200), 1).ApplyTo(b.Faces[f].Outline)
			}
		}
		s.Boards = append(s.Boards, Stock{b, Price{Whole: 20 + 30*rng.Float64()}})
	}
	var demands []Demand
	for i := range parts {
		id := "p" + string(rune('a'+i))
		if i%3 == 2 {
			demands = append(demands, solid(id, 4, 700, 60))
		} else {
			demands = append(demands, panel(id, 500+600*rng.Float64(), 250+200*rng.Float64()))
		}
	}
	return s, demands
}

func BenchmarkPlanTop(b *testing.B) {
	s, demands := yard(6, 1)
	for b.Loop() {
		if _, err := Plan(context.Background(), s, demands, LeastWood, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlanYard(b *testing.B) {
	s, demands := yard(20, 8)
	for b.Loop() {
		r, err := Plan(context.Background(), s, demands, LeastCost, Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(r.Cost, "cost")
		b.ReportMetric(r.Used/1e6, "m2")
	}
}

func BenchmarkScarceYard(b *testing.B) {
	s, demands := yard(20, 8)
	for b.Loop() {
		if _, err := Scarce(context.Background(), s, demands); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTable(b *testing.B) {
	s, _ := yard(1, 0)
	b.Run("make", func(b *testing.B) {
		for b.Loop() {
			if _, err := NewTable(s.Boards[0].Board, 1, 2, 5); err != nil {
				b.Fatal(err)
			}
		}
	})
	t, err := NewTable(s.Boards[0].Board, 1, 2, 5)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("ask", func(b *testing.B) {
		for b.Loop() {
			t.On(1, geom.R(101.3, 20.2, 1031.1, 110.7))
		}
	})
}
