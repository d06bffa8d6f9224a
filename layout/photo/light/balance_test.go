package light

import (
	"context"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// CIE 15: L of 18 % is 116 cbrt(0.18) - 16 = 49.496.
func TestGreyCardsLightness(t *testing.T) {
	if want := 116*math.Cbrt(0.18) - 16; math.Abs(want-GreyCard) > 0.01 {
		t.Errorf("GreyCard is %g, want %.3f", GreyCard, want)
	}
}

// scene is a picture of a card from (40, 30) to (80, 60), tinted and noisy, on
// some ground.
func scene(card, ground color.RGBA, noise float64) *image.RGBA {
	r := rand.New(rand.NewPCG(4, 4))
	img := image.NewRGBA(image.Rect(0, 0, 120, 90))
	for y := range 90 {
		for x := range 120 {
			c := ground
			if x >= 40 && x < 80 && y >= 30 && y < 60 {
				c = card
			}
			n := noise * r.NormFloat64()
			put := func(v uint8) uint8 { return uint8(math.Min(math.Max(float64(v)+n, 0), 255)) }
			img.SetRGBA(x, y, color.RGBA{put(c.R), put(c.G), put(c.B), 255})
		}
	}
	return img
}

var card = geom.Polygon{{X: 42, Y: 58}, {X: 78, Y: 58}, {X: 78, Y: 32}, {X: 42, Y: 32}}

// A grey card seen as sRGB (150, 120, 90). By hand, IEC 61966-2-1: light
// 0.30499, 0.18782, 0.10224; 18.4 % of white (L 50) over that: 0.604, 0.981,
// 1.802. CIE 15: Y of L 50 is (66/116)^3 = 0.18419.
func TestCardBalancesALamp(t *testing.T) {
	for _, noise := range []float64{0, 6} {
		b, err := Card(scene(color.RGBA{150, 120, 90, 255}, color.RGBA{30, 200, 90, 255}, noise), card, 50)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range [3][2]float64{{b.R, 0.604}, {b.G, 0.981}, {b.B, 1.802}} {
			if math.Abs(v[0]/v[1]-1) > 0.005+noise/300 {
				t.Errorf("noise %g: factor %d is %.4f, want %.3f", noise, i, v[0], v[1])
			}
		}
	}
	b, _ := Card(scene(color.RGBA{150, 120, 90, 255}, color.RGBA{30, 200, 90, 255}, 0), card, 50)
	// The card itself becomes grey of L 50; its tint alone mended, grey too.
	if c := b.Lab(colour.FromSRGB(150, 120, 90).Lab()); math.Abs(c.L-50) > 0.01 || math.Hypot(c.A, c.B) > 0.05 {
		t.Errorf("the card becomes %v", c)
	}
	in := colour.FromSRGB(150, 120, 90)
	out := b.Tint().Light(in)
	if c := out.Lab(); math.Hypot(c.A, c.B) > 0.05 {
		t.Errorf("without its tint the card is %v", c)
	}
	if math.Abs(luminance(out)-luminance(in)) > 1e-9 {
		t.Errorf("luminance went from %g to %g", luminance(in), luminance(out))
	}
	// On a squared face.
	s := &photo.Squared{Pix: scene(color.RGBA{150, 120, 90, 255}, color.RGBA{60, 60, 60, 255}, 0), PxPerMM: 1, Length: 120, Width: 90}
	even, err := b.Apply(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	// sRGB of L 50: 118.9 a channel.
	if c := even.Pix.RGBAAt(60, 45); c.R < 118 || c.R > 120 || c.G < 118 || c.G > 120 || c.B < 118 || c.B > 120 {
		t.Errorf("the card is %v, want 119 each", c)
	}
}

func TestCardRefuses(t *testing.T) {
	grey := color.RGBA{90, 90, 90, 255}
	for _, c := range []struct {
		name string
		img  image.Image
		ring geom.Polygon
		l    float64
		say  string
	}{
		{"burnt", scene(color.RGBA{255, 250, 230, 255}, grey, 0), card, 95, "burnt out"},
		{"dark", scene(color.RGBA{9, 8, 12, 255}, grey, 0), card, 50, "too dark"},
		{"off", scene(grey, grey, 0), geom.Polygon{{X: 500, Y: 500}, {X: 600, Y: 500}, {X: 600, Y: 600}}, 50, "covers 0 pixels"},
		{"none", nil, card, 50, "no picture"},
		{"lightness", scene(grey, grey, 0), card, math.NaN(), "cannot be"},
	} {
		if _, err := Card(c.img, c.ring, c.l); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%s: %v, want %q", c.name, err, c.say)
		}
	}
	// A tenth burnt is left out: the rest tells.
	img := scene(color.RGBA{180, 180, 180, 255}, grey, 0)
	for y := 32; y < 34; y++ {
		for x := 40; x < 80; x++ {
			img.SetRGBA(x, y, color.RGBA{255, 255, 255, 255})
		}
	}
	b, err := Card(img, card, 50)
	want := colour.Lab{L: 50}.XYZ().Y / colour.Light(180)
	if err != nil || math.Abs(b.G/want-1) > 1e-9 {
		t.Errorf("%v %v, want %g", b, err, want)
	}
	s := &photo.Squared{Pix: img, PxPerMM: 1, Length: 120, Width: 90}
	if _, err := (Balance{R: 1, G: 0, B: 1}).Apply(context.Background(), s); err == nil {
		t.Error("a factor of 0 was used")
	}
}

// One ground under CIE illuminants A, D50 and D65, whose white points (CIE 15:
// 1.0985 1 0.3558, 0.9642 1 0.8249, 0.9505 1 1.0890) are light (1.845, 0.826,
// 0.233), (1.176, 0.976, 0.722) and (1, 1, 1) by the matrix of IEC 61966-2-1:
// after balancing, red
// to green and blue to green are the same for all, and the middle lamp's.
func TestSharedGroundsAgree(t *testing.T) {
	lamps := []colour.Linear{{R: 0.4 * 1.845, G: 0.4 * 0.826, B: 0.4 * 0.233}, {R: 0.3 * 1.176, G: 0.3 * 0.976, B: 0.3 * 0.722}, {R: 0.5, G: 0.5, B: 0.5}}
	corners := [4]geom.Point{{X: 40, Y: 60}, {X: 80, Y: 60}, {X: 80, Y: 30}, {X: 40, Y: 30}}
	var refs []BackgroundSample
	var grounds []colour.Linear
	for _, l := range lamps {
		ground := colour.Linear{R: l.R, G: 0.9 * l.G, B: 0.8 * l.B}
		r, g, b := ground.SRGB()
		// Drawn large: the board covers the middle, with a colour of its own.
		img := image.NewRGBA(image.Rect(0, 0, 480, 360))
		src := scene(color.RGBA{120, 70, 30, 255}, color.RGBA{r, g, b, 255}, 0)
		for y := range 360 {
			for x := range 480 {
				img.SetRGBA(x, y, src.RGBAAt(x/4, y/4))
			}
		}
		large := corners
		for i := range large {
			large[i] = large[i].Mul(4)
		}
		s, err := Background(img, large)
		if err != nil {
			t.Fatal(err)
		}
		refs, grounds = append(refs, s), append(grounds, colour.FromSRGB(r, g, b))
	}
	bs, err := Shared(refs)
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range bs {
		c := b.Light(grounds[i])
		if math.Abs(c.R/c.G-grounds[1].R/grounds[1].G) > 1e-6 || math.Abs(c.B/c.G-grounds[1].B/grounds[1].G) > 1e-6 {
			t.Errorf("ground %d becomes %v", i, c)
		}
		if math.Abs(luminance(c)/luminance(grounds[i])-1) > 1e-6 {
			t.Errorf("ground %d changed luminance", i)
		}
	}
	// Grass is no lamp.
	odd := refs[0]
	odd.RG, odd.BG = -0.9, -1.1
	if _, err := Shared(append(refs[1:3:3], odd)); err == nil || !strings.Contains(err.Error(), "photograph 3") {
		t.Errorf("grass passed: %v", err)
	}
	if _, err := Shared([]BackgroundSample{{}}); err == nil {
		t.Error("no sample passed")
	}
	if _, err := Background(image.NewRGBA(image.Rect(0, 0, 50, 50)), corners); err == nil {
		t.Error("a picture without ground passed")
	}
}
