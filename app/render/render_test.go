package render

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

var ink = color.NRGBA{A: 255}

func faces(t testing.TB) *Faces {
	t.Helper()
	f, err := LoadFaces()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// black is how many pixels' worth of black lies on a white picture.
func black(img *image.RGBA) float64 {
	var sum float64
	for i := 0; i < len(img.Pix); i += 4 {
		sum += float64(255-int(img.Pix[i])) / 255
	}
	return sum
}

func white(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	return img
}

// Areas of drawn shapes against closed forms.
func TestRasterCoversTheAreaOfShapes(t *testing.T) {
	f := faces(t)
	square := func(a, b float64) geom.Polygon { return geom.R(a, a, b, b).Polygon() }
	cases := []struct {
		name string
		draw func(c Canvas)
		want float64 // in units, at 2 pixels a unit
		tol  float64
	}{
		{"rectangle off the pixels", func(c Canvas) { c.Fill(Box(geom.R(3.3, 4.2, 17.9, 11.6)), ink) }, 14.6 * 7.4, 0.2},
		{"triangle", func(c Canvas) { c.Fill(Ring(geom.Polygon{{X: 2, Y: 2}, {X: 40, Y: 7}, {X: 9, Y: 33}}), ink) }, 0.5 * (38*31 - 7*5), 0.5},
		{"hole is left out", func(c Canvas) { c.Fill(Rings(square(5, 45), square(15, 25)), ink) }, 1600 - 100, 0.3},
		{"self crossing is even-odd", func(c Canvas) {
			c.Fill(Ring(geom.Polygon{{X: 5, Y: 5}, {X: 25, Y: 5}, {X: 5, Y: 25}, {X: 25, Y: 25}}), ink)
		}, 200, 0.5},
		{"far outside is cut", func(c Canvas) { c.Fill(Box(geom.R(-1e6, 10, 1e6, 20)), ink) }, 50 * 10, 0.1},
		{"line", func(c Canvas) { c.Stroke(Segment(geom.Pt(10, 10), geom.Pt(40, 30)), Pen{Width: 2, Color: ink}) }, 2 * math.Hypot(30, 20), 0.5},
		{"closed frame with square corners", func(c Canvas) { c.Stroke(Box(geom.R(10, 10, 40, 30)), Pen{Width: 4, Color: ink}) }, 34*24 - 26*16, 0.3},
		{"round line", func(c Canvas) {
			c.Stroke(Segment(geom.Pt(10, 25), geom.Pt(40, 25)), Pen{Width: 6, Color: ink, Round: true})
		}, 30*6 + math.Pi*9, 0.6},
		{"dashes", func(c Canvas) {
			c.Stroke(Segment(geom.Pt(5, 25), geom.Pt(45, 25)), Pen{Width: 2, Color: ink, Dash: []float64{4, 2}})
		}, 2 * (6*4 + 4), 0.3}, // 40 = 6 x (4+2) + 4
		{"hatch", func(c Canvas) {
			c.Hatch(Box(geom.R(10, 10, 40, 40)), Hatch{Spacing: 5, Pen: Pen{Width: 1, Color: ink}, Origin: geom.Pt(0, 12.5)})
		}, 6 * 30, 0.3}, // lines at 12.5, 17.5 ... 37.5
		{"hatch aslant", func(c Canvas) {
			c.Hatch(Box(geom.R(5, 5, 45, 45)), Hatch{Angle: 45, Spacing: 2, Pen: Pen{Width: 0.5, Color: ink}})
		}, 1600 * 0.25, 12},
		{"crossed hatch", func(c Canvas) {
			c.Hatch(Box(geom.R(10, 10, 40, 40)), Hatch{Spacing: 5, Cross: true, Pen: Pen{Width: 1, Color: ink}, Origin: geom.Pt(12.5, 12.5)})
		}, 2*6*30 - 36, 0.5},
		{"clip to a triangle", func(c Canvas) {
			c.Push(Ring(geom.Polygon{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 0, Y: 50}}))
			c.Fill(Box(geom.R(0, 0, 50, 50)), ink)
			c.Pop()
		}, 1250, 1},
		{"clip in a clip", func(c Canvas) {
			c.Push(Box(geom.R(10, 10, 30, 30)))
			c.Push(Ring(geom.Polygon{{X: 10, Y: 10}, {X: 30, Y: 10}, {X: 10, Y: 30}}))
			c.Push(Box(geom.R(10, 10, 20, 50)))
			c.Fill(Box(geom.R(0, 0, 50, 50)), ink)
			c.Pop()
			c.Pop()
			c.Pop()
		}, 200 - 50, 0.5},
		{"clip to nothing", func(c Canvas) {
			c.Push(nil)
			c.Fill(Box(geom.R(0, 0, 50, 50)), ink)
			c.Pop()
		}, 0, 0},
		{"after the clip all is open", func(c Canvas) {
			c.Push(Box(geom.R(0, 0, 1, 1)))
			c.Pop()
			c.Pop()
			c.Fill(Box(geom.R(0, 0, 50, 50)), ink)
		}, 2500, 0},
		{"half opaque", func(c Canvas) { c.Fill(Box(geom.R(10, 10, 20, 20)), color.NRGBA{A: 128}) }, 100 * 128.0 / 255, 0.2},
	}
	for _, c := range cases {
		img := white(100, 100)
		c.draw(NewRaster(img, 2, f))
		layouttest.Near(t, c.name, black(img)/4, c.want, c.tol)
	}
}

// The full stop of the regular face is a rectangle; its outline in the font
// is 219 to 430 wide and 0 to 254 high of 2048 units.
func TestTextLandsOnItsBaseline(t *testing.T) {
	f := faces(t)
	for _, st := range []Style{{Size: 40, Color: ink}, {Size: 40, Color: ink, Turn: 90}, {Size: 40, Color: ink, Turn: 30}} {
		img := white(100, 100)
		NewRaster(img, 1, f).Text(geom.Pt(50, 50), ".", st)
		layouttest.Near(t, "ink of a full stop", black(img), 211.0*254/2048/2048*1600, 1)
		var sx, sy, n float64
		for y := 0; y < 100; y++ {
			for x := 0; x < 100; x++ {
				k := float64(255-int(img.RGBAAt(x, y).R)) / 255
				sx, sy, n = sx+k*(float64(x)+0.5), sy+k*(float64(y)+0.5), n+k
			}
		}
		sin, cos := math.Sincos(st.Turn * math.Pi / 180)
		dx, dy := 324.5/2048*40, 127.0/2048*40
		layouttest.Near(t, "x of a full stop", sx/n, 50+dx*cos-dy*sin, 0.15)
		layouttest.Near(t, "y of a full stop", sy/n, 50-dx*sin-dy*cos, 0.15)
	}
}

// Advance widths of DejaVu Sans, of 2048: zero 1303, full stop 651, space 651.
func TestWidthAddsAdvances(t *testing.T) {
	f := faces(t)
	st := Style{Size: 2048}
	layouttest.Near(t, "width", f.Width("00. ", st), 1303*2+651*2, 1e-6)
	if n, w := f.Width("0", Style{Size: 10, Narrow: true}), f.Width("0", Style{Size: 10}); n >= w {
		t.Errorf("narrow figure %v is no narrower than %v", n, w)
	}
	if got := f.Fit("0000000000", st, 1303*4); got != "00…" && got != "000…" || f.Width(got, st) > 1303*4 {
		t.Errorf("fitted %q, %v wide", got, f.Width(got, st))
	}
	if got := f.Fit("00", st, 10); got != "" {
		t.Errorf("fitted %q where nothing fits", got)
	}
}

func TestPrintableReplacesWhatCannotBeWritten(t *testing.T) {
	f := faces(t)
	for in, want := range map[string]string{
		"7 3/8″ × ½ → ≤ ≥ ✓": "7 3/8″ × ½ → ≤ ≥ ✓",
		"a\tb\u202fc\x00":    "a b c",
		"\U0001F600":         "‹1F600›", // beyond the first plane
		"木A":                 "‹6728›A",
	} {
		if got := f.Printable(in, Style{}); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

// A picture of one red half and one blue half through a quarter turn.
func TestImageGoesThroughTheMap(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 20, 10))
	for y := 0; y < 10; y++ {
		for x := 0; x < 20; x++ {
			c := color.RGBA{R: 255, A: 255}
			if x >= 10 {
				c = color.RGBA{B: 255, A: 255}
			}
			src.SetRGBA(x, y, c)
		}
	}
	img := white(60, 60)
	// x of the picture runs up the canvas: (x, y) to (10 + y, 40 - x).
	m := geom.Affine{B: 1, C: 10, D: -1, F: 40}
	NewRaster(img, 1, faces(t)).Image(src, m, nil)
	for _, c := range []struct {
		x, y int
		want color.RGBA
	}{
		{12, 38, color.RGBA{R: 255, A: 255}}, {18, 32, color.RGBA{R: 255, A: 255}},
		{12, 28, color.RGBA{B: 255, A: 255}}, {18, 21, color.RGBA{B: 255, A: 255}},
		{9, 30, color.RGBA{255, 255, 255, 255}}, {20, 30, color.RGBA{255, 255, 255, 255}},
		{15, 40, color.RGBA{255, 255, 255, 255}}, {15, 19, color.RGBA{255, 255, 255, 255}},
	} {
		if got := img.RGBAAt(c.x, c.y); got != c.want {
			t.Errorf("pixel %d,%d is %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

// A linear ramp survives bilinear sampling exactly, at any scale.
func TestImageSamplesBilinearly(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 50, 50))
	for y := 0; y < 50; y++ {
		for x := 0; x < 50; x++ {
			src.SetRGBA(x, y, color.RGBA{uint8(4 * x), uint8(2*x + 2*y), uint8(5 * y), 255})
		}
	}
	img := white(100, 100)
	NewRaster(img, 1, faces(t)).Image(src, geom.Affine{A: 1.7, B: 0.3, C: 2, D: -0.2, E: 1.6, F: 15}, Box(geom.R(20, 30, 80, 70)))
	inv, _ := geom.Affine{A: 1.7, B: 0.3, C: 2, D: -0.2, E: 1.6, F: 15}.Inverse()
	for y := 31; y < 69; y++ {
		for x := 21; x < 79; x++ {
			p := inv.Apply(geom.Pt(float64(x)+0.5, float64(y)+0.5)).Sub(geom.Pt(0.5, 0.5))
			if p.X < 1 || p.Y < 1 || p.X > 48 || p.Y > 48 {
				continue
			}
			got := img.RGBAAt(x, y)
			if math.Abs(float64(got.R)-4*p.X) > 2 || math.Abs(float64(got.G)-2*p.X-2*p.Y) > 2 || math.Abs(float64(got.B)-5*p.Y) > 2 {
				t.Fatalf("pixel %d,%d is %v at %v", x, y, got, p)
			}
		}
	}
}

func TestRecorderReplaysTheSamePicture(t *testing.T) {
	f := faces(t)
	var rec Recorder
	drawing(&rec)
	a, b := white(200, 120), white(200, 120)
	drawing(NewRaster(a, 1, f))
	rec.Replay(NewRaster(b, 1, f))
	if !bytes.Equal(a.Pix, b.Pix) {
		t.Error("the replayed picture differs")
	}
	if s := rec.String(); !strings.Contains(s, "clip box 10,10 190,110\n  fill #c8a070 ") {
		t.Errorf("recorded:\n%s", s)
	}
}

// drawing makes every kind of call.
func drawing(c Canvas) {
	pic := image.NewRGBA(image.Rect(0, 0, 8, 4))
	for i := range pic.Pix {
		pic.Pix[i] = 255
	}
	c.Push(Box(geom.R(10, 10, 190, 110)))
	c.Fill(RoundBox(geom.R(0, 20, 150, 100), 8), color.NRGBA{200, 160, 112, 255})
	c.Image(pic, geom.Affine{A: 5, C: 60, E: 5, F: 50}, nil)
	c.Image(pic, geom.Affine{A: 2, C: 160, E: 5, F: 50}, Round(geom.Pt(165, 55), 5))
	c.Push(Round(geom.Pt(100, 60), 40))
	c.Hatch(Box(geom.R(20, 30, 180, 90)), Hatch{Angle: 30, Spacing: 4, Pen: Pen{Width: 0.6, Color: ink}})
	c.Pop()
	c.Hatch(Box(geom.R(20, 30, 60, 60)), Hatch{Spacing: 5, Dots: true, Pen: Pen{Width: 1.5, Color: color.NRGBA{R: 90, A: 200}}})
	c.Stroke(Polyline(geom.Pt(20, 100), geom.Pt(60, 60), geom.Pt(100, 100)), Pen{Width: 2, Color: ink, Dash: []float64{6, 3}})
	c.Text(geom.Pt(100, 60), "A 1 · 22 / 30 / 41 → ½″", Style{Size: 9, Bold: true, Color: ink, Align: Middle, Turn: 15})
	c.Pop()
	c.Text(geom.Pt(198, 118), "right", Style{Size: 8, Narrow: true, Color: ink, Align: Right})
}

// What is painted through a window is what is painted at once.
func TestClippingChangesNoPixelInside(t *testing.T) {
	f := faces(t)
	for n, p := range []Path{
		Round(geom.Pt(50.3, 50.7), 8.5), Box(geom.R(10.2, 20.3, 80.7, 60.6)),
		Ring(geom.Polygon{{X: 10, Y: 10}, {X: 90, Y: 30}, {X: 40, Y: 80}}),
	} {
		whole := white(100, 100)
		NewRaster(whole, 1, f).Fill(p, ink)
		for k := 0; k < 400; k++ {
			x0, y0 := k%20*5, k/20*5
			part := white(100, 100)
			r := NewRaster(part, 1, f)
			r.Push(Box(geom.R(float64(x0), float64(y0), float64(x0+33), float64(y0+29))))
			r.Fill(p, ink)
			for y := 0; y < 100; y++ {
				for x := 0; x < 100; x++ {
					want := uint8(255)
					if x >= x0 && x < x0+33 && y >= y0 && y < y0+29 {
						want = whole.RGBAAt(x, y).R
					}
					if d := int(part.RGBAAt(x, y).R) - int(want); d > 3 || d < -3 {
						t.Fatalf("shape %d, window at %d,%d: pixel %d,%d is off by %d", n, x0, y0, x, y, d)
					}
				}
			}
		}
	}
}
