package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// plain is the usual set of allowances: 4.5 mm at each long edge, 25 at each
// end.
var plain = Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}

func board(id string, length, width float64) *face.Board {
	return &face.Board{ID: id, Length: length, Width: width, Thickness: 26}
}

func strip(id string, b *face.Board, x, y, l, w, angle float64) face.Strip {
	return face.Strip{ID: id, Board: b, X: x, Y: y, L: l, W: w, Angle: angle, Up: 1}
}

func samePoints(t *testing.T, what string, got, want geom.Polygon, tol float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d points, want %d", what, len(got), len(want))
	}
	for i := range got {
		if got[i].Dist(want[i]) > tol {
			t.Errorf("%s: point %d at %v, want %v", what, i, got[i], want[i])
		}
	}
}

// Worked by hand: (s, t) lies at (x + s cos a - t sin a, y + s sin a + t cos a).
func TestBlankTurnsWithTheStrip(t *testing.T) {
	s := strip("s", board("A", 2400, 210), 100, 50, 400, 80, 90)
	samePoints(t, "upright", Blank(&s, plain), geom.Polygon{{X: 104.5, Y: 25}, {X: 104.5, Y: 475}, {X: 15.5, Y: 475}, {X: 15.5, Y: 25}}, 1e-9)
	s.Angle = 30 // cos 0.8660254, sin 0.5
	samePoints(t, "slanted", Blank(&s, plain), geom.Polygon{
		{X: 100 - 25*0.8660254 + 4.5*0.5, Y: 50 - 25*0.5 - 4.5*0.8660254},
		{X: 100 + 425*0.8660254 + 4.5*0.5, Y: 50 + 425*0.5 - 4.5*0.8660254},
		{X: 100 + 425*0.8660254 - 84.5*0.5, Y: 50 + 425*0.5 + 84.5*0.8660254},
		{X: 100 - 25*0.8660254 - 84.5*0.5, Y: 50 - 25*0.5 + 84.5*0.8660254},
	}, 1e-4)
}

// slowClearance walks round both rings in small steps for the distance, and
// tries directions all round for the depth of an overlap.
func slowClearance(a, b geom.Polygon) float64 {
	depth := math.Inf(1)
	for deg := 0.0; deg < 360; deg += 0.02 {
		s, c := math.Sincos(deg * math.Pi / 180)
		d := geom.Pt(c, s)
		far, near := math.Inf(-1), math.Inf(1)
		for _, p := range a {
			far = math.Max(far, p.Dot(d))
		}
		for _, p := range b {
			near = math.Min(near, p.Dot(d))
		}
		depth = math.Min(depth, far-near)
	}
	if depth > 0 {
		return -depth
	}
	walk := func(p geom.Polygon) []geom.Point {
		var out []geom.Point
		for i, q := range p {
			for k := 0; k < 400; k++ {
				out = append(out, q.Lerp(p[(i+1)%len(p)], float64(k)/400))
			}
		}
		return out
	}
	least := math.Inf(1)
	wb := walk(b)
	for _, p := range walk(a) {
		for _, q := range wb {
			least = math.Min(least, p.Dist(q))
		}
	}
	return least
}

func TestClearanceAgainstSlowReference(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	apart, over := 0, 0
	for n := 0; n < 40; n++ {
		one := func() geom.Polygon {
			s := strip("s", board("A", 1, 1), 200*rng.Float64(), 120*rng.Float64(), 40+60*rng.Float64(), 15+30*rng.Float64(), -90+180*rng.Float64())
			return grown(&s, 0, 0)
		}
		a, b := one(), one()
		want := slowClearance(a, b)
		if want > 0 {
			apart++
		} else {
			over++
		}
		// Steps of 0.25 mm and 0.02 degrees are off by less than 0.1 mm.
		layouttest.Near(t, "clearance", Clearance(a, b), want, 0.1)
		layouttest.Near(t, "the other way", Clearance(b, a), Clearance(a, b), 1e-9)
	}
	if apart < 5 || over < 5 {
		t.Fatalf("drawn badly: %d apart, %d over one another", apart, over)
	}
}

// Two squares of side 10, by hand: side by side, corner to corner, overlapping.
func TestClearanceByHand(t *testing.T) {
	sq := func(x, y float64) geom.Polygon { return geom.R(x, y, x+10, y+10).Polygon() }
	layouttest.Near(t, "beside", Clearance(sq(0, 0), sq(12, 3)), 2, 1e-9)
	layouttest.Near(t, "by the corner", Clearance(sq(0, 0), sq(13, 14)), 5, 1e-9)
	layouttest.Near(t, "touching", Clearance(sq(0, 0), sq(10, 0)), 0, 1e-9)
	layouttest.Near(t, "overlapping", Clearance(sq(0, 0), sq(7, 4)), -3, 1e-9)
	diamond := geom.Polygon{{X: 20, Y: 5}, {X: 27, Y: -2}, {X: 34, Y: 5}, {X: 27, Y: 12}}
	layouttest.Near(t, "corner to side", Clearance(sq(0, 0), diamond), 10, 1e-9)
}
