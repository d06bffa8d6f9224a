package split

import "math"

// typicalStep is how sapwood differs from heartwood in log light, over
// species: lighter in every channel, least in red.
func typicalStep() vec3 { return turn(vec3{.42, .60, .66}) }

// model is a face explained: log light = light(x, y) + p step + noise, p being
// the share of sapwood.
type model struct {
	step vec3
	cov  mat3         // of the noise
	inv  mat3         // of cov
	lit  [3][]float64 // per column: the fall of light, and what it adds from
	tilt [3][]float64 // the middle to the top edge
	near [3][]float64 // per cell: what the light does besides, near by; nil for nothing
}

// waves is how many cosines along the board the light may follow, in lightness
// and in hue: shadows are sharper than changes of colour.
var waves = [3]int{7, 3, 3}

// tilts is how many of them may lean across the board.
const tilts = 3

// fit finds the light and the step for given shares of sapwood in
// cells of weight w. last is the step before.
func fit(g *grid, p, w []float64, last vec3) *model {
	ms := momentsOf(g, p, w)
	typical := typicalStep()
	along := math.Max(last.dot(typical)/typical.dot(typical), .02)
	out := &model{}
	for c := range out.lit {
		ms.solve(g, c, along*typical[c], out)
	}
	if out.step.dot(typical) < 0 {
		out.step = typical.scale(.2)
	}
	return out
}

// moments are sums over a column: w, w y, w y^2; w p, w p y; w p^2; and per
// channel w f, w f y, w f p.
type moments struct {
	m  [3]float64
	q  [2]float64
	qq float64
	f  [3][2]float64
	fq [3]float64
}

type columns []moments

func momentsOf(g *grid, p, w []float64) columns {
	ms := make(columns, g.nx)
	for j := range g.ny {
		y := up(j, g.ny)
		for i := range ms {
			at := j*g.nx + i
			k := w[at]
			if k == 0 {
				continue
			}
			m := &ms[i]
			ks := k * p[at]
			m.m[0] += k
			m.m[1] += k * y
			m.m[2] += k * y * y
			m.q[0] += ks
			m.q[1] += ks * y
			m.qq += ks * p[at]
			for c := range m.f {
				v := g.f[c][at]
				m.f[c][0] += k * v
				m.f[c][1] += k * y * v
				m.fq[c] += ks * v
			}
		}
	}
	return ms
}

// pullStep draws the step towards the typical direction, as a share of the
// face: it keeps a shadow from becoming sapwood. An engineering choice.
const pullStep = .004

// solve finds light and step in one channel by least squares.
func (ms columns) solve(g *grid, c int, typical float64, out *model) {
	nx := g.nx
	kx := min(waves[c], max(1, nx/3))
	nb := kx
	if g.ny >= 3 {
		nb += min(tilts, kx)
	}
	bx := cosines(kx, nx)
	of := func(e int) (k, pow int) {
		if e < kx {
			return e, 0
		}
		return e - kx, 1
	}
	a := make([][]float64, nb+1)
	for i := range a {
		a[i] = make([]float64, nb+1)
	}
	b := make([]float64, nb+1)
	total := 1e-9
	for i := range ms {
		m := &ms[i]
		total += m.m[0]
		for e := range nb {
			k, pe := of(e)
			be := bx[k][i]
			for d := 0; d <= e; d++ {
				kd, pd := of(d)
				a[e][d] += be * bx[kd][i] * m.m[pe+pd]
			}
			a[nb][e] += be * m.q[pe]
			b[e] += be * m.f[c][pe]
		}
		a[nb][nb] += m.qq
		b[nb] += m.fq[c]
	}
	a[0][0] += 1e-9 * total
	for e := 1; e < nb; e++ {
		a[e][e] += 2e-5 * total
	}
	a[nb][nb] += pullStep * total
	b[nb] += pullStep * total * typical
	solve(a, [][]float64{b})
	out.step[c] = b[nb]
	out.lit[c], out.tilt[c] = make([]float64, nx), make([]float64, nx)
	for e := range nb {
		k, pow := of(e)
		dst := out.lit[c]
		if pow == 1 {
			dst = out.tilt[c]
		}
		for i := range dst {
			dst[i] += b[e] * bx[k][i]
		}
	}
}

// columns lets the lightness of each column, smoothed over near ones, be its
// own: shadows across the board are neutral and may be
// sharp.
func (m *model) columns(g *grid, p, w []float64, along float64) {
	sum, n := make([]float64, g.nx), make([]float64, g.nx)
	for j := range g.ny {
		y := up(j, g.ny)
		for i := range g.nx {
			at := j*g.nx + i
			r := g.f[0][at] - m.lit[0][i] - y*m.tilt[0][i] - p[at]*m.step[0]
			sum[i] += w[at] * r
			n[i] += w[at]
		}
	}
	sum = smooth(sum, g.nx, 1, 0, along)
	n = smooth(n, g.nx, 1, 0, along)
	for i := range sum {
		if n[i] <= 0 {
			continue
		}
		m.lit[0][i] += sum[i] / n[i]
	}
}

// Reach of the light near by, mm along and across the grain: shadows may be
// sharp, glare is not. Engineering choices.
var nearAlong, nearAcross = [3]float64{30, 60, 60}, [3]float64{12, 25, 25}

// nearLight takes what is left over, smoothed, for light: shadows with edges
// and glare, once the shares of sapwood are about right. Cells whose hue is
// far from what they are taken for have no say: they may be the other wood.
func (m *model) nearLight(g *grid, p, w []float64) {
	n := g.nx * g.ny
	tmp, sw, trust := make([]float64, n), make([]float64, n), make([]float64, n)
	var left [3][]float64
	for c := range left {
		left[c] = make([]float64, n)
	}
	cov := m.cov
	cov[0][0] += lightVaries * lightVaries
	inv := cov.inverse()
	for j := range g.ny {
		y := up(j, g.ny)
		for i := range g.nx {
			at := j*g.nx + i
			var r vec3
			for c := range r {
				r[c] = g.f[c][at] - m.lit[c][i] - y*m.tilt[c][i] - p[at]*m.step[c]
			}
			t := 1 + r.dot(inv.mul(r))/4
			trust[at] = w[at] / (t * t)
			for c, v := range r {
				left[c][at] = trust[at] * v
			}
		}
	}
	for c := range m.near {
		if c < 2 {
			smoothInto(sw, tmp, trust, g.nx, g.ny, nearAcross[c]/g.dy, nearAlong[c]/g.dx)
		}
		smoothInto(left[c], tmp, left[c], g.nx, g.ny, nearAcross[c]/g.dy, nearAlong[c]/g.dx)
		for at := range left[c] {
			left[c][at] /= sw[at] + .05
		}
		m.near[c] = left[c]
	}
}

// noise measures what the model leaves over. Light may differ by shade more
// from cell to cell, in log light.
func (m *model) noise(g *grid, p, w []float64, shade float64) {
	var cov mat3
	total := 1e-9
	left := make([]vec3, g.nx)
	for j := range g.ny {
		y, o := up(j, g.ny), j*g.nx
		ps := p[o : o+g.nx]
		for c := range m.step {
			f, lit, tilt := g.f[c][o:o+g.nx], m.lit[c], m.tilt[c]
			for i, v := range f {
				left[i][c] = v - lit[i] - y*tilt[i] - ps[i]*m.step[c]
			}
			if m.near[c] != nil {
				for i, v := range m.near[c][o : o+g.nx] {
					left[i][c] -= v
				}
			}
		}
		for i, k := range w[o : o+g.nx] {
			cov.addOuter(left[i], k)
			total += k
		}
	}
	m.cov = cov.scaled(1 / total)
	for c := range m.cov {
		m.cov[c][c] += 2e-4
	}
	cov = m.cov
	cov[0][0] += shade * shade
	m.inv = cov.inverse()
}

// evidence writes, for each cell, the logarithm of how much likelier its
// colour is as sapwood than as heartwood, kept to most either way.
func (m *model) evidence(g *grid, w []float64, most float64, out []float64) {
	v := m.inv.mul(m.step)
	half := .5 * m.step.dot(v)
	for j := range g.ny {
		y := up(j, g.ny)
		for i := range g.nx {
			at := j*g.nx + i
			l := -half
			for c := range v {
				f := g.f[c][at]
				if m.near[c] != nil {
					f -= m.near[c][at]
				}
				l += v[c] * (f - m.lit[c][i] - y*m.tilt[c][i])
			}
			out[at] = min(max(l, -most), most) * w[at]
		}
	}
}

// up is where row j lies, 1 at the top edge to -1 at the bottom edge.
func up(j, ny int) float64 {
	if ny < 2 {
		return 0
	}
	return 1 - 2*float64(j)/float64(ny-1)
}

func cosines(kx, nx int) [][]float64 {
	bx := make([][]float64, kx)
	for k := range bx {
		bx[k] = make([]float64, nx)
		for i := range bx[k] {
			bx[k][i] = math.Cos(math.Pi * float64(k) * (float64(i) + .5) / float64(nx))
		}
	}
	return bx
}
