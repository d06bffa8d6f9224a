package cost

import (
	"testing"

	"heartside/layout/layouttest"
)

// With 30 % waste 143 are bought for 100; adding 30 % covers 23 % waste only.
// Arithmetic: 100/0.7 = 142.857, 0.3/1.3 = 0.2308, 0.3/0.7 = 0.4286.
func TestAddOnIsNotWaste(t *testing.T) {
	buy, err := ToBuy(100, 0.30)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "to buy", buy, 142.857, 5e-4)
	waste, err := WasteOf(0.30)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "covered by adding 30 %", waste, 0.2308, 5e-5)
	add, err := AddOn(0.30)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "to add", add, 0.4286, 5e-5)
	// Bought with the add-on and 30 % of it lost, 9 of 100 are lacking: 130 x 0.7.
	layouttest.Near(t, "what is left of 130", 130*(1-0.30), 91, 1e-9)
	for _, v := range []float64{-0.1, 1, 1.5} {
		if _, err := ToBuy(100, v); err == nil {
			t.Errorf("waste %g: no error", v)
		}
		if _, err := AddOn(v); err == nil {
			t.Errorf("waste %g: no error", v)
		}
	}
	if _, err := ToBuy(-1, 0.1); err == nil {
		t.Error("a need under 0: no error")
	}
	if _, err := WasteOf(-1); err == nil {
		t.Error("an add-on under 0: no error")
	}
}

// Two boards of 2400 x 200 x 26 give a panel of 900 x 800 x 20: 0.72 of 0.96 m2
// is an area yield of 0.75, 20 of 26 mm one of 0.769, together 0.577. Waste is
// 25 %; 1 - 0.577 = 42 % would count the planing in it, and taking the
// thickness off once more would give 1 - 0.577 x 0.769 = 56 %.
func TestThicknessLossIsCountedOnceAndApart(t *testing.T) {
	y, err := YieldOf([]Size{{2400, 200, 26}, {2400, 200, 26}}, []Size{{900, 800, 20}})
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "area", y.Area, 0.75, 1e-12)
	layouttest.Near(t, "thickness", y.Thickness, 20.0/26, 1e-12)
	layouttest.Near(t, "volume", y.Volume(), 0.72*0.020/(0.96*0.026), 1e-12)
	layouttest.Near(t, "waste", y.Waste(), 0.25, 1e-12)

	// The board feet to buy for the panel come out the same by area at the sold
	// thickness and by volume; with both they are too many.
	need := Size{900, 800, 20}
	byArea, err := ToBuy(BoardFeet(need.Face()*26), y.Waste())
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "board feet bought", byArea, BoardFeet(2*2400*200*26), 1e-9)
	byVolume, err := ToBuy(BoardFeet(need.Volume()), 1-y.Volume())
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "by volume", byVolume, byArea, 1e-9)
}

// Of stock of two thicknesses the thickness yield is weighted by face: boards
// 1 m2 of 30 and 1 m2 of 50 mm, parts 1 m2 of 20 mm: volume 0.02/0.08 = 1/4,
// area 1/2, so thickness 1/2.
func TestYieldOfMixedStock(t *testing.T) {
	y, err := YieldOf([]Size{{1000, 1000, 30}, {1000, 1000, 50}}, []Size{{1000, 1000, 20}})
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "area", y.Area, 0.5, 1e-12)
	layouttest.Near(t, "thickness", y.Thickness, 0.5, 1e-12)
}

func TestYieldErrors(t *testing.T) {
	if _, err := YieldOf(nil, []Size{{1, 1, 1}}); err == nil {
		t.Error("no boards: no error")
	}
	if _, err := YieldOf([]Size{{10, 10, 1}}, []Size{{10, 11, 1}}); err == nil {
		t.Error("more parts than boards: no error")
	}
	if _, err := YieldOf([]Size{{10, 10, 0}}, nil); err == nil {
		t.Error("no thickness: no error")
	}
	if y, err := YieldOf([]Size{{10, 10, 1}}, nil); err != nil || y.Area != 0 || y.Waste() != 1 {
		t.Error(y, err)
	}
}

// Clear stock at 1.30 with a quarter lost, finished 1.30/0.75 = 1.733, is even
// with sappy stock at 1.00 when 1 - 0.75/1.30 = 42.3 % of that is lost.
func TestClearStockAgainstSappy(t *testing.T) {
	clear := Offer{Price: 1.30, Loss: 0.25}
	loss, err := clear.EvenLoss(1.00)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "even loss", loss, 0.423, 5e-4)
	for _, c := range []struct{ loss, than float64 }{{0.42, -1}, {0.43, 1}} {
		sappy, err := (Offer{1.00, c.loss}).Finished()
		if err != nil {
			t.Fatal(err)
		}
		whole, err := clear.Finished()
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "finished clear stock", whole, 1.7333, 5e-5)
		if (sappy-whole)*c.than <= 0 {
			t.Errorf("with %g lost sappy stock costs %g, clear %g", c.loss, sappy, whole)
		}
	}
	price, err := clear.EvenPrice(1 - 0.75/1.30)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "even price", price, 1.00, 1e-9)
	// Dearer than 1.7333 raw, it never is even.
	if loss, err := clear.EvenLoss(1.80); err != nil || loss >= 0 {
		t.Error(loss, err)
	}
	for _, o := range []Offer{{0, 0.1}, {1, 1}, {1, -0.1}} {
		if _, err := o.EvenLoss(1); err == nil {
			t.Errorf("%+v: no error", o)
		}
		if _, err := o.Finished(); err == nil {
			t.Errorf("%+v: no error", o)
		}
		if _, err := o.EvenPrice(0.1); err == nil {
			t.Errorf("%+v: no error", o)
		}
	}
	if _, err := clear.EvenLoss(-1); err == nil {
		t.Error("a price under 0: no error")
	}
	if _, err := clear.EvenPrice(1); err == nil {
		t.Error("all lost: no error")
	}
}
