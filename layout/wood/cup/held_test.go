package cup

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A panel 600 wide of one curvature, 20 thick, modulus 700 N/mm2: EI = 700 x
// 8000 / 12 = 466 666.7 N mm2 per mm. Rings none, 2.74e-4 from moisture.
func even(t *testing.T) *Panel { return arcs(t, 150, 2.74e-4, 2.74e-4, 2.74e-4, 2.74e-4) }

// Held along both edges nothing is forced: kappa a^2/8 stays between them. Held
// nearer together, less stays between them and the rest stands beside.
func TestHeldAtTwoLines(t *testing.T) {
	p := even(t)
	h, err := Hold(&p.Smooth, []float64{600, 0}, 20, 700)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "span 600", h.Greatest, 2.74e-4*600*600/8, 0.03)
	near(t, "no force", math.Abs(h.Forces[0])+math.Abs(h.Forces[1]), 0, 1e-9)
	near(t, "no stress", h.Stress, 0, 0)
	h, _ = Hold(&p.Smooth, []float64{150, 450}, 20, 700)
	at := func(y float64) float64 {
		best := 0
		for i, q := range h.Rest {
			if math.Abs(q.X-y) < math.Abs(h.Rest[best].X-y) {
				best = i
			}
		}
		return h.Rest[best].Y
	}
	near(t, "span 300", -at(300), 2.74e-4*300*300/8, 0.02)
	// Beside: kappa/2 (300^2 - 150^2) above the lines.
	near(t, "beside", at(0), 2.74e-4/2*(300*300-150*150), 0.07)
	near(t, "greatest", h.Greatest, -at(0), 0.01)
}

// A third line in the middle: a beam on two supports lifted by its sagitta in
// the middle, P = 48 EI (kappa L^2/8) / L^3 = 6 EI kappa / L, half of it down
// at each edge (any table of beams). The bending moment there is P L / 4, the
// stress 6 M / h^2.
func TestHeldAtThreeLines(t *testing.T) {
	p := even(t)
	h, err := Hold(&p.Smooth, []float64{0, 300, 600}, 20, 700)
	if err != nil {
		t.Fatal(err)
	}
	force := 6 * 700 * 8000.0 / 12 * 2.74e-4 / 600 // N per mm
	near(t, "middle", h.Forces[1], 1000*force, 0.01*1000*force)
	near(t, "front", h.Forces[0], -500*force, 0.01*500*force)
	near(t, "back", h.Forces[2], -500*force, 0.01*500*force)
	near(t, "stress", h.Stress, 6*force*600/4/400, 0.01*h.Stress)
	// What is left in each half, u from the middle, L = 300: its curvature runs
	// straight from -kappa/2 in the middle (3 kappa/2 is taken out there) to
	// kappa at the edge, so it is kappa u^2 (u/L - 1)/4, lowest at u = 2L/3:
	// -kappa L^2/27.
	near(t, "left", h.Greatest, 2.74e-4*300*300/27, 0.01)
}

// Held quite flat: M = E kappa h^3/12 = 700 x 2.74e-4 x 8000/12 = 127.9 N,
// stress 700 x 2.74e-4 x 10 = 1.918 N/mm2.
func TestHeldFlat(t *testing.T) {
	f, err := HoldFlat(2.74e-4, 20, 700)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "moment", f.Moment, 127.867, 0.001)
	near(t, "stress", f.Stress, 1.918, 1e-9)
	if _, err := HoldFlat(1e-4, 0, 700); err == nil {
		t.Error("no thickness is taken")
	}
}

func TestHoldProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := Of(anyStrips(t))
		if err != nil {
			t.Fatal(err)
		}
		var lines []float64
		y := rapid.Float64Range(0, 0.2).Draw(t, "first") * p.Width
		for y <= p.Width && len(lines) < 6 {
			lines = append(lines, y)
			y += rapid.Float64Range(0.1, 0.7).Draw(t, "next") * p.Width
		}
		if len(lines) < 2 {
			t.Skip("one line")
		}
		for _, s := range []*Shape{&p.Smooth, &p.Glued} {
			h, err := Hold(s, lines, p.Thickness, 800)
			if err != nil {
				t.Fatal(err)
			}
			// In balance: no force and no moment is left over.
			var sum, moment, size float64
			for i, f := range h.Forces {
				sum += f
				moment += f * lines[i]
				size += math.Abs(f)
			}
			if math.Abs(sum) > 1e-9*(1+size) || math.Abs(moment) > 1e-9*(1+size)*p.Width {
				t.Fatalf("forces %v: sum %g, moment %g", h.Forces, sum, moment)
			}
			for _, l := range lines { // at the lines nothing is left
				for i := 1; i < len(h.Rest); i++ {
					a, b := h.Rest[i-1], h.Rest[i]
					if a.X <= l && l < b.X && math.Abs(a.Y+(b.Y-a.Y)*(l-a.X)/(b.X-a.X)) > 0.02+0.01*s.PeakToPeak {
						t.Fatalf("%g left at %g", a.Y, l)
					}
				}
			}
		}
	})
}

func TestBadHolds(t *testing.T) {
	p := even(t)
	for _, lines := range [][]float64{nil, {100}, {100, 100}, {-50, 300}, {0, 700}, {0, math.NaN()}} {
		if _, err := Hold(&p.Smooth, lines, 20, 700); err == nil {
			t.Errorf("%v is taken", lines)
		}
	}
	if _, err := Hold(&p.Smooth, []float64{0, 600}, 20, 0); err == nil {
		t.Error("no modulus is taken")
	}
	if _, err := Hold(&Shape{}, []float64{0, 600}, 20, 700); err == nil {
		t.Error("an empty shape is taken")
	}
}
