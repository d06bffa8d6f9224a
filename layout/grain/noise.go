package grain

import "math"

// noise is smooth chance: values about 0, from -1 to 1, that change over a
// distance of about one.
type noise struct{ seed uint64 }

// sub returns a noise of its own.
func (n noise) sub(k uint64) noise { return noise{mixBits(n.seed + k*0x9E3779B97F4A7C15)} }

func mixBits(v uint64) uint64 {
	v ^= v >> 30
	v *= 0xBF58476D1CE4E5B9
	v ^= v >> 27
	v *= 0x94D049BB133111EB
	return v ^ v>>31
}

// cell returns the value at a place of the lattice.
func (n noise) cell(i, j int64) float64 {
	v := uint64(i)*0x9E3779B185EBCA87 + uint64(j)*0xC2B2AE3D27D4EB4F + n.seed
	v ^= v >> 32
	v *= 0xD6E8FEB86659FD93
	v ^= v >> 32
	return float64(int32(v>>13)) * (1.0 / (1 << 31))
}

// at1 is noise along a line.
func (n noise) at1(x float64) float64 {
	f := math.Floor(x)
	i := int64(f)
	t := smooth(x - f)
	a := n.cell(i, 0)
	return a + t*(n.cell(i+1, 0)-a)
}

// at2 is noise over a plane.
func (n noise) at2(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	i, j := int64(fx), int64(fy)
	tx, ty := smooth(x-fx), smooth(y-fy)
	a, b := n.cell(i, j), n.cell(i+1, j)
	c, d := n.cell(i, j+1), n.cell(i+1, j+1)
	top := a + tx*(b-a)
	return top + ty*(c+tx*(d-c)-top)
}

// smooth eases from 0 to 1.
func smooth(t float64) float64 { return t * t * (3 - 2*t) }

// ramp eases from 0 at a to 1 at b.
func ramp(v, a, b float64) float64 {
	t := (v - a) / (b - a)
	if t <= 0 {
		return 0
	}
	if t >= 1 {
		return 1
	}
	return smooth(t)
}
