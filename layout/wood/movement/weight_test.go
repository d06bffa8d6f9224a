package movement

import (
	"testing"

	"heartside/layout/layouttest"
)

// At 12 % the volume is that of the table: white oak 680 * 1.12 = 761.6 kg/m3,
// a top of 1800 x 900 x 25 mm 0.0405 m3, 30.84 kg.
func TestWeightAt12(t *testing.T) {
	w, err := whiteOak().Weight(1800*900*25, 12)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "density", w.Density, 761.6, 1e-9)
	layouttest.Near(t, "kg", w.Value, 30.84, 0.005)
	layouttest.Near(t, "least", w.Lo, 30.84*0.9, 0.005)
}

// A piece of sugar maple of 1 m3 green (volume shrinkage 14.7 %) has 0.9118 m3
// at 12 % and so 630 * 0.9118 = 574.43 kg of dry wood, which stays: at 6 % it
// measures 0.8824 m3 and weighs 574.43 * 1.06 = 608.90; green at 60 %, 919.09;
// ovendry, 0.853 m3, 574.43.
func TestDryWoodStays(t *testing.T) {
	for mc, c := range map[float64][2]float64{6: {0.8824, 608.90}, 60: {1, 919.09}, 0: {0.853, 574.43}} {
		w, err := maple().Weight(c[0]*1e9, mc)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "kg", w.Value, c[1], 0.01)
		if got := w.Working(); got[2].Values[1].Number != w.Value {
			t.Errorf("%v", got)
		}
	}
}

func TestWeightsThatCannotBe(t *testing.T) {
	for _, c := range []struct{ volume, mc float64 }{{-1, 12}, {1, -1}, {1, 400}} {
		if _, err := maple().Weight(c.volume, c.mc); err == nil {
			t.Errorf("%v passes", c)
		}
	}
	if _, err := cherry().Weight(1, 12); err == nil {
		t.Error("no specific gravity passes")
	}
	// Without the shrinkage of the volume both directions stand for it: 4.8 and
	// 9.9 are the table's 14.7.
	w := maple()
	w.SV = Number{}
	a, err := w.Weight(1e9, 6)
	if err != nil {
		t.Fatal(err)
	}
	b, err := maple().Weight(1e9, 6)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "kg", a.Value, b.Value, 1e-9)
}
