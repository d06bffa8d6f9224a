package outline

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// A drawn scene: flat shapes laid over each other on a ground, seen through a
// lens, each pixel averaged from 4 x 4 looks, with noise. The corners are
// known because they are what was drawn.
type scene struct {
	w, h   int
	bow    float64
	ground func(p geom.Point) [3]float64
	shapes []shapeOn
	noise  float64
	seed   uint64
}

type shapeOn struct {
	poly   geom.Polygon // without bow
	colour func(p geom.Point) [3]float64
}

func flat(r, g, b float64) func(geom.Point) [3]float64 {
	return func(geom.Point) [3]float64 { return [3]float64{r, g, b} }
}

// wood is brown with dark lines along x, turned by degrees.
func wood(degrees float64) func(geom.Point) [3]float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return func(p geom.Point) [3]float64 {
		v := -sin*p.X + cos*p.Y
		k := 8 * math.Sin(v/3+math.Sin(v/11))
		return [3]float64{150 + k, 105 + k, 70 + k}
	}
}

func (s scene) draw() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, s.w, s.h))
	rng := rand.New(rand.NewPCG(s.seed, 5))
	lens := photo.LensOf(s.w, s.h, s.bow)
	const n = 4
	for j := 0; j < s.h; j++ {
		for i := 0; i < s.w; i++ {
			var sum [3]float64
			for k := 0; k < n*n; k++ {
				p := lens.Straight(geom.Pt(float64(i)+(float64(k%n)+0.5)/n, float64(j)+(float64(k/n)+0.5)/n))
				c := s.ground(p)
				for _, sh := range s.shapes {
					if sh.poly.Contains(p) {
						c = sh.colour(p)
					}
				}
				for ch := range sum {
					sum[ch] += c[ch] / (n * n)
				}
			}
			at := func(v float64) uint8 {
				return uint8(math.Min(math.Max(v+s.noise*rng.NormFloat64()+0.5, 0), 255))
			}
			img.SetRGBA(i, j, color.RGBA{at(sum[0]), at(sum[1]), at(sum[2]), 255})
		}
	}
	return img
}

// camera is a pinhole with its axis in the middle that looks at a plane.
type camera struct {
	w, h                  int
	focal                 float64 // in widths
	pitch, roll, distance float64 // degrees, degrees, mm
	shift                 geom.Point
}

// at returns where the camera shows a point of the plane, mm from where its
// axis meets it, y up.
func (c camera) at(p geom.Point) geom.Point {
	sr, cr := math.Sincos(c.roll * math.Pi / 180)
	sp, cp := math.Sincos(c.pitch * math.Pi / 180)
	x, y := cr*p.X-sr*p.Y+c.shift.X, sr*p.X+cr*p.Y+c.shift.Y
	z := c.distance + y*sp
	f := c.focal * float64(max(c.w, c.h))
	return geom.Pt(float64(c.w)/2+f*x/z, float64(c.h)/2-f*y*cp/z)
}

// rect returns a rectangle of the plane as the camera shows it, in the order
// of a face: from (x, y), length along x and width along y.
func (c camera) rect(x, y, length, width float64) [4]geom.Point {
	return [4]geom.Point{
		c.at(geom.Pt(x, y)), c.at(geom.Pt(x+length, y)),
		c.at(geom.Pt(x+length, y+width)), c.at(geom.Pt(x, y+width)),
	}
}

// wantCorners checks corners, given without bow, to within px.
func wantCorners(t *testing.T, s scene, got [4]geom.Point, want [4]geom.Point, px float64) {
	t.Helper()
	lens := photo.LensOf(s.w, s.h, s.bow)
	for i := range want {
		if w := lens.Bowed(want[i]); got[i].Dist(w) > px {
			t.Errorf("corner %d is %.2f, want %.2f: %.2f px off", i, got[i], w, got[i].Dist(w))
		}
	}
}
