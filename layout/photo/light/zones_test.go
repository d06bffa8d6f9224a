package light

import (
	"context"
	"math"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// Two flat woods with a red seam along their border, a knot and burnt spots:
// only the woods are read. Colours are the sRGB values as drawn; the spread of
// two equal halves 2 d apart is d.
func TestZoneColoursReadTheWoodAlone(t *testing.T) {
	b := walnut()
	b.grain = 0
	s, _, m := b.draw(1)
	heart, sap := [2][3]uint8{{100, 70, 50}, {110, 78, 56}}, [3]uint8{180, 150, 110}
	burntCells := 0
	for k := range m.Pix {
		o := s.Pix.Pix[4*k:]
		x, y := float64(k%m.W)+0.5, m.Width-float64(k/m.W)-0.5
		switch d := y - b.border(x); {
		case math.Abs(d) < 1.2:
			copy(o, []uint8{255, 0, 0})
		case math.Hypot(x-600, y-120) < 12:
			copy(o, []uint8{5, 5, 5})
			if math.Hypot(x-600, y-120) < 11 {
				m.Pix[k] = photo.Flaw
			}
		case m.Pix[k] == photo.Sap:
			copy(o, sap[:])
			if k%10 == 0 {
				copy(o, []uint8{255, 255, 255})
				burntCells++
			}
		default:
			copy(o, heart[k%2][:])
		}
	}
	z, err := ZoneColours(context.Background(), s, m)
	if err != nil {
		t.Fatal(err)
	}
	one, two := colour.FromSRGB(100, 70, 50).Lab(), colour.FromSRGB(110, 78, 56).Lab()
	if d := colour.DeltaE(z[photo.Sap].Mean, colour.FromSRGB(180, 150, 110).Lab()); d > 1e-6 || z[photo.Sap].Spread.L > 1e-4 || z[photo.Sap].FromDE > 1e-6 {
		t.Errorf("sap is %+v", z[photo.Sap])
	}
	mid := colour.Lab{L: (one.L + two.L) / 2, A: (one.A + two.A) / 2, B: (one.B + two.B) / 2}
	if d := colour.DeltaE(z[photo.Heart].Mean, mid); d > 0.02 {
		t.Errorf("heart is %+v, want %v", z[photo.Heart], mid)
	}
	if d := z[photo.Heart].Spread.L - (two.L-one.L)/2; math.Abs(d) > 0.01 {
		t.Errorf("heart's spread is off by %g", d)
	}
	if c := z[photo.Sap].Clipped; math.Abs(c-0.1) > 0.02 {
		t.Errorf("%.3f of the sap is burnt, want 0.1", c)
	}
	var sum float64
	for _, v := range z {
		sum += v.Area
	}
	if math.Abs(sum-900*200) > 1e-6 || math.Abs(z[photo.Flaw].Area-math.Pi*121) > 15 {
		t.Errorf("areas %v of 180000, knot %v of 380", sum, z[photo.Flaw].Area)
	}
	if z[photo.Unseen].Known {
		t.Error("there is nothing unseen")
	}
}
