package light

import (
	"math"
	"slices"
)

// Field is the light found on a face, as a factor of its mean light.
type Field struct {
	Ratio  float64    // of the most to the least light
	Before float64    // how unlike light was: see Left
	Left   float64    // what remains: rms deviation of 20 mm patches of wood from their zone, as a share of its light; the wood's own figure counts too
	Held   float64    // share of pixels held back from burning out
	Step   float64    // of light from heart to sap, as a ratio; 1 where there is one wood
	Tint   [3]float64 // how far red, green and blue follow the light: 1 is a neutral shadow

	nx, ny        int
	length, width float64
	log           []float64 // nx x ny nodes: amid columns along x, from 0 to width along y
}

// At returns the factor at a place of the face, mm.
func (f *Field) At(x, y float64) float64 {
	if len(f.log) == 0 {
		return 1
	}
	return math.Exp(f.at(x, y))
}

func (f *Field) at(x, y float64) float64 {
	i, u := f.column(x)
	k, v := f.strip(y)
	get := func(i, k int) float64 { return f.log[i*f.ny+k] }
	i1, k1 := min(i+1, f.nx-1), min(k+1, f.ny-1)
	return (1-v)*((1-u)*get(i, k)+u*get(i1, k)) + v*((1-u)*get(i, k1)+u*get(i1, k1))
}

// column and strip return the node before a place and how far on it lies.
func (f *Field) column(x float64) (int, float64) {
	return between(x/f.length*float64(f.nx)-0.5, f.nx)
}

func (f *Field) strip(y float64) (int, float64) {
	return between(y/f.width*float64(f.ny-1), f.ny)
}

func between(v float64, n int) (int, float64) {
	v = math.Min(math.Max(v, 0), float64(n-1))
	i := min(int(v), max(n-2, 0))
	return i, v - float64(i)
}

// How light may change (engineering choices): freely by up to these
// logarithms, and beyond that at a price that grows no faster than the change,
// so that the edge of a shadow stays an edge (Charbonnier et al. 1997).
const (
	freeAlong  = 0.01 // a cell along the face
	freeAcross = 0.07 // a strip across it
	stripWide  = 60   // mm; narrower streaks are the wood's own
	mostStrips = 6

	// together is how many cells of wood tell as much as one would by itself:
	// figure and grain run over several.
	together = 4

	rounds = 8
)

// solve fits the light to readings less their zone's level: a value each at
// the nodes of f.
func (f *Field) solve(rs []reading, level func(r *reading) float64) {
	n, band := f.nx*f.ny, f.ny
	a := make([]float64, n*(band+1)) // row k: a[k][k-band..k]
	b := make([]float64, n)
	off := make([]float64, 0, len(rs))
	lies := make([]nodes, len(rs))
	for k := range rs {
		lies[k] = f.nodes(&rs[k])
	}
	for round := range rounds {
		off = off[:0]
		for k := range rs {
			off = append(off, math.Abs(rs[k].luma-level(&rs[k])-f.light(lies[k])))
		}
		// Half of all deviations lie within 0.6745 of a normal one.
		sd := math.Max(median(off)/0.6745, 0.02)
		clear(a)
		clear(b)
		for k := range rs {
			r := &rs[k]
			w := r.n / (together * sd * sd)
			if round > 0 { // Cauchy's weight
				e := off[k] / (2 * sd)
				w /= 1 + e*e
			}
			p, v := lies[k].p, lies[k].v
			value := r.luma - level(r)
			a[p*(band+1)+band] += w * (1 - v) * (1 - v)
			b[p] += w * (1 - v) * value
			if lies[k].two {
				a[(p+1)*(band+1)+band] += w * v * v
				a[(p+1)*(band+1)+band-1] += w * v * (1 - v)
				b[p+1] += w * v * value
			}
		}
		tie := func(p, q int, free float64) { // q > p
			d := f.log[q] - f.log[p]
			w := 1 / (free * free * math.Sqrt(1+d*d/(free*free)))
			a[p*(band+1)+band] += w
			a[q*(band+1)+band] += w
			a[q*(band+1)+band-(q-p)] -= w
		}
		for i := range f.nx {
			for s := range f.ny {
				p := i*f.ny + s
				a[p*(band+1)+band] += 1e-6
				if i+1 < f.nx {
					tie(p, p+f.ny, freeAlong)
				}
				if s+1 < f.ny {
					tie(p, p+1, freeAcross)
				}
			}
		}
		cholesky(a, b, n, band)
		copy(f.log, b)
	}
}

// nodes are those a reading lies between in its own column: p and, a share v of
// the way, the next where there is one.
type nodes struct {
	p   int
	v   float64
	two bool
}

func (f *Field) nodes(r *reading) nodes {
	s, v := f.strip(r.y)
	return nodes{r.i*f.ny + s, v, s+1 < f.ny}
}

func (f *Field) light(at nodes) float64 {
	if !at.two {
		return f.log[at.p]
	}
	return (1-at.v)*f.log[at.p] + at.v*f.log[at.p+1]
}

// node returns the light at a reading's own column.
func (f *Field) node(r *reading) float64 { return f.light(f.nodes(r)) }

// cholesky solves a x = b for a symmetric a, of which the band below the
// diagonal is kept; b becomes x.
func cholesky(a, b []float64, n, band int) {
	w := band + 1
	at := func(i, j int) *float64 { return &a[i*w+band-(i-j)] }
	for i := range n {
		for j := max(0, i-band); j <= i; j++ {
			s := *at(i, j)
			for k := max(0, i-band); k < j; k++ {
				s -= *at(i, k) * *at(j, k)
			}
			if i == j {
				*at(i, i) = math.Sqrt(s)
			} else {
				*at(i, j) = s / *at(j, j)
			}
		}
		for k := max(0, i-band); k < i; k++ {
			b[i] -= *at(i, k) * b[k]
		}
		b[i] /= *at(i, i)
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < min(n, i+band+1); k++ {
			b[i] -= *at(k, i) * b[k]
		}
		b[i] /= *at(i, i)
	}
}

// slant takes out of the light what bends across the face alike all along it:
// that is the wood, darker or lighter from pith to bark. A straight slant
// across stays.
func (f *Field) slant() {
	mean := make([]float64, f.ny)
	var all, slope, square float64
	for k, v := range f.log {
		mean[k%f.ny] += v / float64(f.nx)
	}
	for s, v := range mean {
		u := float64(s) - float64(f.ny-1)/2
		all += v / float64(f.ny)
		slope += u * v
		square += u * u
	}
	for k := range f.log {
		u := float64(k%f.ny) - float64(f.ny-1)/2
		f.log[k] -= mean[k%f.ny] - all - slope/square*u
	}
}

// along fits a parabola along the face to readings that are not told apart:
// the medians of columns.
func (f *Field) along(rs []reading) {
	cols := make([][]float64, f.nx)
	for k := range rs {
		cols[rs[k].i] = append(cols[rs[k].i], rs[k].luma)
	}
	m, b := make([]float64, 9), make([]float64, 3)
	for i, c := range cols {
		if len(c) == 0 {
			continue
		}
		u := 2*(float64(i)+0.5)/float64(f.nx) - 1
		p := [3]float64{1, u, u * u}
		v := median(c)
		for r := range 3 {
			for q := 0; q <= r; q++ {
				m[r*3+2-(r-q)] += p[r] * p[q]
			}
			b[r] += p[r] * v
		}
	}
	for r := range 3 {
		m[r*3+2] += 1e-9
	}
	cholesky(m, b, 3, 2)
	for k := range f.log {
		u := 2*(float64(k/f.ny)+0.5)/float64(f.nx) - 1
		f.log[k] = b[0] + b[1]*u + b[2]*u*u
	}
}

// centre makes the mean logarithm 0 and bounds it.
func (f *Field) centre() {
	var sum float64
	for _, v := range f.log {
		sum += v
	}
	for k := range f.log {
		f.log[k] = math.Min(math.Max(f.log[k]-sum/float64(len(f.log)), -mostLog), mostLog)
	}
	f.Ratio = math.Exp(slices.Max(f.log) - slices.Min(f.log))
}

// mostLog bounds light to a fifth and five times its mean: beyond that noise
// is all there is (engineering choice).
const mostLog = 1.6
