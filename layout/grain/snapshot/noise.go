package snapshot

import (
	"math"
	"math/rand/v2"
)

// side is how many cells a table of chance has each way; it repeats after
// that.
const side = 512

// noise is smooth chance over a plane: values from -1 to 1 that change over a
// distance of about one.
type noise struct {
	table  *[side * side]float32
	ox, oy int
}

func newNoise(seed uint64) noise {
	r := newDice(seed, 0x5eed)
	t := new([side * side]float32)
	for i := range t {
		t[i] = float32(2*r.Float64() - 1)
	}
	return noise{table: t}
}

// sub returns a noise that has nothing to do with n over the distances of a
// board.
func (n noise) sub(k int) noise {
	return noise{n.table, n.ox + 131*k + 17, n.oy + 197*k + 71}
}

// cell returns the value at a place of the lattice.
func (n noise) cell(i, j int) float64 {
	return float64(n.table[((j+n.oy)&(side-1))*side+(i+n.ox)&(side-1)])
}

func floor(v float64) int {
	i := int(v)
	if v < float64(i) {
		i--
	}
	return i
}

// at is noise over a plane.
func (n noise) at(x, y float64) float64 {
	i, j := floor(x), floor(y)
	tx, ty := ease(x-float64(i)), ease(y-float64(j))
	a, b := n.cell(i, j), n.cell(i+1, j)
	c, d := n.cell(i, j+1), n.cell(i+1, j+1)
	top := a + tx*(b-a)
	return top + ty*(c+tx*(d-c)-top)
}

// line is noise along a line.
func (n noise) line(x float64) float64 {
	i := floor(x)
	a := n.cell(i, 3)
	return a + ease(x-float64(i))*(n.cell(i+1, 3)-a)
}

// ease goes from 0 to 1 without corners.
func ease(t float64) float64 { return t * t * (3 - 2*t) }

// ramp eases from 0 at a to 1 at b.
func ramp(v, a, b float64) float64 {
	t := (v - a) / (b - a)
	if !(t > 0) {
		return 0
	}
	if t >= 1 {
		return 1
	}
	return ease(t)
}

func clamp(v, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }

// dice is chance for plans.
type dice struct{ *rand.Rand }

// newDice returns the dice for one purpose. The seed is stirred, as the first
// throws of neighbouring seeds are alike otherwise (finalizer of splitmix64,
// Steele, Lea and Flood 2014).
func newDice(seed, what uint64) dice {
	v := seed*0x9E3779B97F4A7C15 + what
	v = (v ^ v>>30) * 0xBF58476D1CE4E5B9
	v = (v ^ v>>27) * 0x94D049BB133111EB
	return dice{rand.New(rand.NewPCG(v^v>>31, what))}
}

// in returns a number from lo to hi.
func (d dice) in(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

// sign returns -1 or 1.
func (d dice) sign() float64 {
	if d.Float64() < 0.5 {
		return -1
	}
	return 1
}

// yes is true with chance p.
func (d dice) yes(p float64) bool { return d.Float64() < p }
