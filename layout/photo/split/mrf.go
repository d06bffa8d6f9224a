package split

import "math"

// field is the smooth answer of a face, 1 sapwood to -1 heartwood: the least
// of sum c (f - t)^2 + sum k (f - f')^2 over neighbours, k small where colour
// changes, by conjugate gradients. It keeps fingers and islands that curves
// leave out.
type field struct {
	g      *grid
	kx, ky []float64 // between a cell and the next along, and the next below
}

// Ties between neighbours along and across the grain. Engineering choices.
const (
	tieAlong  = 2.2
	tieAcross = .9
	tieLeast  = .02
	tieColour = 60.0
)

func newField(g *grid) *field {
	nx, ny := g.nx, g.ny
	n := nx * ny
	f := &field{g: g, kx: make([]float64, n), ky: make([]float64, n)}
	tmp, s := make([]float64, n), make([]float64, n)
	for c := range g.f {
		smoothInto(s, tmp, g.f[c], nx, ny, .6/g.dy, 6/g.dx)
		for j := range ny {
			for i := range nx {
				at := j*nx + i
				if i+1 < nx {
					d := s[at+1] - s[at]
					f.kx[at] += d * d
				}
				if j+1 < ny {
					d := s[at+nx] - s[at]
					f.ky[at] += d * d
				}
			}
		}
	}
	for j := range ny {
		for i := range nx {
			at := j*nx + i
			if i+1 < nx {
				f.kx[at] = tieAlong*math.Exp(-.15*tieColour*f.kx[at]) + tieLeast
			}
			if j+1 < ny {
				f.ky[at] = tieAcross*math.Exp(-tieColour*f.ky[at]) + tieLeast
			}
		}
	}
	return f
}

// relax solves for the field with target t in weight c, starting from p.
func (f *field) relax(t, c, p []float64, rounds int) {
	nx, ny := f.g.nx, f.g.ny
	n := nx * ny
	r, z, q, aq, dg := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	f.apply(aq, p, c)
	rz := 0.0
	for at := range n {
		d := c[at] + f.kx[at] + f.ky[at]
		if at%nx > 0 {
			d += f.kx[at-1]
		}
		if at >= nx {
			d += f.ky[at-nx]
		}
		dg[at] = 1 / d
		r[at] = c[at]*t[at] - aq[at]
		z[at] = r[at] * dg[at]
		q[at] = z[at]
		rz += r[at] * z[at]
	}
	stop := 1e-7 * float64(n)
	for range rounds {
		if rz < stop {
			return
		}
		f.apply(aq, q, c)
		qa := 1e-300
		for at, v := range q {
			qa += v * aq[at]
		}
		al := rz / qa
		rn := 0.0
		for at := range n {
			p[at] += al * q[at]
			r[at] -= al * aq[at]
			z[at] = r[at] * dg[at]
			rn += r[at] * z[at]
		}
		be := rn / rz
		rz = rn
		for at := range n {
			q[at] = z[at] + be*q[at]
		}
	}
}

// apply writes the left side of the equations.
func (f *field) apply(out, p, c []float64) {
	nx, ny := f.g.nx, f.g.ny
	for at, v := range p {
		out[at] = c[at] * v
	}
	for j := range ny {
		o := j * nx
		for i := 0; i+1 < nx; i++ {
			d := f.kx[o+i] * (p[o+i+1] - p[o+i])
			out[o+i] -= d
			out[o+i+1] += d
		}
		if j+1 < ny {
			for i := o; i < o+nx; i++ {
				d := f.ky[i] * (p[i+nx] - p[i])
				out[i] -= d
				out[i+nx] += d
			}
		}
	}
}
