package layouttest

import (
	"math"
	"testing"

	"heartside/layout/geom"
)

// Poly reads a polygon as geom.ParsePolygon does, such as "0,0 100,0 100,50",
// in mm, and fails the test where that cannot be read or has fewer than three
// points.
func Poly(t testing.TB, text string) geom.Polygon {
	t.Helper()
	p, err := geom.ParsePolygon(text)
	if err != nil {
		t.Fatalf("polygon %q: %v", text, err)
	}
	if len(p) < 3 {
		t.Fatalf("polygon %q: %d points, want at least 3", text, len(p))
	}
	return p
}

// Near fails the test unless got lies within tol of want. NaN is never near.
func Near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if d := math.Abs(got - want); !(d <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, tol)
	}
}
