package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSegmentDistanceByHand(t *testing.T) {
	cases := []struct {
		q, a, b, at Point
		share, want float64
	}{
		{Pt(5, 3), Pt(0, 0), Pt(10, 0), Pt(5, 0), 0.5, 3},
		{Pt(-3, 4), Pt(0, 0), Pt(10, 0), Pt(0, 0), 0, 5},
		{Pt(13, -4), Pt(0, 0), Pt(10, 0), Pt(10, 0), 1, 5},
		{Pt(0, 10), Pt(0, 0), Pt(10, 10), Pt(5, 5), 0.5, math.Sqrt(50)},
		{Pt(3, 4), Pt(0, 0), Pt(0, 0), Pt(0, 0), 0, 5},
	}
	for _, c := range cases {
		at, share := NearestOnSegment(c.q, c.a, c.b)
		if at.Dist(c.at) > 1e-12 || math.Abs(share-c.share) > 1e-12 {
			t.Errorf("%v to %v-%v: %v at %g, want %v at %g", c.q, c.a, c.b, at, share, c.at, c.share)
		}
		near(t, "distance", SegmentDistance(c.q, c.a, c.b), c.want, 1e-12)
	}
}

func TestSegmentsMeetByHand(t *testing.T) {
	cases := []struct {
		name       string
		a, b, c, d Point
		at         Point
		s, t       float64
		ok         bool
	}{
		{"cross", Pt(0, 0), Pt(10, 10), Pt(0, 10), Pt(10, 0), Pt(5, 5), 0.5, 0.5, true},
		{"end on the other", Pt(0, 0), Pt(10, 0), Pt(4, 0), Pt(4, 8), Pt(4, 0), 0.4, 0, true},
		{"ends together", Pt(0, 0), Pt(10, 0), Pt(10, 5), Pt(10, 0), Pt(10, 0), 1, 1, true},
		{"short of it", Pt(0, 0), Pt(10, 0), Pt(4, 1), Pt(4, 8), Point{}, 0, 0, false},
		{"parallel", Pt(0, 0), Pt(10, 0), Pt(0, 1), Pt(10, 1), Point{}, 0, 0, false},
		{"overlapping", Pt(0, 0), Pt(10, 0), Pt(5, 0), Pt(15, 0), Point{}, 0, 0, false},
		{"a point", Pt(1, 1), Pt(1, 1), Pt(0, 0), Pt(2, 2), Point{}, 0, 0, false},
	}
	for _, c := range cases {
		at, s, u, ok := SegmentsMeet(c.a, c.b, c.c, c.d)
		if ok != c.ok || at.Dist(c.at) > 1e-12 || math.Abs(s-c.s) > 1e-12 || math.Abs(u-c.t) > 1e-12 {
			t.Errorf("%s: %v %g %g %v", c.name, at, s, u, ok)
		}
	}
}

func TestSignedDistanceByHand(t *testing.T) {
	board := R(0, 0, 100, 50).Polygon()
	for _, c := range []struct {
		q    Point
		want float64
	}{
		{Pt(50, 25), 25}, {Pt(10, 25), 10}, {Pt(97, 48), 2}, {Pt(50, -7), -7}, {Pt(-3, -4), -5}, {Pt(100, 50), 0}, {Pt(103, 54), -5},
	} {
		near(t, "distance", board.SignedDistance(c.q), c.want, 1e-12)
		back := Polygon{board[3], board[2], board[1], board[0]}
		near(t, "distance, clockwise", back.SignedDistance(c.q), c.want, 1e-12)
	}
	at, edge, d := board.Nearest(Pt(103, 20))
	if at != Pt(100, 20) || edge != 1 || d != 3 {
		t.Errorf("nearest %v on edge %d at %g", at, edge, d)
	}
	if _, edge, d := (Polygon)(nil).Nearest(Pt(1, 1)); edge != -1 || !math.IsInf(d, 1) {
		t.Errorf("empty ring: edge %d at %g", edge, d)
	}
	if d := (Polygon)(nil).SignedDistance(Pt(1, 1)); !math.IsInf(d, -1) {
		t.Errorf("empty ring: %g", d)
	}
}

// Inside a circle the distance to it is the radius less the distance to the
// middle; a ring of 720 points is within r (1 - cos(pi/720)) of it.
func TestSignedDistanceToACircle(t *testing.T) {
	ring := Ellipse(R(-80, -80, 80, 80), 720)
	slack := 80 * (1 - math.Cos(math.Pi/720))
	rapid.Check(t, func(t *rapid.T) {
		q := Pt(rapid.Float64Range(-150, 150).Draw(t, "x"), rapid.Float64Range(-150, 150).Draw(t, "y"))
		if got, want := ring.SignedDistance(q), 80-q.Len(); math.Abs(got-want) > slack+1e-9 {
			t.Fatalf("%v: %g, want %g", q, got, want)
		}
	})
}
