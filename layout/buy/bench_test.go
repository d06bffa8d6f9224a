package buy

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"heartside/layout/cutting"
)

// yard is n boards as a seller has them, no two alike, and two panels with limits
// of sapwood on both faces.
func yard(n int, seed uint64) ([]Board, []Need, Work) {
	r := rand.New(rand.NewPCG(seed, 1))
	var boards []Board
	for i := range n {
		b := Board{ID: fmt.Sprint(i), Length: 2000 + 1200*r.Float64(), Width: 130 + 130*r.Float64(), Thickness: 26}
		b.Price = b.Length * b.Width / 5000 * (0.8 + 0.4*r.Float64())
		for f := range b.Sap {
			for e := range b.Sap[f] {
				if r.IntN(2) == 0 {
					s := 50 * r.Float64()
					b.Sap[f][e] = Widths{s, s * (0.8 + 0.4*r.Float64()), s * (0.8 + 0.4*r.Float64())}
				}
			}
		}
		boards = append(boards, b)
	}
	top := Need{ID: "top", Length: 1600, Width: 800, Thickness: 20, PanelEdge: 5, Most: [2]float64{0.1, 0.5}}
	side := Need{ID: "side", Length: 700, Width: 450, Thickness: 20, PanelEdge: 5, Most: [2]float64{0, 0.3}}
	w := Work{Allowances: cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, Snipe: 60},
		Machines: cutting.Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50}, Plane: 3}
	return boards, []Need{top, side}, w
}

func BenchmarkChoose(b *testing.B) {
	for _, n := range []int{12, 20, 40} {
		boards, needs, w := yard(n, 7)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			tried, gap := 0, 0.0
			for b.Loop() {
				c, err := Choose(context.Background(), boards, needs, w, Options{})
				if err != nil || !c.Made {
					b.Fatal(c, err)
				}
				tried, gap = c.Tried, c.Cost/c.Least-1
			}
			b.ReportMetric(float64(tried), "nodes")
			b.ReportMetric(100*gap, "%gap")
		})
	}
}

func BenchmarkWorths20(b *testing.B) {
	boards, needs, w := yard(20, 7)
	for b.Loop() {
		if _, err := Worths(context.Background(), boards, nil, needs, w, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
