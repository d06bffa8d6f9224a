package split

import "math"

type (
	vec3 [3]float64
	mat3 [3][3]float64
)

func (a vec3) dot(b vec3) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (a vec3) scale(k float64) vec3 { return vec3{k * a[0], k * a[1], k * a[2]} }

func (a vec3) sub(b vec3) vec3 { return vec3{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

func (a vec3) norm() float64 { return math.Sqrt(a.dot(a)) }

func (m *mat3) mul(v vec3) vec3 {
	return vec3{
		m[0][0]*v[0] + m[0][1]*v[1] + m[0][2]*v[2],
		m[1][0]*v[0] + m[1][1]*v[1] + m[1][2]*v[2],
		m[2][0]*v[0] + m[2][1]*v[1] + m[2][2]*v[2],
	}
}

// addOuter adds k v v^T.
func (m *mat3) addOuter(v vec3, k float64) {
	for i := range m {
		kv, row := k*v[i], &m[i]
		row[0] += kv * v[0]
		row[1] += kv * v[1]
		row[2] += kv * v[2]
	}
}

func (m *mat3) scaled(k float64) mat3 {
	o := *m
	for i := range o {
		for j := range o[i] {
			o[i][j] *= k
		}
	}
	return o
}

func (m *mat3) det() float64 {
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}

// inverse returns the inverse of a symmetric positive matrix, by cofactors.
func (m *mat3) inverse() mat3 {
	c := func(a, b, d, e float64) float64 { return a*e - b*d }
	var o mat3
	o[0][0] = c(m[1][1], m[1][2], m[2][1], m[2][2])
	o[0][1] = -c(m[0][1], m[0][2], m[2][1], m[2][2])
	o[0][2] = c(m[0][1], m[0][2], m[1][1], m[1][2])
	o[1][0] = -c(m[1][0], m[1][2], m[2][0], m[2][2])
	o[1][1] = c(m[0][0], m[0][2], m[2][0], m[2][2])
	o[1][2] = -c(m[0][0], m[0][2], m[1][0], m[1][2])
	o[2][0] = c(m[1][0], m[1][1], m[2][0], m[2][1])
	o[2][1] = -c(m[0][0], m[0][1], m[2][0], m[2][1])
	o[2][2] = c(m[0][0], m[0][1], m[1][0], m[1][1])
	det := m[0][0]*o[0][0] + m[0][1]*o[1][0] + m[0][2]*o[2][0]
	if det == 0 {
		return mat3{}
	}
	for i := range o {
		for j := range o[i] {
			o[i][j] /= det
		}
	}
	return o
}

// solve solves a x = b for several right sides, a symmetric positive and
// destroyed with b: Cholesky's method. Directions without weight get 0.
func solve(a [][]float64, b [][]float64) {
	n := len(a)
	for j := range n {
		d := a[j][j]
		for k := range j {
			d -= a[j][k] * a[j][k]
		}
		if !(d > 1e-12) {
			d = 1e30 // the unknown is bound to nought
		}
		d = math.Sqrt(d)
		a[j][j] = d
		for i := j + 1; i < n; i++ {
			s := a[i][j]
			for k := range j {
				s -= a[i][k] * a[j][k]
			}
			a[i][j] = s / d
		}
	}
	for c := range b {
		x := b[c]
		for i := range n {
			s := x[i]
			for k := range i {
				s -= a[i][k] * x[k]
			}
			x[i] = s / a[i][i]
		}
		for i := n - 1; i >= 0; i-- {
			s := x[i]
			for k := i + 1; k < n; k++ {
				s -= a[k][i] * x[k]
			}
			x[i] = s / a[i][i]
		}
	}
}
