package rings

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
)

// draw makes an end with exact rings every 3 mm about a pith, noise on them,
// and sapwood beyond a heart radius, 0 for none.
func draw(width, thickness float64, pith geom.Point, heart, contrast float64) *End {
	const perMM = 4
	e := &End{Width: width, Thickness: thickness, Step: 1.0 / perMM, NX: int(width * perMM), NY: int(thickness * perMM)}
	rng := rand.New(rand.NewPCG(3, 4))
	for j := range e.NY {
		for i := range e.NX {
			r := e.place(i, j).Dist(pith)
			c := colour.Lab{L: 45 + contrast*math.Sin(2*math.Pi*r/3) + 3*rng.NormFloat64(), A: 10, B: 20}
			if heart > 0 && r > heart {
				c.L += 18
			}
			e.Lab = append(e.Lab, c)
		}
	}
	return e
}

func TestFindDrawnPith(t *testing.T) {
	for _, c := range []struct {
		pith geom.Point
		off  float64
	}{
		{geom.Pt(70, 15), 3}, {geom.Pt(20, 80), 3}, {geom.Pt(150, -40), 3},
		// Beside the section all rings run much one way, as a saw's marks do.
		{geom.Pt(-20, 12), 6},
	} {
		p, err := Find(t.Context(), draw(140, 30, c.pith, 0, 3), Clicks{})
		if err != nil || !p.Found || p.At.Dist(c.pith) > c.off {
			t.Errorf("pith %v: %+v, %v", c.pith, p, err)
		}
	}
}

func TestMarksOfASawAreNoRings(t *testing.T) {
	pith := geom.Pt(40, 70)
	e := draw(140, 30, pith, 0, 3)
	for j := range e.NY {
		for i := range e.NX {
			e.Lab[j*e.NX+i].L += 5 * math.Sin(2*math.Pi*float64(j)/8)
		}
	}
	p, err := Find(t.Context(), e, Clicks{})
	if err != nil || p.At.Dist(pith) > 8 {
		t.Errorf("%+v, %v", p, err)
	}
}

func TestNoRingsNoPith(t *testing.T) {
	for name, e := range map[string]*End{"noise": draw(140, 30, geom.Pt(70, 15), 0, 0), "blank": {Width: 100, Thickness: 30, Step: 0.25, NX: 400, NY: 120, Lab: make([]colour.Lab, 400*120)}} {
		p, err := Find(t.Context(), e, Clicks{})
		if err != nil || p.Found || p.Why == "" {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
		h, err := FindHeart(t.Context(), e, geom.Pt(70, 60))
		if err != nil || h.Seen || h.Why == "" {
			t.Errorf("%s: %+v, %v", name, h, err)
		}
	}
}

// A short arc of three clicks is far off by itself; the picture mends it.
func TestPictureHelpsClicks(t *testing.T) {
	pith := geom.Pt(30, 90)
	at := func(r, degrees float64) geom.Point {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return pith.Add(geom.Pt(cos, sin).Mul(r))
	}
	// The middle click is 1 mm out.
	c := Clicks{Rings: []Ring{{at(75, 262), at(76, 270), at(75, 278)}}}
	three, err := FromClicks(c)
	if err != nil {
		t.Fatal(err)
	}
	// By hand: half the chord 75 sin 8 = 10.44, sagitta 75 (1 - cos 8) + 1 =
	// 1.730, so R = (10.44^2 + 1.730^2) / (2 1.730) = 32.4: the middle lies
	// 76 - 32.4 = 43.6 from the pith.
	if d := three.At.Dist(pith); math.Abs(d-43.6) > 0.3 {
		t.Errorf("three clicks are %.1f off", d)
	}
	both, err := Find(t.Context(), draw(140, 30, pith, 0, 3), c)
	if err != nil || !both.Found || both.At.Dist(pith) > 5 {
		t.Errorf("%+v, %v", both, err)
	}
}

func TestFindDrawnHeart(t *testing.T) {
	for _, pith := range []geom.Point{{X: 20, Y: 60}, {X: 70, Y: 15}} {
		h, err := FindHeart(t.Context(), draw(140, 30, pith, 55, 3), pith)
		if err != nil || !h.Seen || math.Abs(h.Radius-55) > 1.5 || h.Least < 52 || h.Most > 58 {
			t.Errorf("pith %v: %+v, %v", pith, h, err)
		}
	}
	h, err := HeartFromClicks(geom.Pt(0, 0), []geom.Point{{X: 30, Y: 40}, {X: 60}, {Y: 40}})
	if err != nil || math.Abs(h.Radius-50) > 1e-12 || h.Least != 40 || h.Most != 60 {
		t.Errorf("%+v, %v", h, err)
	}
	if _, err := HeartFromClicks(geom.Pt(0, 0), nil); err == nil {
		t.Error("no clicks make a radius")
	}
}

// The section lies in the picture with the other edge at the left, as the
// marked end is seen with face 1 up, and the other way round from behind. A
// red spot near the marked edge on face 1 must come out there.
func TestSquareEitherEnd(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 220, 80))
	for j := range 80 {
		for i := range 220 {
			img.SetRGBA(i, j, color.RGBA{120, 120, 120, 255})
		}
	}
	ul, ur, lr, ll := geom.Pt(10, 10), geom.Pt(210, 10), geom.Pt(210, 70), geom.Pt(10, 70)
	for _, c := range []struct {
		corners [4]geom.Point
		x       int
	}{{[4]geom.Point{ul, ur, lr, ll}, 200}, {[4]geom.Point{ur, ul, ll, lr}, 20}} {
		spot := *img
		spot.Pix = append([]uint8(nil), img.Pix...)
		for j := 15; j < 25; j++ {
			for i := c.x - 5; i < c.x+5; i++ {
				spot.SetRGBA(i, j, color.RGBA{220, 0, 0, 255})
			}
		}
		e, err := Square(t.Context(), &spot, c.corners, 0, 100, 30, 2)
		if err != nil {
			t.Fatal(err)
		}
		// 10 px of 200 for 100 mm: across 5, depth 5.
		if got := e.Lab[10*e.NX+10]; got.A < 40 {
			t.Errorf("spot at pixel %d is not at the marked edge: %v", c.x, got)
		}
		if got := e.Lab[10*e.NX+e.NX-10]; got.A > 5 {
			t.Errorf("spot at pixel %d is at the other edge: %v", c.x, got)
		}
	}
	if _, err := Square(t.Context(), img, [4]geom.Point{ul, lr, ur, ll}, 0, 100, 30, 2); err == nil || !strings.Contains(err.Error(), "end") {
		t.Errorf("crossed corners: %v", err)
	}
}

func TestStopsWhenAsked(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	e := draw(60, 20, geom.Pt(30, 10), 20, 3)
	if _, err := Find(ctx, e, Clicks{}); err == nil {
		t.Error("Find goes on")
	}
	if _, err := FindHeart(ctx, e, geom.Pt(30, 10)); err == nil {
		t.Error("FindHeart goes on")
	}
	if _, err := Find(t.Context(), &End{}, Clicks{}); err == nil {
		t.Error("an empty end is read")
	}
}

func BenchmarkFind(b *testing.B) {
	e := draw(200, 30, geom.Pt(60, 80), 0, 3)
	for b.Loop() {
		if _, err := Find(context.Background(), e, Clicks{}); err != nil {
			b.Fatal(err)
		}
	}
}
