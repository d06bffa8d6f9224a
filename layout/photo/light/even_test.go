package light

import (
	"context"
	"errors"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// board is a made face: two woods of known colour with grain, in known light.
type board struct {
	length, width, perMM float64
	heart, sap           colour.Lab
	border               func(x float64) float64 // y of it, sap below
	light                func(x, y float64) float64
	grain                float64 // standard deviation of the logarithm
	dull                 float64 // slow change of the wood along the grain, likewise
}

func walnut() board {
	return board{
		length: 900, width: 200, perMM: 1, grain: 0.08,
		heart: colour.Lab{L: 40, A: 9, B: 16}, sap: colour.Lab{L: 62, A: 5, B: 19},
		border: func(x float64) float64 { return 45 + 12*math.Sin(x/140) },
		light:  func(_, _ float64) float64 { return 1 },
	}
}

// draw returns the face lit and unlit, of the same mean luminance, and its mask.
func (b board) draw(seed uint64) (lit, unlit *photo.Squared, m *photo.Mask) {
	r := rand.New(rand.NewPCG(seed, 5))
	m = photo.NewMask(b.length, b.width, b.perMM)
	lines := make([]float64, m.H) // grain runs along
	for j := range lines {
		lines[j] = b.grain * r.NormFloat64()
	}
	wave := 7 * r.Float64()
	img := func() *photo.Squared {
		return &photo.Squared{Pix: image.NewRGBA(image.Rect(0, 0, m.W, m.H)), PxPerMM: b.perMM, Length: b.length, Width: b.width}
	}
	lit, unlit = img(), img()
	heart, sap := b.heart.Linear(), b.sap.Linear()
	px := make([]colour.Linear, len(m.Pix))
	var with, without float64
	for k := range px {
		x, y := (float64(k%m.W)+0.5)/b.perMM, b.width-(float64(k/m.W)+0.5)/b.perMM
		c := heart
		m.Pix[k] = photo.Heart
		if y < b.border(x) {
			c, m.Pix[k] = sap, photo.Sap
		}
		e := math.Exp(lines[k/m.W] + b.grain/2*r.NormFloat64() + b.dull*math.Sin(x/90+y/25+wave))
		px[k] = colour.Linear{R: c.R * e, G: c.G * e, B: c.B * e}
		without += luminance(px[k])
		with += luminance(px[k]) * b.light(x, y)
	}
	for k, c := range px {
		x, y := (float64(k%m.W)+0.5)/b.perMM, b.width-(float64(k/m.W)+0.5)/b.perMM
		put := func(s *photo.Squared, f float64) {
			o := s.Pix.Pix[4*k:]
			o[0], o[1], o[2] = colour.Linear{R: c.R * f, G: c.G * f, B: c.B * f}.SRGB()
			o[3] = 255
		}
		put(unlit, 1)
		put(lit, b.light(x, y)*without/with)
	}
	return lit, unlit, m
}

func smoothStep(v float64) float64 {
	v = math.Min(math.Max(v, 0), 1)
	return v * v * (3 - 2*v)
}

// The truth is the drawing without light: after evening the means of both
// woods lie within CIEDE2000 of 1 of it, and so does their difference.
func TestEvenFindsTheUnlitColours(t *testing.T) {
	cases := []struct {
		name  string
		light func(x, y float64) float64
		share float64 // of what was uneven that may be left
	}{
		{"gradient along", func(x, _ float64) float64 { return 0.75 + 0.5*x/900 }, 0.25},
		{"gradient along and across", func(x, y float64) float64 { return (0.8 + 0.4*x/900) * (1.1 - 0.2*y/200) }, 0.3},
		{"bright in the middle", func(x, _ float64) float64 { return 1.2 - 0.5*math.Pow((x-450)/450, 2) }, 0.25},
		{"soft shadow", func(x, _ float64) float64 { return 1 - 0.5*smoothStep((x-500)/150) }, 0.25},
		{"hard shadow across", func(x, _ float64) float64 {
			if x > 320 && x < 480 {
				return 0.5
			}
			return 1
		}, 0.3},
		{"oblique hard shadow", func(x, y float64) float64 {
			if x+y > 500 && x+y < 700 {
				return 0.6
			}
			return 1
		}, 0.6},
	}
	ctx := context.Background()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := walnut()
			b.light, b.dull = c.light, 0.02
			lit, unlit, m := b.draw(11)
			even, f, err := Even(ctx, lit, m)
			if err != nil {
				t.Fatal(err)
			}
			was, err1 := ZoneColours(ctx, lit, m)
			want, err2 := ZoneColours(ctx, unlit, m)
			got, err3 := ZoneColours(ctx, even, m)
			if err := errors.Join(err1, err2, err3); err != nil {
				t.Fatal(err)
			}
			t.Logf("ratio %.2f before %.3f left %.3f step %.3f tint %.2f", f.Ratio, f.Before, f.Left, f.Step, f.Tint)
			for _, l := range []photo.Label{photo.Heart, photo.Sap} {
				t.Logf("%d: was %.2f, is %.2f, truth %.2f; sd %.2f %.2f %.2f", l, was[l].Mean, got[l].Mean, want[l].Mean, was[l].Spread.L, got[l].Spread.L, want[l].Spread.L)
				if d := colour.DeltaE(got[l].Mean, want[l].Mean); d > 1 {
					t.Errorf("zone %d is off by %.2f", l, d)
				}
			}
			a, z := colour.DeltaE(got[1].Mean, got[2].Mean), colour.DeltaE(want[1].Mean, want[2].Mean)
			if math.Abs(a-z) > 1 {
				t.Errorf("heart and sap differ by %.2f, in truth by %.2f", a, z)
			}
			if f.Left > c.share*f.Before {
				t.Errorf("%.3f of %.3f is left", f.Left, f.Before)
			}
			// The true ratio of most to least light over the face.
			lo, hi := math.Inf(1), 0.0
			for x := 5.0; x < 900; x += 5 {
				for y := 5.0; y < 200; y += 5 {
					lo, hi = math.Min(lo, c.light(x, y)), math.Max(hi, c.light(x, y))
				}
			}
			if r := f.Ratio / (hi / lo); r < 0.85 || r > 1.18 {
				t.Errorf("the light's ratio is %.2f, want %.2f", f.Ratio, hi/lo)
			}
			if y0, y1 := meanLuminance(lit), meanLuminance(even); math.Abs(y1/y0-1) > 0.01 {
				t.Errorf("mean luminance went from %.4f to %.4f", y0, y1)
			}
		})
	}
}

func meanLuminance(s *photo.Squared) float64 {
	var sum float64
	for k := 0; k < len(s.Pix.Pix); k += 4 {
		sum += luminance(colour.FromSRGB(s.Pix.Pix[k], s.Pix.Pix[k+1], s.Pix.Pix[k+2]))
	}
	return sum / float64(len(s.Pix.Pix)/4)
}

// Under even light nothing is to do: the woods stay as they are.
func TestEvenLeavesEvenLight(t *testing.T) {
	ctx := context.Background()
	for seed := range uint64(4) {
		b := walnut()
		b.dull = 0.03
		lit, _, m := b.draw(seed)
		even, _, err := Even(ctx, lit, m)
		if err != nil {
			t.Fatal(err)
		}
		was, _ := ZoneColours(ctx, lit, m)
		got, _ := ZoneColours(ctx, even, m)
		for _, l := range []photo.Label{photo.Heart, photo.Sap} {
			if d := colour.DeltaE(got[l].Mean, was[l].Mean); d > 1 {
				t.Errorf("seed %d: zone %d moved by %.2f", seed, l, d)
			}
		}
	}
}

// Without a mask a slow change along the face goes and a border stays.
func TestEvenWithoutMask(t *testing.T) {
	ctx := context.Background()
	b := walnut()
	b.light = func(x, _ float64) float64 { return 0.75 + 0.5*x/900 }
	lit, unlit, m := b.draw(2)
	even, f, err := Even(ctx, lit, nil)
	if err != nil {
		t.Fatal(err)
	}
	want, _ := ZoneColours(ctx, unlit, m)
	got, _ := ZoneColours(ctx, even, m)
	for _, l := range []photo.Label{photo.Heart, photo.Sap} {
		if d := colour.DeltaE(got[l].Mean, want[l].Mean); d > 1 {
			t.Errorf("zone %d is off by %.2f", l, d)
		}
	}
	if math.Abs(f.Ratio-1.25/0.75) > 0.1 {
		t.Errorf("ratio %.3f, want 1.667", f.Ratio)
	}
}

// Nothing burns out: what was not 255 is not 255 after.
func TestEvenNeverBurnsOut(t *testing.T) {
	b := walnut()
	b.sap, b.grain = colour.Lab{L: 93, A: 0, B: 8}, 0.02
	b.light = func(x, _ float64) float64 { return 0.35 + 0.9*x/900 }
	lit, _, m := b.draw(3)
	even, f, err := Even(context.Background(), lit, m)
	if err != nil {
		t.Fatal(err)
	}
	for k, v := range even.Pix.Pix {
		if k%4 < 3 && v == 255 && max(lit.Pix.Pix[k-k%4], lit.Pix.Pix[k-k%4+1], lit.Pix.Pix[k-k%4+2]) < 254 {
			t.Fatalf("pixel %d burnt out", k/4)
		}
	}
	if f.Held == 0 {
		t.Error("no pixel was near burning out: the case tests nothing")
	}
}

func TestEvenRefusesAndStops(t *testing.T) {
	ctx := context.Background()
	lit, _, m := walnut().draw(1)
	short := photo.NewMask(100, 100, 1)
	torn := *m
	torn.Pix = torn.Pix[1:]
	for i, c := range []struct {
		s *photo.Squared
		m *photo.Mask
	}{{nil, m}, {&photo.Squared{}, m}, {lit, short}, {lit, &torn}} {
		if _, _, err := Even(ctx, c.s, c.m); err == nil {
			t.Errorf("case %d passed", i)
		}
	}
	if _, err := ZoneColours(ctx, lit, nil); err == nil {
		t.Error("colours without a mask")
	}
	gone, stop := context.WithCancel(ctx)
	stop()
	if _, _, err := Even(gone, lit, m); !errors.Is(err, context.Canceled) {
		t.Errorf("after cancelling: %v", err)
	}
	// A face with no wood in the mask comes back as it is, to a rounding.
	even, f, err := Even(ctx, lit, photo.NewMask(900, 200, 1))
	if err != nil || f.Ratio != 1 {
		t.Fatal(f.Ratio, err)
	}
	for k, v := range even.Pix.Pix {
		if d := int(v) - int(lit.Pix.Pix[k]); d < -1 || d > 1 {
			t.Fatalf("byte %d went from %d to %d", k, lit.Pix.Pix[k], v)
		}
	}
}

func BenchmarkEven(b *testing.B) {
	face := walnut()
	face.length, face.width = 2400, 300
	face.light = func(x, _ float64) float64 { return 0.75 + 0.5*x/2400 }
	lit, _, m := face.draw(1)
	b.ResetTimer()
	for b.Loop() {
		if _, _, err := Even(context.Background(), lit, m); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkZoneColours(b *testing.B) {
	face := walnut()
	face.length, face.width = 2400, 300
	lit, _, m := face.draw(1)
	b.ResetTimer()
	for b.Loop() {
		if _, err := ZoneColours(context.Background(), lit, m); err != nil {
			b.Fatal(err)
		}
	}
}
