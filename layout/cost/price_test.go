package cost

import (
	"math"
	"testing"

	"heartside/layout/layouttest"
)

// 8 ft x 6 in x 2 in is 8 board feet, 2/3 of a cubic foot, 0.018878 m3.
func TestWhatABoardCosts(t *testing.T) {
	b := Size{8 * foot, 6 * inch, 2 * inch}
	for _, c := range []struct {
		r    Rate
		want float64
	}{
		{Rate{12.5, PerBoardFoot}, 100},
		{Rate{150, PerCubicFoot}, 100},
		{Rate{1000, PerCubicMetre}, 8 * 2.359737216},
		{Rate{64, PerBoard}, 64},
		{Rate{0, PerBoard}, 0},
	} {
		got, err := c.r.Of(b)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, string(c.r.Per), got, c.want, 1e-9)
	}
	for _, r := range []Rate{{1, "kilo"}, {-1, PerBoard}, {math.NaN(), PerBoard}, {math.Inf(1), PerBoardFoot}} {
		if _, err := r.Of(b); err == nil {
			t.Errorf("%+v: no error", r)
		}
	}
	if _, err := (Rate{1, PerBoardFoot}).Of(Size{1, 0, 1}); err == nil {
		t.Error("a board without width: no error")
	}
}

// One price in three units: 12 a board foot is 144 a cubic foot, and 12 x
// 423.776 = 5085.31 a cubic metre.
func TestOnePriceInThreeUnits(t *testing.T) {
	r := Rate{12, PerBoardFoot}
	for per, want := range map[Per]float64{PerBoardFoot: 12, PerCubicFoot: 144, PerCubicMetre: 5085.31} {
		got, err := r.In(per)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, string(per), got.Amount, want, 0.005)
	}
	if _, err := r.In(PerBoard); err == nil {
		t.Error("by the board: no error")
	}
	if got, err := (Rate{7, PerBoard}).In(PerBoard); err != nil || got.Amount != 7 {
		t.Error(got, err)
	}
}

// An inch thick, a square foot is a board foot; 2 inches thick it is two.
func TestPriceByAreaHasTheThicknessInIt(t *testing.T) {
	for _, inches := range []float64{1, 2} {
		got, whole, err := (Rate{12, PerBoardFoot}).ByArea(inches * inch)
		if err != nil || whole != 0 {
			t.Fatal(whole, err)
		}
		layouttest.Near(t, "a square foot", got*foot*foot, 12*inches, 1e-9)
	}
	if _, _, err := (Rate{12, PerBoardFoot}).ByArea(0); err == nil {
		t.Error("no thickness: no error")
	}
	if a, whole, err := (Rate{30, PerBoard}).ByArea(0); err != nil || a != 0 || whole != 30 {
		t.Error(a, whole, err)
	}
}

// What a seller tallies is not the volume: 6 1/2 in x 8 ft in 4/4 is 4 1/3 board
// feet by volume and 4 by the tally.
func TestTallyAndVolumeCostDifferently(t *testing.T) {
	var y Tally
	if _, err := y.Add(8*foot, 6.5*inch, 4); err != nil {
		t.Fatal(err)
	}
	r := Rate{9, PerBoardFoot}
	tallied, err := r.OfTally(&y)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "tallied", tallied, 36, 1e-9)
	measured, err := r.Of(Size{8 * foot, 6.5 * inch, inch})
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "measured", measured, 39, 1e-9)
	// 4 board feet are a third of a cubic foot.
	third, err := (Rate{90, PerCubicFoot}).OfTally(&y)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "by the cubic foot", third, 30, 1e-9)
	if got, err := (Rate{5, PerBoard}).OfTally(&y); err != nil || got != 5 {
		t.Error(got, err)
	}
}
