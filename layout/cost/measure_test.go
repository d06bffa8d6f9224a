package cost

import (
	"math"
	"testing"

	"heartside/layout/layouttest"
)

// By definition 144 cubic inches: 2 359.737 cm3, and 423.776 board feet to the
// cubic metre (computed, to the digits given).
func TestBoardFootByDefinition(t *testing.T) {
	layouttest.Near(t, "a board foot, mm3", BoardFootMM3, 2359737.216, 1e-6)
	layouttest.Near(t, "board feet to the m3", BoardFeet(1e9), 423.776, 5e-4)
	layouttest.Near(t, "board feet to the cubic foot", BoardFeet(CubicFootMM3), 12, 1e-12)
	layouttest.Near(t, "cubic feet to the m3", CubicFeet(1e9), 35.3147, 5e-5)
	layouttest.Near(t, "m3", CubicMetres(2400*210*26), 0.0131040, 1e-9)
	// 8 ft x 6 in x 1 in = 576 in3 = 4 board feet.
	layouttest.Near(t, "8 ft x 6 in x 4/4", BoardFeet(Size{8 * 304.8, 6 * 25.4, 25.4}.Volume()), 4, 1e-9)
}

// Surface measure. The first three are the worked examples of a page of the
// trade after the grading rules (secondary); the rest by hand.
func TestSurfaceMeasure(t *testing.T) {
	cases := []struct {
		what     string
		in       float64 // width
		length   float64 // mm
		up, half bool
		want     int
	}{
		{"6 1/2 in x 8 ft = 4 1/3", 6.5, 8 * foot, true, false, 4},
		{"8 in x 12 ft = 8", 8, 12 * foot, true, false, 8},
		{"10 in x 13 ft = 10 10/12", 10, 13 * foot, true, false, 11},
		{"8 ft 11 in counts as 8 ft: 6 x 8 / 12 = 4", 6, 8*foot + 11*inch, true, false, 4},
		{"2438 mm is 8 ft to the mm", 6, 2438, true, false, 4},
		{"2437 mm is 7 ft: 6 x 7 / 12 = 3 1/2, up", 6, 2437, true, true, 4},
		{"the same, down", 6, 2437, false, true, 3},
		{"9 in x 6 ft = 4 1/2, up", 9, 6 * foot, true, true, 5},
		{"9 in x 6 ft = 4 1/2, down", 9, 6 * foot, false, true, 4},
		{"under a foot long", 9, 250, true, false, 0},
	}
	for _, c := range cases {
		got, half, err := SurfaceMeasure(c.length, c.in*inch, c.up)
		if err != nil || got != c.want || half != c.half {
			t.Errorf("%s: got %d, half %v, %v; want %d, %v", c.what, got, half, err, c.want, c.half)
		}
	}
	for _, v := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, _, err := SurfaceMeasure(v, 100, true); err == nil {
			t.Errorf("a length of %g: no error", v)
		}
	}
}

// Exact halves go up and down by turns (from memory of the grading rules): four
// boards of 4 1/2 are 5 + 4 + 5 + 4 = 18, as they are in truth.
func TestHalvesGoUpAndDownByTurns(t *testing.T) {
	var y Tally
	var got []int
	for range 4 {
		sm, err := y.Add(6*foot, 9*inch, 4)
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, sm)
		if len(got) == 2 { // what is no half does not take a turn
			if _, err := y.Add(12*foot, 8*inch, 4); err != nil {
				t.Fatal(err)
			}
		}
	}
	if got[0] != 5 || got[1] != 4 || got[2] != 5 || got[3] != 4 || y.Surface != 26 || y.Pieces != 5 {
		t.Errorf("%v, %+v", got, y)
	}
}

// Board feet, area and thickness are three things: the same face in 4/4, 6/4,
// 8/4 and thin stock. 8 in x 12 ft = 8 ft2.
func TestBoardFeetAreaAndThicknessAreNotOneThing(t *testing.T) {
	for quarters, want := range map[int]float64{2: 8, 3: 8, 4: 8, 5: 10, 6: 12, 8: 16} {
		var y Tally
		if _, err := y.Add(12*foot, 8*inch, quarters); err != nil {
			t.Fatal(err)
		}
		if y.Surface != 8 || y.BoardFeet != want {
			t.Errorf("%d/4: surface %d, %g board feet; want 8 and %g", quarters, y.Surface, y.BoardFeet, want)
		}
	}
	var y Tally
	if _, err := y.Add(1000, 100, 0); err == nil {
		t.Error("no quarters: no error")
	}
	// By volume half an inch is half the board feet: what the tally adds is the
	// seller's rule, not geometry.
	layouttest.Near(t, "2/4 by volume", BoardFeet(Size{12 * foot, 8 * inch, inch / 2}.Volume()), 4, 1e-9)
}
