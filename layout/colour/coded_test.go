package colour

import (
	"math"
	"testing"
)

// A step is 1/256 by definition, so a colour is kept to half of it, 1/512.
func TestCodedKeepsColours(t *testing.T) {
	for _, c := range []Lab{{41.2345, -7.7777, 22.0001}, {0, 0, 0}, {100, 126.9, -126.9}, {0.001, 0.003, -0.003}} {
		r := c.Code().Lab()
		if math.Abs(r.L-c.L) > 1./512 || math.Abs(r.A-c.A) > 1./512 || math.Abs(r.B-c.B) > 1./512 || r.Code().Lab() != r {
			t.Errorf("%v is kept as %v", c, r)
		}
	}
	// 1.5 is 384 steps.
	if got := (Lab{1.5, -1.5, 0.25}).Code(); got != (Coded{384, -384, 64}) {
		t.Errorf("coded as %v", got)
	}
	if got := (Lab{400, -400, 128}).Code().Lab(); got != (Lab{127, -127, 127}) {
		t.Errorf("far out it is kept as %v", got)
	}
	for _, c := range []Lab{{L: math.NaN()}, {A: math.Inf(1)}} {
		if k := c.Code(); k.Known() || k.Lab().Known() {
			t.Errorf("%v is kept as a colour", c)
		}
	}
}

// A field of coded colours reads as one of the colours themselves.
func TestFieldOfCodedColours(t *testing.T) {
	plain := Field{Step: 10, NX: 2, NY: 2, Lab: []Lab{{10, 1, 2}, {20, 3, 4}, {L: math.NaN()}, {30, -5, 6}}}
	coded := Field{Step: 10, NX: 2, NY: 2}
	if coded.Full() {
		t.Error("a field without colours is full")
	}
	for _, c := range plain.Lab {
		coded.Coded = append(coded.Coded, c.Code())
	}
	if !plain.Full() || !coded.Full() {
		t.Error("a field is not full")
	}
	for _, p := range [][2]float64{{5, 5}, {15, 5}, {5, 15}, {15, 15}, {9, 8}, {20, 20}, {-1, 0}} {
		a, okA := plain.At(p[0], p[1])
		b, okB := coded.At(p[0], p[1])
		c, okC := plain.Smooth(p[0], p[1])
		d, okD := coded.Smooth(p[0], p[1])
		if a != b || okA != okB || c != d || okC != okD {
			t.Errorf("at %v: %v %v and %v %v", p, a, c, b, d)
		}
	}
	// (10+20+30)/3, (1+3-5)/3, (2+4+6)/3.
	if m, ok := coded.Mean(); !ok || math.Abs(m.L-20) > 1e-12 || math.Abs(m.A+1./3) > 1e-12 || math.Abs(m.B-4) > 1e-12 {
		t.Errorf("mean %v", m)
	}
	for _, f := range []Field{plain, coded} {
		g := f.Copy()
		g.Set(1, Lab{50, 0.5, 0})
		if g.Of(1) != (Lab{50, 0.5, 0}) || f.Of(1) != (Lab{20, 3, 4}) {
			t.Errorf("a copy holds %v, what it was made from %v", g.Of(1), f.Of(1))
		}
	}
}
