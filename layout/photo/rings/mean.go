package rings

import (
	"math"

	"heartside/layout/geom"
)

// The radius of heartwood by the direction, as a Gaussian process about its
// mean all the way round; engineering choices. Wide enough for the ends of
// logs that are much out of round: what a short arc tells of the rest is
// little, and is not to be taken for more.
const (
	heartSpread = 0.08 // one spread, as a share of the mean
	heartSwing  = 0.55 // radians over which the radius changes
	heartRough  = 1.5  // mm that the edge strays from its smooth run
	mostEdge    = 40   // places on the edge that are used
	// sureSpreads is how many spreads Low and High lie from Mean: 19 times of
	// 20 for a Gaussian.
	sureSpreads = 2.0
)

// allRound sets from the edge what the mean all the way round is likely to be:
// the best linear unbiased estimate (ordinary kriging, Cressie 1993, Statistics
// for Spatial Data). pithError is how well the pith is known, mm: a pith that
// is off makes the edge look nearer on one side and farther on the other, and
// leaves the mean all the way round as it is.
func (h *Heart) allRound(pith geom.Point, pithError, rough float64) {
	ps := h.Edge
	if len(ps) > mostEdge {
		thin := make([]geom.Point, mostEdge)
		for i := range thin {
			thin[i] = ps[i*(len(ps)-1)/(mostEdge-1)]
		}
		ps = thin
	}
	n := len(ps)
	d, turn := make([]float64, n), make([]float64, n)
	size := 0.0
	for i, p := range ps {
		v := p.Sub(pith)
		d[i], turn[i] = v.Len(), math.Atan2(v.Y, v.X)
		size += d[i] / float64(n)
	}
	level := swingMean()
	cov := make([][]float64, n)
	for i := range cov {
		cov[i] = make([]float64, i+1)
		for j := range i + 1 {
			t := turn[i] - turn[j]
			cov[i][j] = heartSpread*heartSpread*size*size*(swing(t)-level) + pithError*pithError/2*math.Cos(t)
			if i == j {
				cov[i][j] += rough * rough
			}
		}
	}
	mean, spread := commonMean(cov, d)
	h.Mean = mean
	h.Low, h.High = math.Max(mean-sureSpreads*spread, 0), mean+sureSpreads*spread
	h.Error = math.Hypot(spread, mean-h.Radius)
}

// swing is how alike the radius is in directions t radians apart, all the way
// round.
func swing(t float64) float64 {
	t = math.Remainder(t, 2*math.Pi)
	sum := 0.0
	for k := -1; k <= 1; k++ {
		v := (t + 2*math.Pi*float64(k)) / heartSwing
		sum += math.Exp(-v * v / 2)
	}
	return sum
}

// swingMean is the mean of swing over all directions: what they all share is
// part of the mean, not of the shape.
func swingMean() float64 { return heartSwing / math.Sqrt(2*math.Pi) }

// commonMean returns the generalised least squares estimate of the one mean of
// numbers with a covariance (lower triangle, which it overwrites), and its
// spread.
func commonMean(cov [][]float64, d []float64) (mean, spread float64) {
	var ones, values float64
	n := len(d)
	a, b := make([]float64, n), make([]float64, n)
	for i := range cov { // Cholesky, and its forward step on 1 and d
		for j := range i + 1 {
			v := cov[i][j]
			for m := range j {
				v -= cov[i][m] * cov[j][m]
			}
			if i == j {
				cov[i][i] = math.Sqrt(math.Max(v, 1e-9))
			} else {
				cov[i][j] = v / cov[j][j]
			}
		}
		a[i], b[i] = 1, d[i]
		for m := range i {
			a[i] -= cov[i][m] * a[m]
			b[i] -= cov[i][m] * b[m]
		}
		a[i] /= cov[i][i]
		b[i] /= cov[i][i]
		ones += a[i] * a[i]
		values += a[i] * b[i]
	}
	return values / ones, math.Sqrt(1 / ones)
}

// HeartUnseen returns between what the mean heart radius of a section lies, mm,
// that is one wood all over and shows no edge: heartwood reaches at least as
// far as the section, or sapwood begins before it. high is +Inf where nothing
// is known of it, both are 0 where there is no heartwood at all.
func HeartUnseen(width, thickness float64, pith geom.Point, heart bool) (low, high float64) {
	far := 0.0
	for _, c := range geom.R(0, 0, width, thickness).Polygon() {
		far = math.Max(far, c.Dist(pith))
	}
	if heart {
		return far / (1 + sureSpreads*heartSpread), math.Inf(1)
	}
	near := math.Hypot(math.Max(0, math.Max(-pith.X, pith.X-width)), math.Max(0, math.Max(-pith.Y, pith.Y-thickness)))
	return 0, near / (1 - sureSpreads*heartSpread)
}
