package scale

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// The unknowns of the adjustment, in their order: the focal length in longer
// sides of the picture, as a logarithm; a small turn of the pose; the place of
// the face's (0, 0) before the camera, mm; length and width, as logarithms;
// then for each mark its place in the frame of the face, mm.
const (
	atFocal  = 0
	atTurn   = 1
	atPlace  = 4
	atLength = 7
	atWidth  = 8
	atMarks  = 9
)

// A camera's focal length in widths of the picture's longer side: most lie
// about 0.9, hardly any beyond 0.4 and 2. It only tells where the corners do
// not. Engineering choices.
const (
	focalUsual  = 0.9
	focalSpread = 0.45 // of its natural logarithm, standard deviation
)

const (
	clickSpread = Click / 1.7320508 // standard deviation of an even spread within Click

	// Of a distance read off a tape: mm, and a share of it. Engineering
	// choices, wider than tapes of class II are made to, 0.3 mm and 0.2 mm a
	// metre at most (OIML R 35).
	tapeSpread = 0.4
	tapeShare  = 0.0005

	ratioSpread = 0.003 // of a ratio entered: sizes to the millimetre
)

// pose is how the face is turned: its x, y and z, towards the camera, as the
// camera sees them.
type pose [3]vec

// turned returns the pose after a small turn (Rodrigues).
func (q pose) turned(w vec) pose {
	a := w.len()
	if a < 1e-15 {
		return q
	}
	k := w.mul(1 / a)
	for i, v := range q {
		q[i] = v.mul(math.Cos(a)).add(k.cross(v).mul(math.Sin(a))).add(k.mul(k.dot(v) * (1 - math.Cos(a))))
	}
	return q
}

// solution is an adjustment that has settled.
type solution struct {
	m     *model
	p     []float64
	pose  pose
	cost  float64
	spare int       // observations beyond the unknowns
	cov   []float64 // of the unknowns, row by row
}

// residuals appends how far each observation lies from what p says, in its
// standard deviations; nil where a point comes behind the camera.
func (m *model) residuals(dst []float64, p []float64, q pose) []float64 {
	q = q.turned(vec{p[atTurn], p[atTurn+1], p[atTurn+2]})
	f := math.Exp(p[atFocal])
	at := vec{p[atPlace], p[atPlace+1], p[atPlace+2]}
	behind := false
	see := func(x, y, z float64, seen geom.Point) {
		v := at.add(q[0].mul(x)).add(q[1].mul(y)).add(q[2].mul(z))
		if v[2] <= 0 {
			behind = true
			return
		}
		px, py := v.flat()
		d := m.lens.Bowed(m.lens.Middle.Add(geom.Pt(px, py).Mul(f * m.longer))).Sub(seen)
		dst = append(dst, d.X/clickSpread, d.Y/clickSpread)
	}
	l, w := math.Exp(p[atLength]), math.Exp(p[atWidth])
	for i, c := range [4][2]float64{{0, 0}, {l, 0}, {l, w}, {0, w}} {
		see(c[0], c[1], 0, m.corners[i])
	}
	for i, s := range m.stretches {
		z := 0.0
		if s.Ground {
			z = -m.thickness
		}
		k := p[atMarks+4*i:]
		see(k[0], k[1], z, s.A)
		see(k[2], k[3], z, s.B)
		d := math.Hypot(k[2]-k[0], k[3]-k[1])
		dst = append(dst, (d-s.Distance)/(tapeSpread+tapeShare*s.Distance))
	}
	dst = append(dst, (p[atFocal]-math.Log(focalUsual))/focalSpread)
	if m.entered {
		dst = append(dst, (p[atLength]-p[atWidth]-m.ratio)/ratioSpread)
	}
	if behind {
		return nil
	}
	return dst
}

func squares(r []float64) float64 {
	if r == nil {
		return math.Inf(1)
	}
	sum := 0.0
	for _, v := range r {
		sum += v * v
	}
	return sum
}

// solve finds the values that fit best, from several focal lengths.
func (m *model) solve() (*solution, error) {
	var best *solution
	for _, f := range m.rect.focals() {
		p, q, ok := m.begin(f)
		if !ok {
			continue
		}
		if s := m.descend(p, q); s != nil && (best == nil || s.cost < best.cost) {
			best = s
		}
	}
	if best == nil {
		return nil, fmt.Errorf("corners and marks do not go together; look at them again")
	}
	return best, nil
}

// descend is the method of Levenberg and Marquardt (Marquardt 1963); nil where
// it finds nothing.
func (m *model) descend(p []float64, q pose) *solution {
	n := len(p)
	r := m.residuals(nil, p, q)
	cost := squares(r)
	if math.IsInf(cost, 0) || math.IsNaN(cost) {
		return nil
	}
	damp := 1e-3
	var normal, slope, by []float64
	for range 100 {
		normal, slope = m.normal(p, q, r)
		done := false
		for {
			by = stepOf(normal, slope, damp, n)
			var next []float64
			if by != nil {
				next = make([]float64, n)
				for i := range next {
					next[i] = p[i] + by[i]
				}
			}
			if next != nil {
				rn := m.residuals(nil, next, q)
				if c := squares(rn); c <= cost {
					done = cost-c < 1e-10*(1+cost)
					q = q.turned(vec{next[atTurn], next[atTurn+1], next[atTurn+2]})
					next[atTurn], next[atTurn+1], next[atTurn+2] = 0, 0, 0
					p, r, cost = next, rn, c
					damp = max(damp/8, 1e-12)
					break
				}
			}
			if damp *= 6; damp > 1e12 {
				done = true
				break
			}
		}
		if done {
			break
		}
	}
	normal, _ = m.normal(p, q, r)
	cov := inverse(normal, n)
	if cov == nil {
		return nil
	}
	return &solution{m: m, p: p, pose: q, cost: cost, spare: len(r) - n, cov: cov}
}

// normal returns the normal matrix and the slope at p, by differences.
func (m *model) normal(p []float64, q pose, r []float64) (a, g []float64) {
	n := len(p)
	jac := make([][]float64, n)
	near := math.Abs(p[atPlace+2])
	for i := range jac {
		h := 1e-6
		if i >= atPlace && i < atLength || i >= atMarks {
			h = 1e-6 * near
		}
		v := p[i]
		p[i] = v + h
		up := m.residuals(nil, p, q)
		p[i] = v - h
		down := m.residuals(nil, p, q)
		p[i] = v
		jac[i] = make([]float64, len(r))
		if up == nil || down == nil {
			continue
		}
		for k := range r {
			jac[i][k] = (up[k] - down[k]) / (2 * h)
		}
	}
	a, g = make([]float64, n*n), make([]float64, n)
	for i := range n {
		for j := range n {
			for k := range r {
				a[i*n+j] += jac[i][k] * jac[j][k]
			}
		}
		for k := range r {
			g[i] -= jac[i][k] * r[k]
		}
	}
	return a, g
}

func (s *solution) at(i, j int) float64 { return s.cov[i*len(s.p)+j] }

// off is the standard deviation of an unknown; of a logarithm it is a share.
func (s *solution) off(i int) float64 { return math.Sqrt(max(s.at(i, i), 0)) }

// ratioOff is that of length over width, as a share.
func (s *solution) ratioOff() float64 {
	return math.Sqrt(max(s.at(atLength, atLength)+s.at(atWidth, atWidth)-2*s.at(atLength, atWidth), 0))
}

// strain compares what is left with what clicks explain.
func (s *solution) strain() float64 {
	if s.spare <= 0 {
		return 0
	}
	return math.Sqrt(s.cost / float64(s.spare))
}

// camera is how far the camera stands from the plane, mm, and the standard
// deviation of that: it is in proportion to the focal length and the size.
func (s *solution) camera() (height, off float64) {
	at := vec{s.p[atPlace], s.p[atPlace+1], s.p[atPlace+2]}
	height = -at.dot(s.pose[2])
	// The turn of the pose moves the plane about the camera.
	t := at.cross(s.pose[2])
	var g [atLength]float64
	for k := range 3 {
		g[atTurn+k] = t[k]
		g[atPlace+k] = -s.pose[2][k]
	}
	sum := 0.0
	for i, a := range g {
		for j, b := range g {
			sum += a * b * s.at(i, j)
		}
	}
	return height, math.Sqrt(max(sum, 0))
}

// different reports whether the directions of two stretches settle the ratio of
// length to width by themselves. A stretch at angle a to the board's length
// says d^2 = (L cos a)^2 + (W sin a)^2 of a square of unit sides, so that two
// at a and b tell L and W apart by the sine of b - a times that of b + a: two
// that lie like the diagonals do not.
func (m *model) different(s *solution) bool {
	for i := range m.stretches {
		for j := range i {
			if math.Abs(math.Sin(s.angle(i)-s.angle(j))*math.Sin(s.angle(i)+s.angle(j))) > apartness {
				return true
			}
		}
	}
	return false
}

func (s *solution) angle(i int) float64 {
	k := s.p[atMarks+4*i:]
	return math.Atan2(k[3]-k[1], k[2]-k[0])
}
