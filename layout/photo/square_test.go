package photo

import (
	"context"
	"errors"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"heartside/layout/geom"
)

// camera is a pinhole camera looking at the board's plane from above: the
// reference for the perspective, written from its geometry.
type camera struct {
	focal, cx, cy float64    // pixels
	pos           [3]float64 // mm, z up from the board
	tilt, pan     float64    // radians
}

// look returns the pixel a board point is seen at.
func (c camera) look(x, y float64) geom.Point {
	dx, dy, dz := x-c.pos[0], y-c.pos[1], -c.pos[2]
	sp, kp := math.Sincos(c.pan)
	dx, dy = kp*dx+sp*dy, -sp*dx+kp*dy
	st, kt := math.Sincos(c.tilt)
	// Right is dx; down the picture is towards the viewer.
	depth := -dz*kt + dy*st
	down := -(dy*kt + dz*st)
	return geom.Pt(c.cx+c.focal*dx/depth, c.cy+c.focal*down/depth)
}

func (c camera) corners(l, w float64) [4]geom.Point {
	return [4]geom.Point{c.look(0, 0), c.look(l, 0), c.look(l, w), c.look(0, w)}
}

func testCamera() camera {
	return camera{focal: 1300, cx: 800, cy: 500, pos: [3]float64{420, -150, 900}, tilt: 0.28, pan: 0.05}
}

func TestHomographyIsThePerspective(t *testing.T) {
	c := testCamera()
	const l, w = 900, 210
	m, err := boardToPicture(c.corners(l, w), l, w)
	if err != nil {
		t.Fatal(err)
	}
	for x := 0.0; x <= l; x += 75 {
		for y := 0.0; y <= w; y += 35 {
			if d := m.Apply(geom.Pt(x, y)).Dist(c.look(x, y)); d > 1e-6 {
				t.Fatalf("(%g, %g) lands %g pixels off", x, y, d)
			}
			const h = 1e-4
			ax, ay := stretch(&m, geom.Pt(x, y))
			dx, dy := c.look(x+h, y).Sub(c.look(x-h, y)).Mul(0.5/h), c.look(x, y+h).Sub(c.look(x, y-h)).Mul(0.5/h)
			if math.Abs(ax-math.Max(math.Abs(dx.X), math.Abs(dx.Y))) > 1e-4 || math.Abs(ay-math.Max(math.Abs(dy.X), math.Abs(dy.Y))) > 1e-4 {
				t.Fatalf("(%g, %g): stretch %g, %g, want %v, %v", x, y, ax, ay, dx, dy)
			}
		}
	}
}

// dots is the truth of the drawn board: dark spots on a light face.
func dots() []geom.Point {
	return []geom.Point{{X: 40, Y: 30}, {X: 40, Y: 180}, {X: 300, Y: 60}, {X: 455.5, Y: 105.25}, {X: 700, Y: 150}, {X: 870, Y: 25}, {X: 870, Y: 190}}
}

// ground returns the board point seen at a pixel, by the same geometry the
// other way.
func (c camera) ground(p geom.Point) (x, y float64) {
	h := c.pos[2]
	st, kt := math.Sincos(c.tilt)
	a, b := (p.X-c.cx)/c.focal, (p.Y-c.cy)/c.focal
	dy := (h*st - b*h*kt) / (kt + b*st)
	dx := a * (h*kt + dy*st)
	sp, kp := math.Sincos(c.pan)
	return c.pos[0] + kp*dx - sp*dy, c.pos[1] + sp*dx + kp*dy
}

// photograph draws the board through the camera, each pixel averaged over
// 4 x 4 rays.
func photograph(c camera, l, w float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 1600, 1000))
	for j := 0; j < 1000; j++ {
		for i := 0; i < 1600; i++ {
			var v float64
			for k := 0; k < 16; k++ {
				x, y := c.ground(geom.Pt(float64(i)+(float64(k%4)+0.5)/4, float64(j)+(float64(k/4)+0.5)/4))
				g := 90.0
				if x >= 0 && x <= l && y >= 0 && y <= w {
					g = 200
					for _, d := range dots() {
						if d.Dist(geom.Pt(x, y)) < 8 {
							g = 20
						}
					}
				}
				v += g / 16
			}
			img.SetRGBA(i, j, color.RGBA{uint8(v + 0.5), uint8(v + 0.5), uint8(v + 0.5), 255})
		}
	}
	return img
}

func TestSquareLandsWithinHalfAMillimetre(t *testing.T) {
	c := testCamera()
	const l, w = 900, 210
	img := photograph(c, l, w)
	// The same picture placed elsewhere: corners still count from its corner.
	moved := *img
	moved.Rect = img.Rect.Add(image.Pt(37, 21))
	for _, src := range []image.Image{img, &moved, toYCbCr(img), &generic{img}} {
		for _, scale := range []float64{0.5, 1, 2} {
			s, err := Square(context.Background(), src, View{Corners: c.corners(l, w)}, l, w, scale)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range dots() {
				got := darkSpot(s, d)
				if off := got.Dist(d); off > 0.5 {
					t.Errorf("%T at %g px a mm: spot %v found %.2f mm off at %v", src, scale, d, off, got)
				}
			}
		}
	}
}

// generic hides what kind of picture it holds.
type generic struct{ image.Image }

func toYCbCr(img *image.RGBA) *image.YCbCr {
	out := image.NewYCbCr(img.Rect, image.YCbCrSubsampleRatio420)
	for y := 0; y < img.Rect.Dy(); y++ {
		for x := 0; x < img.Rect.Dx(); x++ {
			c := img.RGBAAt(x, y)
			out.Y[out.YOffset(x, y)], out.Cb[out.COffset(x, y)], out.Cr[out.COffset(x, y)] = color.RGBToYCbCr(c.R, c.G, c.B)
		}
	}
	return out
}

// darkSpot returns the middle of what is dark near a face point.
func darkSpot(s *Squared, near geom.Point) geom.Point {
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	var sum geom.Point
	var n float64
	for j := 0; j < ny; j++ {
		for i := 0; i < nx; i++ {
			p := geom.Pt((float64(i)+0.5)*s.Length/float64(nx), s.Width-(float64(j)+0.5)*s.Width/float64(ny))
			if p.Dist(near) > 14 {
				continue
			}
			k := 200 - float64(s.Pix.RGBAAt(i, j).G)
			sum, n = sum.Add(p.Mul(k)), n+k
		}
	}
	return sum.Mul(1 / n)
}

// A checker finer than the result averages to its mean: nothing is skipped.
func TestSquareAveragesWhatItShrinks(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 1200, 240))
	for y := 0; y < 240; y++ {
		for x := 0; x < 1200; x++ {
			v := uint8(40)
			if (x+y)%2 == 0 {
				v = 200
			}
			img.SetRGBA(x, y, color.RGBA{v, v, v, 255})
		}
	}
	q := [4]geom.Point{{X: 0, Y: 240}, {X: 1200, Y: 240}, {X: 1200, Y: 0}, {X: 0, Y: 0}}
	s, err := Square(context.Background(), img, View{Corners: q}, 1200, 240, 0.2)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(s.Pix.Pix); i += 4 {
		if v := int(s.Pix.Pix[i]); v < 117 || v > 123 {
			t.Fatalf("pixel %d is %d, want the mean 120", i/4, v)
		}
	}
}

func TestSquareRefusesBadInput(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 100, 100))
	good := [4]geom.Point{{X: 10, Y: 60}, {X: 90, Y: 60}, {X: 90, Y: 20}, {X: 10, Y: 20}}
	with := func(f func(q *[4]geom.Point)) [4]geom.Point { q := good; f(&q); return q }
	cases := []struct {
		name    string
		q       [4]geom.Point
		l, w, s float64
		say     string
	}{
		{"clockwise", with(func(q *[4]geom.Point) { q[1], q[3] = q[3], q[1] }), 100, 50, 1, "clockwise"},
		{"crossed", with(func(q *[4]geom.Point) { q[0], q[1] = q[1], q[0] }), 100, 50, 1, "cross"},
		{"in line", with(func(q *[4]geom.Point) { q[1] = geom.Pt(50, 40) }), 100, 50, 1, "line"},
		{"folded in", with(func(q *[4]geom.Point) { q[2] = geom.Pt(30, 50) }), 100, 50, 1, "fold"},
		{"one place", [4]geom.Point{}, 100, 50, 1, "line"},
		{"not a number", with(func(q *[4]geom.Point) { q[2].X = math.NaN() }), 100, 50, 1, "(length, width)"},
		{"no length", good, 0, 50, 1, "length"},
		{"negative width", good, 100, -3, 1, "width"},
		{"no scale", good, 100, 50, math.NaN(), "scale"},
		{"huge", good, 1e6, 1e6, 1, "too many"},
	}
	for _, c := range cases {
		_, err := Square(context.Background(), img, View{Corners: c.q}, c.l, c.w, c.s)
		if err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%s: error %v, want one that says %q", c.name, err, c.say)
		}
	}
	if _, err := Square(context.Background(), &image.RGBA{}, View{Corners: good}, 1, 1, 1); err == nil {
		t.Error("an empty picture was squared")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Square(ctx, img, View{Corners: good}, 100, 50, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("after cancelling: %v", err)
	}
}

func FuzzSquareNeverPanics(f *testing.F) {
	f.Add(uint64(1))
	f.Fuzz(func(t *testing.T, seed uint64) {
		r := rand.New(rand.NewPCG(seed, 1))
		img := image.NewYCbCr(image.Rect(3, 5, 3+1+r.IntN(40), 5+1+r.IntN(40)), image.YCbCrSubsampleRatio(r.IntN(6)))
		var q [4]geom.Point
		for i := range q {
			q[i] = geom.Pt(r.Float64()*200-80, r.Float64()*200-80)
		}
		s, err := Square(context.Background(), img, View{Corners: q}, 1+r.Float64()*60, 1+r.Float64()*30, 0.1+r.Float64())
		if err == nil {
			s.Field(5)
			s.Level(0.05)
		}
	})
}
