package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestClipKnownCases(t *testing.T) {
	board := R(0, 0, 100, 50)
	cases := []struct {
		name, ring string
		want       float64 // mm2, by hand
	}{
		{"inside", "10,10 20,10 20,20 10,20", 100},
		{"around", "-10,-10 200,-10 200,200 -10,200", 5000},
		{"beside", "110,0 120,0 120,50", 0},
		{"touching along an edge", "100,0 120,0 120,50 100,50", 0},
		{"corner off", "80,0 120,0 120,40", 200},
		{"half", "50,-10 150,-10 150,60 50,60", 2500},
		{"diamond over every edge", "50,-25 125,25 50,75 -25,25", 5000 - 4*0.5*12.5*(25.0/3)},
		{"comb that falls apart", "10,-20 90,-20 90,10 70,10 70,-10 30,-10 30,10 10,10", 400},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := poly(t, c.ring)
			near(t, "by rectangle", p.ClipRect(board).Area(), c.want, 1e-9)
			near(t, "by ring", p.ClipConvex(board.Polygon()).Area(), c.want, 1e-9)
			back := Polygon{Pt(0, 50), Pt(100, 50), Pt(100, 0), Pt(0, 0)}
			near(t, "by clockwise ring", p.ClipConvex(back).Area(), c.want, 1e-9)
		})
	}
	for name, got := range map[string]Polygon{
		"nil ring": Polygon(nil).ClipRect(board), "empty rectangle": board.Polygon().ClipRect(Rect{}),
		"by nothing": board.Polygon().ClipConvex(nil), "by a flat ring": board.Polygon().ClipConvex(poly(t, "0,0 5,5 9,9")),
	} {
		if len(got) != 0 {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// Cutting by sides and sweeping layers are two different ways to one area.
func TestClipAgreesWithDecompose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawRing(t, "ring")
		convex := Ellipse(R(0, 0, 100, 50), rapid.IntRange(3, 12).Draw(t, "sides"))
		want := areas(Decompose(nil, convex, 0, []Layer{{1, p}}))[1]
		if got := p.ClipConvex(convex).InsideArea(); math.Abs(got-want) > 1e-6 {
			t.Fatalf("cut %g, swept %g", got, want)
		}
		want = areas(Decompose(nil, R(0, 0, 100, 50).Polygon(), 0, []Layer{{1, p}}))[1]
		if got := p.ClipRect(R(0, 0, 100, 50)).InsideArea(); math.Abs(got-want) > 1e-6 {
			t.Fatalf("cut to a rectangle %g, swept %g", got, want)
		}
	})
}
