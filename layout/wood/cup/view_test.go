package cup

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

func TestRoundFactor(t *testing.T) {
	// An 8 % of 600 is 48 mm: 12.3 mm may be drawn 2 times (24.6), not 5 (61.5).
	for _, c := range [][3]float64{{12.3, 600, 2}, {0.4, 600, 100}, {4.5, 900, 10}, {100, 600, 1}, {0, 600, 1}, {1e-3, 600, 200}} {
		if got := RoundFactor(c[0], c[1]); got != c[2] {
			t.Errorf("%g mm on %g: %g times, want %g", c[0], c[1], got, c[2])
		}
	}
}

// Not bent, the outline is the rectangle and the rings are circles about the
// pith, within the strip.
func TestFlatView(t *testing.T) {
	p := panel(t, row(2, 100, 20, 60, Strains{}, true, false))
	v, err := p.End(&p.Glued, 0)
	if err != nil {
		t.Fatal(err)
	}
	if v.Factor != 1 || len(v.Strips) != 2 {
		t.Fatalf("drawn %g times, %d strips", v.Factor, len(v.Strips))
	}
	pith := []geom.Point{{X: 50, Y: -40}, {X: 150, Y: 60}}
	for i, s := range v.Strips {
		b := s.Outline.Bounds()
		near(t, "area", s.Outline.Area(), 2000, 1e-6)
		near(t, "left", b.Min.X, float64(i)*100, 1e-9)
		near(t, "top", b.Max.Y, 20, 1e-9)
		if len(s.Rings) < 3 {
			t.Errorf("%d rings", len(s.Rings))
		}
		for _, ring := range s.Rings {
			r := ring[0].Dist(pith[i])
			for _, q := range ring {
				near(t, "on its ring", q.Dist(pith[i]), r, 0.1) // chords are a little inside
				if q.X < b.Min.X-1e-6 || q.X > b.Max.X+1e-6 || q.Y < -1e-6 || q.Y > 20+1e-6 {
					t.Fatalf("ring point %v outside the strip", q)
				}
			}
		}
	}
}

// Whatever the panel, drawn strips meet along their joints, and the drawing's
// departure is the factor times the shape's.
func TestViewMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := Of(anyStrips(t))
		if err != nil {
			t.Fatal(err)
		}
		f := rapid.SampledFrom([]float64{0, 1, 20}).Draw(t, "factor")
		for _, s := range []*Shape{&p.Smooth, &p.Glued} {
			v, err := p.End(s, f)
			if err != nil {
				t.Fatal(err)
			}
			for i := range v.Strips {
				o := v.Strips[i].Outline
				if i > 0 {
					q := v.Strips[i-1].Outline
					if o[0].Dist(q[steps]) > 1e-6 || o[2*steps+1].Dist(q[steps+1]) > 1e-6 {
						t.Fatalf("strips %d and %d do not meet", i-1, i)
					}
				}
				mid := o[0].Lerp(o[2*steps+1], 0.5)
				if math.Abs(mid.Y-p.Thickness/2-v.Factor*s.Points[i*steps].Y) > 1e-6 {
					t.Fatalf("drawn at %g, shape %g", mid.Y, s.Points[i*steps].Y)
				}
			}
		}
	})
}

// A hollow panel is shorter on top: an arc that turns by kappa W leans its ends
// together by kappa W T over the thickness, drawn the factor times as much.
func TestHollowIsShorterOnTop(t *testing.T) {
	p := arcs(t, 150, 1e-4, 1e-4)
	v, err := p.End(&p.Smooth, 5)
	if err != nil {
		t.Fatal(err)
	}
	front, rear := v.Strips[0].Outline, v.Strips[1].Outline
	bottom := rear[steps].X - front[0].X
	top := rear[steps+1].X - front[2*steps+1].X
	near(t, "shorter", bottom-top, 5*1e-4*300*20, 1e-5)
	near(t, "hollow", front[0].Y-front[steps].Y, 5*1e-4*300*300/8, 0.01)
}

func TestViewOfPith(t *testing.T) {
	s := Strip{ID: "A1", Section: Section{100, 20, geom.Pt(40, 8)}, PithKnown: true, Strains: dried(oak)}
	p := panel(t, []Strip{s})
	v, err := p.End(&p.Glued, 1)
	if err != nil || !v.Strips[0].Inside || v.Strips[0].Pith.Dist(geom.Pt(40, 8)) > 1 {
		t.Errorf("%+v, %v", v, err)
	}
	for _, pith := range []geom.Point{{X: 1e300, Y: 1e300}, {X: math.Inf(-1), Y: 5}, {X: 3, Y: math.Inf(1)}, {X: 0, Y: 0}, {X: 50, Y: 20}} {
		s.Section.Pith = pith
		p := panel(t, []Strip{s})
		v, err := p.End(&p.Smooth, 0)
		if err != nil || len(v.Strips[0].Rings) == 0 || len(v.Strips[0].Rings) > 200 {
			t.Errorf("pith %v: %v", pith, err)
		}
	}
	if _, err := p.End(&Shape{}, 1); err == nil {
		t.Error("the shape of no panel is taken")
	}
	if _, err := p.End(&p.Glued, -1); err == nil {
		t.Error("a factor below 0 is taken")
	}
}

func BenchmarkPanel24(b *testing.B) {
	var strips []Strip
	for range 24 {
		strips = append(strips, Strip{Section: under(80, 20, 90), PithKnown: true, Strains: dried(maple)})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Of(strips); err != nil {
			b.Fatal(err)
		}
	}
}
