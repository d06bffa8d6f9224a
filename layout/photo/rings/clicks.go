package rings

import (
	"math"

	"heartside/layout/geom"
)

// Ring is points clicked on one ring, mm.
type Ring []geom.Point

// Rings are not circles: their radius swings slowly with the angle. As a
// Gaussian process about the pith; engineering choices.
const (
	ringSpread = 0.05 // of the radius
	ringSwing  = 0.8  // radians
	// DefaultClick is how well a point of a ring is clicked, mm.
	DefaultClick = 1.0
	mostClicks   = 24 // of one ring that are used
)

// fits returns ln of the likelihood of a place of the pith, given clicks on
// one ring, whatever the ring's radius.
func (r Ring) fits(c geom.Point, click float64) float64 {
	if len(r) > mostClicks {
		r = r[:mostClicks]
	}
	n := len(r)
	d, mean := make([]float64, n), 0.0
	for i, p := range r {
		d[i] = p.Dist(c)
		mean += d[i] / float64(n)
	}
	if n < 2 || mean < 1e-6 {
		return 0
	}
	// Cholesky factor of the covariance of the distances.
	k := make([][]float64, n)
	for i := range k {
		k[i] = make([]float64, n)
		for j := 0; j <= i; j++ {
			u, v := r[i].Sub(c), r[j].Sub(c)
			t := math.Atan2(u.Cross(v), u.Dot(v)) / ringSwing
			v2 := ringSpread * ringSpread * mean * mean * math.Exp(-t*t/2)
			if i == j {
				v2 += click * click
			}
			for m := range j {
				v2 -= k[i][m] * k[j][m]
			}
			if i == j {
				k[i][i] = math.Sqrt(math.Max(v2, 1e-9))
			} else {
				k[i][j] = v2 / k[j][j]
			}
		}
	}
	forward := func(b []float64) []float64 {
		x := append([]float64(nil), b...)
		for i := range x {
			for m := range i {
				x[i] -= k[i][m] * x[m]
			}
			x[i] /= k[i][i]
		}
		return x
	}
	ones := make([]float64, n)
	for i := range ones {
		ones[i] = 1
	}
	a, b := forward(d), forward(ones)
	var aa, ab, bb, ln float64
	for i := range a {
		aa += a[i] * a[i]
		ab += a[i] * b[i]
		bb += b[i] * b[i]
		ln += math.Log(k[i][i])
	}
	// The radius is integrated out.
	return -0.5*(aa-ab*ab/bb) - ln - 0.5*math.Log(bb)
}
