package colour

import (
	"math"
	"slices"
)

// Mean gathers the weighted mean of colours. The zero value holds none.
type Mean struct {
	sum    Lab
	weight float64
}

// Add puts in a colour of some weight; colours that are not known and weights
// not over 0 change nothing.
func (m *Mean) Add(c Lab, weight float64) {
	if !(weight > 0) || math.IsInf(weight, 1) || !c.Known() {
		return
	}
	m.sum.L += float64(weight * c.L)
	m.sum.A += float64(weight * c.A)
	m.sum.B += float64(weight * c.B)
	m.weight += weight
}

// Weight returns the weight of all that was put in.
func (m *Mean) Weight() float64 { return m.weight }

// Lab returns the mean, and false where nothing was put in.
func (m *Mean) Lab() (Lab, bool) {
	if m.weight == 0 {
		return Lab{}, false
	}
	return Lab{m.sum.L / m.weight, m.sum.A / m.weight, m.sum.B / m.weight}, true
}

// Median returns the colour whose L, a and b are each the median of those of
// the colours (the mean of the middle two of an even number), and false where
// none is known. It need not be one of them.
func Median(colours []Lab) (Lab, bool) {
	known := make([]float64, 0, len(colours))
	part := func(of func(Lab) float64) float64 {
		known = known[:0]
		for _, c := range colours {
			if c.Known() {
				known = append(known, of(c))
			}
		}
		n := len(known)
		if n == 0 {
			return math.NaN()
		}
		slices.Sort(known)
		return (known[(n-1)/2] + known[n/2]) / 2
	}
	m := Lab{
		part(func(c Lab) float64 { return c.L }),
		part(func(c Lab) float64 { return c.A }),
		part(func(c Lab) float64 { return c.B }),
	}
	if !m.Known() {
		return Lab{}, false
	}
	return m, true
}

// Spread returns the mean CIEDE2000 difference of the known colours from a
// middle, each counted once, and false where none is known.
func Spread(colours []Lab, middle Lab) (float64, bool) {
	var sum float64
	n := 0
	for _, c := range colours {
		if c.Known() {
			sum += DeltaE(c, middle)
			n++
		}
	}
	if n == 0 {
		return 0, false
	}
	return sum / float64(n), true
}
