package split

import "math"

// steps holds, for each edge between two rows of a grid and each column, how
// the colour changes across it, above minus below: a ratio of light, so what
// falls on both sides cancels. Edge i lies over row i; there are ny + 1.
type steps struct {
	nx, ny int
	d      [3][]float64
	ok     []float64 // 0 to 1: how much plain wood there is on both sides
	cov    mat3      // of the change where there is no sap line
	inv    mat3
}

// stepsOf compares the mean of reach mm above each edge with that below it,
// after smoothing along the grain by along mm.
func stepsOf(g *grid, reach, along float64) *steps {
	nx, ny := g.nx, g.ny
	n := nx * ny
	h := max(1, int(math.Round(reach/g.dy)))
	s := &steps{nx: nx, ny: ny, ok: make([]float64, nx*(ny+1))}
	tmp := make([]float64, n)
	w := make([]float64, n)
	smoothInto(w, tmp, g.w, nx, ny, 0, along/g.dx)
	cw := prefix(w, nx, ny)
	v := make([]float64, n)
	for c := range s.d {
		for i := range v {
			v[i] = g.f[c][i] * g.w[i]
		}
		smoothInto(v, tmp, v, nx, ny, 0, along/g.dx)
		cv := prefix(v, nx, ny)
		s.d[c] = make([]float64, nx*(ny+1))
		for j := 1; j < ny; j++ {
			a0, b1 := max(j-h, 0), min(j+h, ny)
			for i := range nx {
				wa, wb := cw[j*nx+i]-cw[a0*nx+i], cw[b1*nx+i]-cw[j*nx+i]
				if wa < .05 || wb < .05 {
					continue
				}
				s.d[c][j*nx+i] = (cv[j*nx+i]-cv[a0*nx+i])/wa - (cv[b1*nx+i]-cv[j*nx+i])/wb
				if c == 0 {
					s.ok[j*nx+i] = math.Min(math.Min(wa, wb)/float64(h), 1)
				}
			}
		}
	}
	s.measure()
	return s
}

// prefix returns the sums of the rows above each edge.
func prefix(v []float64, nx, ny int) []float64 {
	out := make([]float64, nx*(ny+1))
	for j := range ny {
		for i := range nx {
			out[(j+1)*nx+i] = out[j*nx+i] + v[j*nx+i]
		}
	}
	return out
}

// measure finds the covariance of steps over the face, robustly: sap lines and
// knots are few among them (Student's t of 3 degrees, by reweighting).
func (s *steps) measure() {
	inv := mat3{}
	for c := range inv {
		inv[c][c] = 1 / .01
	}
	for range 6 {
		var cov mat3
		total := 1e-9
		for at, ok := range s.ok {
			if ok < .3 {
				continue
			}
			d := vec3{s.d[0][at], s.d[1][at], s.d[2][at]}
			m := d.dot(inv.mul(d))
			k := ok * 6 / (3 + m)
			cov.addOuter(d, k)
			total += ok
		}
		s.cov = cov.scaled(1 / total)
		for c := range s.cov {
			s.cov[c][c] += 1e-4
		}
		inv = s.cov.inverse()
	}
	s.inv = inv
}

// of writes the evidence of a step along delta (sapwood above) at each edge,
// kept within most, with as much more of a neutral step allowed as sigma. A
// step the other way round is the value for sapwood below: the two slices.
func (s *steps) of(delta vec3, sigma, most float64) (above, below []float64) {
	cov := s.cov
	cov[0][0] += sigma * sigma
	inv := cov.inverse()
	v := inv.mul(delta)
	half := .5 * delta.dot(v)
	above, below = make([]float64, len(s.ok)), make([]float64, len(s.ok))
	for at, ok := range s.ok {
		l := v[0]*s.d[0][at] + v[1]*s.d[1][at] + v[2]*s.d[2][at]
		above[at] = ok * math.Min(math.Max(l-half, -most), most)
		below[at] = ok * math.Min(math.Max(-l-half, -most), most)
	}
	return above, below
}
