package wood

import "math"

// shape is the outline of the heartwood about one place of the pith, as far as
// up to four points of it tell.
type shape struct {
	n        int
	spread2  float64
	dir      [4][2]float64 // towards the points
	chol     [4][4]float64
	inv1     [4]float64 // K^-1 1
	invV     [4]float64 // K^-1 ln(distance)
	vv, v1   float64    // v' K^-1 v, 1' K^-1 v
	one      float64    // 1' K^-1 1
	logScale float64    // ln of what does not hang on the radius
}

// newShape takes points of the outline and the place of the pith. At most four
// points are used.
func newShape(points []corner, a, d, spread float64) shape {
	s := shape{n: min(len(points), 4), spread2: spread * spread}
	var v [4]float64
	for i := range s.n {
		p := points[i]
		y, z := p.at-a, p.depth-d
		r := math.Max(math.Hypot(y, z), 1)
		s.dir[i] = [2]float64{y / r, z / r}
		v[i] = math.Log(r)
		// The density is wanted over where the edge was seen, across: d ln r =
		// cos / r d across. Heartwood must lie inwards, so the cosine has a
		// sign; near a tangent the ragged edge blurs it.
		cos := y / r
		if p.edge <= 0 {
			cos = -cos
		}
		cos = (cos + math.Sqrt(cos*cos+0.15*0.15)) / 2
		s.logScale += math.Log(cos / r)
		noise := p.noise * math.Max(math.Abs(y/r), 0.15) / r
		for j := range i {
			k := s.alike(s.dir[i], s.dir[j])
			s.chol[i][j], s.chol[j][i] = k, k
		}
		s.chol[i][i] = s.spread2 + ragged*ragged + noise*noise
	}
	s.factor()
	s.inv1, s.invV = s.solve([4]float64{1, 1, 1, 1}), s.solve(v)
	for i := range s.n {
		s.vv += v[i] * s.invV[i]
		s.v1 += s.invV[i]
		s.one += s.inv1[i]
		s.logScale -= math.Log(s.chol[i][i]) + 0.5*math.Log(2*math.Pi)
	}
	return s
}

// alike is the covariance of the radius in two directions.
func (s *shape) alike(p, q [2]float64) float64 {
	t := math.Atan2(p[0]*q[1]-p[1]*q[0], p[0]*q[0]+p[1]*q[1]) / swing
	return s.spread2 * math.Exp(-t*t/2)
}

// factor turns the covariance into its Cholesky factor.
func (s *shape) factor() {
	for i := range s.n {
		for j := 0; j <= i; j++ {
			sum := s.chol[i][j]
			for k := range j {
				sum -= s.chol[i][k] * s.chol[j][k]
			}
			if i == j {
				s.chol[i][i] = math.Sqrt(math.Max(sum, 1e-9))
			} else {
				s.chol[i][j] = sum / s.chol[j][j]
			}
		}
	}
}

func (s *shape) solve(b [4]float64) [4]float64 {
	for i := range s.n {
		for k := range i {
			b[i] -= s.chol[i][k] * b[k]
		}
		b[i] /= s.chol[i][i]
	}
	for i := s.n - 1; i >= 0; i-- {
		for k := i + 1; k < s.n; k++ {
			b[i] -= s.chol[k][i] * b[k]
		}
		b[i] /= s.chol[i][i]
	}
	return b
}

// density is the likelihood of the points where the mean radius is exp(ln).
func (s *shape) density(ln float64) float64 {
	if s.n == 0 {
		return 1
	}
	return math.Exp(s.logScale - 0.5*(s.vv-2*ln*s.v1+ln*ln*s.one))
}

// toward is the outline's radius in one direction: its logarithm is at + by
// times that of the mean radius, and sd its spread.
type toward struct{ at, by, sd float64 }

func (t toward) mean(ln float64) float64 { return t.at + t.by*ln }

// toward returns the radius towards (y, z) from the pith.
func (s *shape) toward(y, z float64) toward {
	r := math.Max(math.Hypot(y, z), 1)
	dir := [2]float64{y / r, z / r}
	var k [4]float64
	for i := range s.n {
		k[i] = s.alike(dir, s.dir[i])
	}
	kk := s.solve(k)
	t := toward{by: 1}
	vari := s.spread2 + ragged*ragged
	for i := range s.n {
		t.at += k[i] * s.invV[i]
		t.by -= k[i] * s.inv1[i]
		vari -= k[i] * kk[i]
	}
	t.sd = math.Sqrt(math.Max(vari, ragged*ragged))
	return t
}
