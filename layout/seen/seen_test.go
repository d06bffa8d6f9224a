package seen

import (
	"image"
	"image/color"
	"math"
	"testing"

	"heartside/layout/colour"
)

func filled(w, h int, c color.RGBA) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func TestGreyKeepsLightness(t *testing.T) {
	for _, c := range []color.RGBA{{120, 80, 60, 255}, {220, 190, 140, 255}, {0, 0, 0, 255}, {255, 255, 255, 255}, {10, 200, 30, 255}} {
		g := Grey(filled(2, 2, c)).RGBAAt(1, 1)
		if g.R != g.G || g.G != g.B || g.A != 255 {
			t.Fatalf("%v gives %v, no grey", c, g)
		}
		// CIE 15: L* is a function of luminance alone. 8-bit greys are half a step coarse.
		if a, b := colour.FromRGBA(c).L, colour.FromRGBA(g).L; math.Abs(a-b) > 0.5 {
			t.Errorf("%v: lightness %.2f becomes %.2f", c, a, b)
		}
	}
	if Grey(filled(1, 1, color.RGBA{})).RGBAAt(0, 0) != (color.RGBA{}) {
		t.Error("nothing becomes something")
	}
}

func TestMirrored(t *testing.T) {
	src := filled(5, 2, color.RGBA{9, 9, 9, 255})
	src.SetRGBA(0, 1, color.RGBA{200, 1, 2, 255})
	m := Mirrored(src)
	if m.RGBAAt(4, 1) != (color.RGBA{200, 1, 2, 255}) || m.RGBAAt(0, 1).R != 9 {
		t.Error("left is not right")
	}
	// A part of a picture keeps to its part.
	part := src.SubImage(image.Rect(0, 1, 2, 2)).(*image.RGBA)
	if p := Mirrored(part); p.Rect.Dx() != 2 || p.RGBAAt(1, 0).R != 200 {
		t.Error("a part of a picture is read elsewhere")
	}
}

// The blur of a step is the normal distribution function of the distance over
// sigma; of an even picture, the picture.
func TestBlurredStep(t *testing.T) {
	const w, h, sigma = 101, 9, 6.0
	src := filled(w, h, color.RGBA{0, 0, 0, 255})
	for y := range h {
		for x := w / 2; x < w; x++ {
			src.SetRGBA(x, y, color.RGBA{255, 255, 255, 255})
		}
	}
	b := Blurred(src, sigma)
	for x := 25; x < 76; x++ {
		d := float64(x) + 0.5 - float64(w/2) // from the step to the pixel's middle
		want := 0.5 * (1 + math.Erf(d/sigma/math.Sqrt2))
		if got := colour.Light(b.RGBAAt(x, 4).G); math.Abs(got-want) > 0.015 {
			t.Errorf("%.1f pixels past the step: light %.3f, want %.3f", d, got, want)
		}
	}
	even := Blurred(filled(20, 20, color.RGBA{90, 60, 30, 255}), 4)
	for _, p := range []image.Point{{0, 0}, {19, 3}, {10, 10}} {
		if c := even.RGBAAt(p.X, p.Y); c != (color.RGBA{90, 60, 30, 255}) {
			t.Errorf("an even picture is %v at %v", c, p)
		}
	}
	if Blurred(src, 0).RGBAAt(50, 4) != src.RGBAAt(50, 4) {
		t.Error("no blur changes the picture")
	}
	if !Blurred(image.NewRGBA(image.Rectangle{}), 3).Rect.Empty() {
		t.Error("an empty picture has pixels")
	}
}

// A top of 900 x 450 mm and an eye 350 before its front edge, 460 over it. The
// gaze is (0, 575, -460)/736.36. Along it the front corners lie
// 350 (0.78087) + 460 (0.62470) = 560.67 away and the back ones
// 800 (0.78087) + 460 (0.62470) = 912.06: by hand, edges as 1.6267 to 1.
func TestSeatedByHand(t *testing.T) {
	to, err := project(900, 450, Seated(900))
	if err != nil {
		t.Fatal(err)
	}
	near, far := to[1].X-to[0].X, to[2].X-to[3].X
	if math.Abs(near-900/560.67) > 1e-4 || math.Abs(near/far-1.6267) > 1e-4 {
		t.Errorf("edges %.5f and %.5f, by hand %.5f and 1.6267 to 1", near, far, 900/560.67)
	}
	if to[0].Y >= to[3].Y || math.Abs(to[0].X+to[1].X) > 1e-12 {
		t.Errorf("corners %v: the back edge is not above the front one, or they do not lie even", to)
	}
}

// From far above nothing is foreshortened; the middle stays in the middle, and
// the back edge at the top.
func TestFromAbove(t *testing.T) {
	src := filled(300, 100, color.RGBA{50, 50, 50, 255})
	for y := range 10 {
		for x := range 300 {
			src.SetRGBA(x, y, color.RGBA{250, 0, 0, 255}) // along the back edge
		}
	}
	out, err := From(src, 900, 300, Eye{Along: 450, Across: 150, Out: 1e6}, 600, 300)
	if err != nil {
		t.Fatal(err)
	}
	// 600 x 200 pixels in the middle of 600 x 300.
	for _, c := range []struct {
		x, y int
		want color.RGBA
	}{{300, 40, color.RGBA{}}, {300, 60, color.RGBA{250, 0, 0, 255}}, {5, 60, color.RGBA{250, 0, 0, 255}}, {300, 150, color.RGBA{50, 50, 50, 255}}, {595, 245, color.RGBA{50, 50, 50, 255}}, {300, 255, color.RGBA{}}} {
		if got := out.RGBAAt(c.x, c.y); got != c.want {
			t.Errorf("at %d, %d: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

// An upright panel of 2000 x 400 mm seen from 1500 before it, at half its
// height, 700 to the side of its front edge: the gaze is level, so its long
// edges stay upright; by hand, the gaze is (0, 900, -1500)/1749.3, the front
// edge lies 700 (0.51450) + 1500 (0.85749) = 1646.4 along it, the back one
// 1100 (0.51450) + 1500 (0.85749) = 1852.2, and they are seen as long as 2000
// over that.
func TestStandingByHand(t *testing.T) {
	to, err := project(2000, 400, Eye{Along: 1000, Across: -700, Out: 1500, Upright: true})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(to[0].X-to[1].X) > 1e-12 || math.Abs(to[2].X-to[3].X) > 1e-12 {
		t.Errorf("long edges lean: %v", to)
	}
	if near, far := to[0].Dist(to[1]), to[2].Dist(to[3]); math.Abs(near-2000/1646.4) > 1e-4 || math.Abs(far-2000/1852.2) > 1e-4 {
		t.Errorf("edges %.5f and %.5f, by hand %.5f and %.5f", near, far, 2000/1646.4, 2000/1852.2)
	}
	// The left end is up, the back edge to the right.
	if to[0].Y <= to[1].Y || to[3].X <= to[0].X {
		t.Errorf("it stands the wrong way: %v", to)
	}
}

// The whole of a standing panel is in the picture, higher than wide, its left
// end at the top.
func TestStanding(t *testing.T) {
	src := filled(200, 40, color.RGBA{255, 255, 255, 255})
	for y := range 40 {
		for x := range 20 {
			src.SetRGBA(x, y, color.RGBA{255, 0, 0, 255}) // the left end
		}
	}
	out, err := From(src, 2000, 400, Standing(2000), 300, 200)
	if err != nil {
		t.Fatal(err)
	}
	n, red, top, bottom := 0, 0, 200, 0
	for y := range 200 {
		for x := range 300 {
			switch c := out.RGBAAt(x, y); {
			case c.A < 255:
			case c.G == 0:
				red++
				top, bottom = min(top, y), max(bottom, y)
			default:
				n++
			}
		}
	}
	if n < 2000 || red < 100 || bottom > 60 || top > 20 {
		t.Errorf("%d pixels show the panel, %d its left end, from row %d to %d", n, red, top, bottom)
	}
}

func TestFromNowhere(t *testing.T) {
	src := filled(4, 4, color.RGBA{A: 255})
	for _, e := range []Eye{{}, {Out: -5}, {Along: 5, Across: 5, Out: 0.001}} {
		if _, err := From(src, 10, 10, e, 10, 10); err == nil {
			t.Errorf("the panel is seen from %v", e)
		}
	}
	if _, err := From(src, 0, 10, Eye{Out: 10}, 10, 10); err == nil {
		t.Error("a panel without length is seen")
	}
}

func BenchmarkBlurred(b *testing.B) {
	src := filled(1000, 400, color.RGBA{90, 60, 30, 255})
	for b.Loop() {
		Blurred(src, 8)
	}
}

func BenchmarkFrom(b *testing.B) {
	src := filled(1000, 400, color.RGBA{90, 60, 30, 255})
	for b.Loop() {
		if _, err := From(src, 1000, 400, Seated(1000), 800, 500); err != nil {
			b.Fatal(err)
		}
	}
}
