package colour

import (
	"math"
	"testing"
)

// three by two cells of 10 mm; the middle one of the upper row has no picture.
func smallField() *Field {
	return &Field{Step: 10, NX: 3, NY: 2, Lab: []Lab{
		{L: 10}, {L: 20, A: 4}, {L: 30},
		{L: 40}, {L: math.NaN()}, {L: 60, B: -6},
	}}
}

func TestFieldAt(t *testing.T) {
	f := smallField()
	for _, c := range []struct {
		x, y float64
		want Lab
		ok   bool
	}{
		{0, 0, Lab{L: 10}, true}, {9.9, 9.9, Lab{L: 10}, true}, {10, 0, Lab{L: 20, A: 4}, true}, {30, 20, Lab{L: 60, B: -6}, true},
		{5, 15, Lab{L: 40}, true}, {15, 15, Lab{}, false}, {-0.1, 5, Lab{}, false}, {30.1, 5, Lab{}, false}, {5, 20.1, Lab{}, false}, {math.NaN(), 5, Lab{}, false},
	} {
		if got, ok := f.At(c.x, c.y); got != c.want || ok != c.ok {
			t.Errorf("at %g, %g: %v %v, want %v %v", c.x, c.y, got, ok, c.want, c.ok)
		}
	}
}

func TestFieldSmooth(t *testing.T) {
	f := smallField()
	for _, c := range []struct {
		x, y, l float64
		ok      bool
	}{
		{5, 5, 10, true},                     // the middle of a cell is that cell
		{10, 5, 15, true},                    // halfway to the next
		{12.5, 5, 17.5, true},                // three quarters
		{0, 0, 10, true},                     // the corner carries on
		{5, 10, 25, true},                    // halfway up
		{10, 10, (10 + 20 + 40) / 3.0, true}, // one of four has no picture
		{15, 15, 0, false},                   // its very middle
		{15, 20, 0, false},                   // and over it
		{31, 5, 0, false}, {5, math.NaN(), 0, false},
	} {
		got, ok := f.Smooth(c.x, c.y)
		if ok != c.ok || math.Abs(got.L-c.l) > 1e-12 {
			t.Errorf("at %g, %g: %v %v, want L %g %v", c.x, c.y, got, ok, c.l, c.ok)
		}
	}
}

func TestFieldWithoutCells(t *testing.T) {
	for name, f := range map[string]*Field{"nil": nil, "zero": {}, "too few colours": {Step: 1, NX: 2, NY: 2}, "step not a number": {Step: math.NaN(), NX: 1, NY: 1, Lab: []Lab{{}}}} {
		if _, ok := f.At(0, 0); ok {
			t.Errorf("%s: a colour", name)
		}
		if _, ok := f.Smooth(0, 0); ok {
			t.Errorf("%s: a smooth colour", name)
		}
	}
	if _, ok := (*Field)(nil).Mean(); ok {
		t.Error("nil: a mean")
	}
}

func TestMeans(t *testing.T) {
	if got, ok := smallField().Mean(); !ok || got != (Lab{L: 32, A: 0.8, B: -1.2}) {
		t.Errorf("mean of five cells: %v %v", got, ok)
	}
	var m Mean
	if _, ok := m.Lab(); ok {
		t.Error("the mean of nothing")
	}
	m.Add(Lab{L: 10, A: 2}, 3)
	m.Add(Lab{L: 30, B: 8}, 1)
	for _, w := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		m.Add(Lab{L: 99}, w)
	}
	m.Add(Lab{L: 5, A: math.Inf(1)}, 1)
	if got, ok := m.Lab(); !ok || got != (Lab{L: 15, A: 1.5, B: 2}) || m.Weight() != 4 {
		t.Errorf("three to one: %v %v of %g", got, ok, m.Weight())
	}
}

func TestMedian(t *testing.T) {
	none := Lab{L: math.NaN()}
	in := []Lab{{L: 3, A: 1, B: 9}, none, {L: 1, A: 2, B: 7}, {L: 2, A: 30, B: 8}}
	if got, ok := Median(in); !ok || got != (Lab{L: 2, A: 2, B: 8}) {
		t.Errorf("of three: %v %v", got, ok)
	}
	if in[0].L != 3 || in[2].L != 1 {
		t.Error("the list was changed")
	}
	if got, ok := Median(append(in, Lab{L: 4, A: 3, B: 0})); !ok || got != (Lab{L: 2.5, A: 2.5, B: 7.5}) {
		t.Errorf("of four: %v %v", got, ok)
	}
	if _, ok := Median([]Lab{none}); ok {
		t.Error("of none")
	}
}

// Greys of lightness 40 and 60 lie 20 and 0 from 60 (S_L is 1 at a mean of 50).
func TestSpread(t *testing.T) {
	if got, ok := Spread([]Lab{{L: 40}, {L: 60}, {L: math.NaN()}}, Lab{L: 60}); !ok || math.Abs(got-10) > 1e-12 {
		t.Errorf("got %g %v, want 10", got, ok)
	}
	if _, ok := Spread(nil, Lab{}); ok {
		t.Error("of none")
	}
}
