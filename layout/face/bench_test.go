package face

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// wideTop is a panel of 24 strips, 2400 x 1000, from boards with photographs:
// every third board taped (three widths an edge), the others traced with 60
// points along each sap line, some with knots.
func wideTop(seed uint64) *Panel {
	rng := rand.New(rand.NewPCG(seed, 1))
	const n, length = 24, 2400.0
	p := &Panel{ID: "top", Length: length, Width: 1000, Thickness: 20, Limit: [2]float64{0.3, 1}, PanelEdge: 5, Limits: DefaultLimits}
	for i := range n {
		b := &Board{
			ID: fmt.Sprintf("B%02d", i), Length: 2700, Width: 120, Thickness: 26, Planes: Planes(1 + i%2),
			Moisture: 8, AssumedHeart: drawnHeart, AssumedSap: drawnSap,
		}
		for f := range b.Faces {
			bf := &b.Faces[f]
			bf.Reference = "card"
			points := 3
			if i%3 > 0 {
				points = 60
			}
			for e := range 2 {
				bf.Zones = append(bf.Zones, Zone{Sap, sapEdge(rng, b, e == 1, points)})
			}
			if i%4 == 1 {
				x, y := 600+rng.Float64()*1500, 30+rng.Float64()*60
				bf.Zones = append(bf.Zones, Zone{Flaw, blob(rng, x, y, 12, 16)})
			}
			bf.Field = fieldOf(rng, bf, b, 4)
			bf.Heart, bf.Sap = MeanColours(bf)
		}
		p.Strips = append(p.Strips, Strip{
			ID: fmt.Sprintf("s%02d", i), Board: b, X: 100, Y: 20 + rng.Float64()*30, L: length + 50, W: (1000.0 + 10) / n,
			Up: 1 + rng.IntN(2), Turned: rng.IntN(2) == 1,
		})
	}
	return p
}

// sapEdge is sapwood along one edge of a board, its line wandering.
func sapEdge(rng *rand.Rand, b *Board, far bool, points int) geom.Polygon {
	y := func(v float64) float64 {
		if far {
			return b.Width - v
		}
		return v
	}
	p := geom.Polygon{{X: 0, Y: y(0)}, {X: b.Length, Y: y(0)}}
	base, phase := 15+rng.Float64()*30, rng.Float64()*6
	for k := points - 1; k >= 0; k-- {
		x := b.Length * float64(k) / float64(points-1)
		p = append(p, geom.Pt(x, y(max(1, base+10*math.Sin(x/350+phase)+rng.Float64()*2))))
	}
	return p
}

func blob(rng *rand.Rand, x, y, r float64, n int) geom.Polygon {
	var p geom.Polygon
	for k := range n {
		a := 2 * math.Pi * float64(k) / float64(n)
		q := r * (0.8 + 0.4*rng.Float64())
		p = append(p, geom.Pt(x+q*math.Cos(a), y+q*math.Sin(a)))
	}
	return p
}

// fieldOf is the photograph that the zones would give, with noise.
func fieldOf(rng *rand.Rand, bf *BoardFace, b *Board, step float64) *colour.Field {
	f := &colour.Field{Step: step, NX: int(math.Ceil(b.Length / step)), NY: int(math.Ceil(b.Width / step))}
	for j := range f.NY {
		for i := range f.NX {
			c := drawnHeart
			if bf.At(geom.Pt((float64(i)+0.5)*step, (float64(j)+0.5)*step), b) == Sap {
				c = drawnSap
			}
			f.Lab = append(f.Lab, colour.Lab{L: c.L + rng.NormFloat64()*3, A: c.A + rng.NormFloat64(), B: c.B + rng.NormFloat64()})
		}
	}
	return f
}

// dragged returns p with strip i moved along its board, as an edit would: a
// new panel with new strips.
func dragged(p *Panel, i int, dx, dy float64) *Panel {
	q := *p
	q.Strips = append([]Strip(nil), p.Strips...)
	q.Strips[i].X += dx
	q.Strips[i].Y += dy
	return &q
}

// BenchmarkDragStep24 is one step of a drag; it is to take 2 ms at most on one
// core, and an eighth of BenchmarkReadAll24 at most.
func BenchmarkDragStep24(b *testing.B) { dragSteps(b, 11, true) }

// BenchmarkDragFrontStrip24 drags the strip that makes the front edge, whose
// cut through the wood is read as well.
func BenchmarkDragFrontStrip24(b *testing.B) { dragSteps(b, 0, true) }

// BenchmarkStep24 is the same step outside a drag, when the median of the
// wanted wood may move.
func BenchmarkStep24(b *testing.B) { dragSteps(b, 11, false) }

func dragSteps(b *testing.B, strip int, hold bool) {
	p := wideTop(1)
	var steps []*Panel
	for k := range 64 {
		steps = append(steps, dragged(p, strip, 3+0.7*float64(k), 0.2*float64(k%7)))
	}
	r := NewReader()
	r.Read(p)
	r.Hold(hold)
	for k := range 10 {
		r.Read(steps[k])
	}
	b.ReportAllocs()
	b.ResetTimer()
	for k := range b.N {
		r.Read(steps[k%len(steps)])
	}
}

// BenchmarkReadAll24 reads all strips of the same panel with the same code.
func BenchmarkReadAll24(b *testing.B) {
	p := wideTop(1)
	r := NewReader()
	r.Read(p)
	r.Begin()
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		r.forgetStrips()
		r.Read(p)
	}
}

// forgetStrips makes the reader read every strip anew, with its buffers and
// what it knows of the boards kept.
func (r *Reader) forgetStrips() { r.drop() }
