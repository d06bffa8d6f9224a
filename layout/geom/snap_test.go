package geom

import (
	"math"
	"testing"
)

func TestSnap1D(t *testing.T) {
	targets := []float64{0, 10, 10.5, math.NaN(), 50}
	for _, c := range []struct {
		value, tol, want float64
		target           int
	}{
		{9.6, 1, 10, 1}, {10.3, 1, 10.5, 2}, {10.25, 1, 10, 1}, {20, 1, 20, -1}, {51, 1, 50, 4}, {51.01, 1, 51.01, -1},
		{0, 0, 0, 0}, {0.1, 0, 0.1, -1}, {3, -1, 3, -1},
	} {
		if got, at := Snap1D(c.value, targets, c.tol); got != c.want || at != c.target {
			t.Errorf("%g within %g: %g by %d, want %g by %d", c.value, c.tol, got, at, c.want, c.target)
		}
	}
	if got, at := Snap1D(5, nil, 1); got != 5 || at != -1 {
		t.Errorf("without targets: %g by %d", got, at)
	}
}

func TestSnapAngle(t *testing.T) {
	targets := []float64{0, 45, 90}
	for _, c := range []struct {
		degrees, want float64
		target        int
	}{
		{1.5, 0, 0}, {-1.5, 0, 0}, {46, 45, 1}, {-89, 90, 2}, {179, 0, 0}, {-181, 0, 0}, {20, 20, -1}, {200, 20, -1}, {-90, 90, 2},
	} {
		if got, at := SnapAngle(c.degrees, targets, 2); math.Abs(got-c.want) > 1e-12 || at != c.target {
			t.Errorf("%g degrees: %g by %d, want %g by %d", c.degrees, got, at, c.want, c.target)
		}
	}
}
