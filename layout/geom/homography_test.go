package geom

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

var unitSquare = [4]Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}

// Worked by hand for the corners (0,0), (4,0), (3,2), (1,2): the sides that
// were y = 0 and y = 1 stay parallel, so g = 0, and 4 to 2 in length gives
// h = 1; (x, y) goes to ((4x + 2y)/(1 + y), 4y/(1 + y)).
func TestQuadToQuadByHand(t *testing.T) {
	m, err := QuadToQuad(unitSquare, [4]Point{{0, 0}, {4, 0}, {3, 2}, {1, 2}})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0.5, 0.5}, {0.25, 0.75}, {2, 3}} {
		want := Pt((4*q.X+2*q.Y)/(1+q.Y), 4*q.Y/(1+q.Y))
		if got := m.Apply(q); got.Dist(want) > 1e-12 {
			t.Errorf("%v goes to %v, want %v", q, got, want)
		}
	}
}

func TestQuadToQuadOfAffineShapes(t *testing.T) {
	// A parallelogram needs no perspective: the map is the affine one.
	a := Affine{2, 1, 30, -0.5, 3, 7}
	src := [4]Point{{0, 0}, {2400, 0}, {2400, 210}, {0, 210}}
	var dst [4]Point
	for i, q := range src {
		dst[i] = a.Apply(q)
	}
	m, err := QuadToQuad(src, dst)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []Point{{100, 20}, {1200, 105}, {-50, 300}} {
		if got, want := m.Apply(q), a.Apply(q); got.Dist(want) > 1e-8 {
			t.Errorf("%v goes to %v, want %v", q, got, want)
		}
	}
}

func drawQuad(t *rapid.T) [4]Point {
	var q [4]Point
	for i, at := range [4]Point{{0, 0}, {2000, 0}, {2000, 900}, {0, 900}} {
		q[i] = at.Add(Pt(rapid.Float64Range(-300, 300).Draw(t, "dx"), rapid.Float64Range(-200, 200).Draw(t, "dy")))
	}
	return q
}

// Corners go to corners, straight lines stay straight, the diagonals' crossing
// goes to the diagonals' crossing, and the inverse goes back.
func TestQuadToQuadIsAPerspective(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src, dst := drawQuad(t), drawQuad(t)
		m, err := QuadToQuad(src, dst)
		if err != nil {
			t.Fatal(err)
		}
		for i := range src {
			if got := m.Apply(src[i]); got.Dist(dst[i]) > 1e-6 {
				t.Fatalf("corner %d goes to %v, want %v", i, got, dst[i])
			}
		}
		from, _, _, ok1 := SegmentsMeet(src[0], src[2], src[1], src[3])
		to, _, _, ok2 := SegmentsMeet(dst[0], dst[2], dst[1], dst[3])
		if !ok1 || !ok2 {
			t.Fatal("the diagonals of a convex shape cross")
		}
		if got := m.Apply(from); got.Dist(to) > 1e-6 {
			t.Fatalf("the middle goes to %v, want %v", got, to)
		}
		a, b := m.Apply(src[0].Lerp(src[2], 0.3)), m.Apply(src[0].Lerp(src[2], 0.8))
		if off := math.Abs(b.Sub(a).Cross(to.Sub(a))) / b.Dist(a); off > 1e-6 {
			t.Fatalf("a straight line is bent by %g", off)
		}
		back, ok := m.Inverse()
		if !ok {
			t.Fatal("no inverse")
		}
		q := Pt(rapid.Float64Range(400, 1600).Draw(t, "x"), rapid.Float64Range(250, 650).Draw(t, "y"))
		if got := back.Apply(m.Apply(q)); got.Dist(q) > 1e-6 {
			t.Fatalf("%v comes back as %v", q, got)
		}
	})
}

func TestQuadToQuadRefusesWhatIsNoRectangle(t *testing.T) {
	cases := []struct {
		name     string
		src, dst [4]Point
		want     QuadError
	}{
		{"in line", [4]Point{{0, 0}, {1, 0}, {2, 0}, {0, 1}}, unitSquare, QuadError{Corner: 1}},
		{"two the same", unitSquare, [4]Point{{0, 0}, {0, 0}, {1, 1}, {0, 1}}, QuadError{Target: true, Corner: 0}},
		{"dart", unitSquare, [4]Point{{0, 0}, {4, 0}, {1, 1}, {0, 4}}, QuadError{Target: true, Corner: 2, Folded: true}},
		{"not a number", unitSquare, [4]Point{{0, 0}, {1, 0}, {1, math.NaN()}, {0, 1}}, QuadError{Target: true, Corner: 1}},
	}
	for _, c := range cases {
		_, err := QuadToQuad(c.src, c.dst)
		var e *QuadError
		if !errors.As(err, &e) || *e != c.want {
			t.Errorf("%s: %v, want %+v", c.name, err, c.want)
		}
	}
	var e *QuadError
	if _, err := QuadToQuad(unitSquare, [4]Point{{0, 0}, {1, 1}, {1, 0}, {0, 1}}); !errors.As(err, &e) || !e.Folded {
		t.Errorf("crossed over: %v", err)
	}
	// Seen from behind is a perspective like another.
	if _, err := QuadToQuad(unitSquare, [4]Point{{0, 0}, {0, 1}, {1, 1}, {1, 0}}); err != nil {
		t.Errorf("mirrored: %v", err)
	}
	if _, ok := (Homography{}).Inverse(); ok {
		t.Error("the zero map has no inverse")
	}
}
