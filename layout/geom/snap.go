package geom

import "math"

// Snap1D brings value to the nearest of the targets that lies within tol, and
// tells which; of two equally near the first. Where none is near enough the
// value comes back with -1.
func Snap1D(value float64, targets []float64, tol float64) (snapped float64, target int) {
	snapped, target = value, -1
	best := tol
	for i, t := range targets {
		if d := math.Abs(t - value); d < best || (d == best && target < 0) {
			snapped, target, best = t, i, d
		}
	}
	return snapped, target
}

// SnapAngle is Snap1D for the directions of lines, in degrees: half a turn
// apart is the same. The result lies above -90 up to 90.
func SnapAngle(degrees float64, targets []float64, tol float64) (snapped float64, target int) {
	snapped, target = lineAngle(degrees), -1
	best := tol
	for i, t := range targets {
		if d := math.Abs(lineAngle(t - degrees)); d < best || (d == best && target < 0) {
			snapped, target, best = lineAngle(t), i, d
		}
	}
	return snapped, target
}

// lineAngle brings an angle above -90 up to 90 degrees.
func lineAngle(degrees float64) float64 {
	a := math.Mod(degrees, 180)
	switch {
	case a > 90:
		return a - 180
	case a <= -90:
		return a + 180
	}
	return a
}
