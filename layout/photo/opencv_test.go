package photo

import (
	"bufio"
	"context"
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"strings"
	"testing"

	"heartside/layout/geom"
)

// Hartley and Zisserman, Multiple View Geometry, 2nd ed., section 4.1: four
// points give eight equations. By hand for the unit square seen at (20, 80),
// (100, 80), (80, 20), (40, 20), with (x, y) going to
// ((a x + b y + c)/w, (d x + e y + f)/w), w = g x + h y + 1:
//
//	(0, 0): c = 20, f = 80
//	(1, 0): a + c = 100 (g + 1), d + f = 80 (g + 1), so a = 80 + 100 g, d = 80 g
//	(0, 1): b + c = 40 (h + 1), e + f = 20 (h + 1), so b = 20 + 40 h, e = -60 + 20 h
//	(1, 1): d + e + f = 20 (g + h + 1): 80 g - 60 + 20 h + 80 = 20 g + 20 h + 20, so g = 0
//	        a + b + c = 80 (g + h + 1): 120 + 40 h = 80 + 80 h, so h = 1
//
// a = 80, b = 60, d = 0, e = -40: (1/2, 1/2) goes to (90/1.5, 60/1.5) = (60, 40).
func TestPerspectiveByHand(t *testing.T) {
	v := View{Corners: [4]geom.Point{{X: 20, Y: 80}, {X: 100, Y: 80}, {X: 80, Y: 20}, {X: 40, Y: 20}}}
	const l, w = 800, 300
	m, _, err := v.FromFace(120, 100, l, w)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ x, y, u, v float64 }{
		{0, 0, 20, 80}, {1, 0, 100, 80}, {1, 1, 80, 20}, {0, 1, 40, 20},
		{0.5, 0.5, 60, 40}, {0.25, 0.75, 85 / 1.75, 50 / 1.75}, {0.5, 0, 60, 80}, {1, 0.25, 115 / 1.25, 70 / 1.25},
	} {
		if p := m.Apply(geom.Pt(c.x*l, c.y*w)); p.Dist(geom.Pt(c.u, c.v)) > 1e-9 {
			t.Errorf("(%g, %g) goes to %v, want (%g, %g)", c.x, c.y, p, c.u, c.v)
		}
	}
}

// The squared picture against OpenCV's, whose values stand in
// testdata/warp.csv beside the script that made them. OpenCV mixes pixels at
// 32nds of their distance: with slopes under 6 a pixel that is within 0.2, and
// our own rounding 0.5.
func TestSquareAgreesWithOpenCV(t *testing.T) {
	img := decode(t, "testdata/warp.png")
	rgba, ok := img.(*image.RGBA)
	if !ok {
		t.Fatalf("the picture is %T", img)
	}
	v := View{Corners: [4]geom.Point{{X: 22.3, Y: 118.9}, {X: 177.6, Y: 109.2}, {X: 168.4, Y: 33.7}, {X: 30.1, Y: 41.5}}}
	for _, c := range []struct {
		src   image.Image
		bound float64
	}{
		{rgba, 0.7},
		{&generic{rgba}, 0.7},
		// Stored as a JPEG is: toYCbCr keeps the colour of one of four pixels, so
		// that it lies half a pixel off: slopes of 6 make that 3, rounding each
		// way another 2.
		{toYCbCr(rgba), 5},
	} {
		s, err := Square(context.Background(), c.src, v, 160, 80, 1)
		if err != nil {
			t.Fatal(err)
		}
		n, most := 0, 0.0
		for _, line := range lines(t, "testdata/warp.csv") {
			var i, j int
			var r, g, b float64
			if _, err := fmt.Sscanf(line, "%d,%d,%f,%f,%f", &i, &j, &r, &g, &b); err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			n++
			p := s.Pix.RGBAAt(i, j)
			d := math.Max(math.Abs(float64(p.R)-r), math.Max(math.Abs(float64(p.G)-g), math.Abs(float64(p.B)-b)))
			most = math.Max(most, d)
			if d > c.bound {
				t.Errorf("%T: pixel %d, %d is %v, OpenCV has %.1f, %.1f, %.1f", c.src, i, j, p, r, g, b)
			}
		}
		if n != 100 {
			t.Fatalf("%d pixels, want 100", n)
		}
		t.Logf("%T: at most %.2f off", c.src, most)
	}
}

// lines returns the lines of a file that are no remarks.
func lines(t *testing.T, name string) (out []string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for in := bufio.NewScanner(f); in.Scan(); {
		if !strings.HasPrefix(in.Text(), "#") {
			out = append(out, in.Text())
		}
	}
	return out
}

// A grating of f cycles a pixel, shrunk to a third: a mean over three pixels
// leaves |sin(3 pi f) / (3 sin(pi f))| of its swing (the kernel of Dirichlet),
// at most a third near the finest grating there is; picking single pixels
// would leave all of it, as a false coarse pattern. The mean stays.
func TestFineGratingLeavesNoPattern(t *testing.T) {
	const mean, swing = 128.0, 90.0
	for _, f := range []float64{1 / 2.1, 0.45, 0.4, 1.0 / 3} {
		img := image.NewRGBA(image.Rect(0, 0, 600, 90))
		for y := range 90 {
			for x := range 600 {
				v := uint8(math.Round(mean + swing*math.Cos(2*math.Pi*f*(float64(x)+0.5))))
				img.SetRGBA(x, y, color.RGBA{v, v, v, 255})
			}
		}
		left := math.Abs(math.Sin(3*math.Pi*f) / (3 * math.Sin(math.Pi*f)))
		// In step with the pixels, and half a pixel off.
		for _, off := range []float64{0, 0.5} {
			v := View{Corners: [4]geom.Point{{X: 30 + off, Y: 75}, {X: 570 + off, Y: 75}, {X: 570 + off, Y: 15}, {X: 30 + off, Y: 15}}}
			s, err := Square(context.Background(), img, v, 540, 60, 1.0/3)
			if err != nil {
				t.Fatal(err)
			}
			var sum, most float64
			for i := range 180 {
				p := float64(s.Pix.RGBAAt(i, 10).G)
				sum += p / 180
				most = math.Max(most, math.Abs(p-mean))
			}
			// Rounding: half a value in the picture, half in the result.
			if most > left*swing+1 {
				t.Errorf("%.3f cycles, %.1f off: a pattern of %.1f is left, a mean over three leaves %.1f", f, off, most, left*swing)
			}
			// Over 180 pixels a pattern of at most a third of the swing has
			// a mean under 1.
			if math.Abs(sum-mean) > 1 {
				t.Errorf("%.3f cycles, %.1f off: the mean is %.2f, want %g", f, off, sum, mean)
			}
		}
	}
}
