package wane

import (
	"fmt"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Camera is what is known of the focal length, pixels along with how far it may
// be off, as a share. The zero value is a camera as most are.
type Camera struct {
	Focal  float64
	Spread float64
}

// CameraOf returns the camera of a picture of wide x high pixels whose focal
// length is told as that of a 35 mm film camera, which goes by the diagonal
// (CIPA DC-008): 43.27 mm there. 0 is not known. A picture that was cut to a
// part tells too little, so the figure is not taken as exact.
func CameraOf(wide, high int, focal35 float64) Camera {
	if !(focal35 > 0) || math.IsInf(focal35, 0) {
		return Camera{}
	}
	return Camera{Focal: focal35 / math.Hypot(36, 24) * math.Hypot(float64(wide), float64(high)), Spread: toldSpread}
}

// Engineering choices: the focal length of an unknown camera in widths of the
// picture's longer side and its spread, as a logarithm; that of one that is
// told; and how far from square a rectangle's corners are when laid by hand,
// radians.
const (
	usualFocal   = 0.85
	usualSpread  = 0.3
	toldSpread   = 0.08
	squareWithin = 0.02
)

// Width returns how wide a rectangle of that length is, mm, from where its
// corners lie in a picture of wide x high pixels, by the perspective alone:
// square pixels, the axis in the middle of the picture (Zhang and He,
// Whiteboard scanning and image enhancement, 2007). The focal length is found
// from the corners as far as they tell, within what cameras have. spread is how
// far the width may be off, as a share of it.
func Width(view photo.View, wide, high int, length float64, cam Camera) (width, spread float64, err error) {
	if !(length > 0) || math.IsInf(length, 0) || wide < 1 || high < 1 {
		return 0, 0, fmt.Errorf("width by perspective: a picture of %d x %d pixels and a length of %g mm cannot be; give numbers over 0", wide, high, length)
	}
	if _, _, err := view.FromFace(wide, high, 1, 1); err != nil {
		return 0, 0, fmt.Errorf("width by perspective: %w", err)
	}
	lens := photo.LensOf(wide, high, view.Bow)
	longer := float64(max(wide, high))
	var m corners
	var q [4]geom.Point
	for i, c := range view.Corners {
		q[i] = lens.Straight(c)
		m[i] = vector{(q[i].X - lens.Middle.X) / longer, (q[i].Y - lens.Middle.Y) / longer, 1}
	}
	focal, off := usualFocal, usualSpread
	if cam.Focal > 0 {
		focal, off = cam.Focal/longer, math.Max(cam.Spread, 0.01)
	}
	u, v, ok := m.sides()
	if !ok {
		// As good as parallel: the sides in the picture tell.
		w := length * (q[0].Dist(q[3]) + q[1].Dist(q[2])) / (q[0].Dist(q[1]) + q[3].Dist(q[2]))
		return w, 0.1, nil
	}
	// Every focal length has its weight, by what it makes of the angle between
	// the sides and by what cameras have.
	const steps = 121
	type way struct{ width, cost float64 }
	ways := make([]way, steps)
	least := math.Inf(1)
	for k := range ways {
		t := 3 * off * (2*float64(k)/(steps-1) - 1)
		f := focal * math.Exp(t)
		a, b := vector{u[0] / f, u[1] / f, u[2]}, vector{v[0] / f, v[1] / f, v[2]}
		skew := math.Asin(math.Min(math.Max(a.dot(b)/(a.len()*b.len()), -1), 1)) / squareWithin
		ways[k] = way{length * b.len() / a.len(), (skew*skew + t*t/(off*off)) / 2}
		least = math.Min(least, ways[k].cost)
	}
	sum, mean, square := 0.0, 0.0, 0.0
	for _, w := range ways {
		p := math.Exp(least - w.cost)
		sum += p
		mean += p * w.width
		square += p * w.width * w.width
	}
	mean /= sum
	return mean, math.Sqrt(math.Max(square/sum-mean*mean, 0)) / mean, nil
}

type vector [3]float64

func (a vector) cross(b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func (a vector) dot(b vector) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vector) len() float64         { return math.Sqrt(a.dot(a)) }

// sides are the directions of the length and the width in space, but for the
// focal length, each as long as the side is beside the other.
func (m corners) sides() (u, v vector, ok bool) {
	k2, k3 := m[1].cross(m[2]).dot(m[3]), m[3].cross(m[2]).dot(m[1])
	if k2 == 0 || k3 == 0 {
		return u, v, false
	}
	near, far := m[0].cross(m[2]).dot(m[3])/k2, m[0].cross(m[2]).dot(m[1])/k3
	if !(near > 0.1 && near < 10 && far > 0.1 && far < 10) {
		return u, v, false
	}
	for c := range u {
		u[c] = near*m[1][c] - m[0][c]
		v[c] = far*m[3][c] - m[0][c]
	}
	return u, v, true
}

type corners [4]vector

// crossings returns where a ring crosses a height, in rising x.
func crossings(ring geom.Polygon, y float64) []float64 {
	var out []float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > y) != (b.Y > y) {
			out = append(out, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	slices.Sort(out)
	return out
}
