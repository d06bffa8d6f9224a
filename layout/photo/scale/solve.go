package scale

import "math"

// stepOf solves (a + damp diag a) x = g; nil where it cannot be solved.
func stepOf(a, g []float64, damp float64, n int) []float64 {
	b := append([]float64(nil), a...)
	for i := range n {
		b[i*n+i] *= 1 + damp
	}
	l, scale := cholesky(b, n)
	if l == nil {
		return nil
	}
	x := make([]float64, n)
	for i := range n {
		x[i] = g[i] * scale[i]
	}
	back(l, x, n)
	for i := range n {
		x[i] *= scale[i]
	}
	return x
}

// inverse inverts a symmetric matrix with a positive diagonal; nil where it has
// no inverse.
func inverse(a []float64, n int) []float64 {
	l, scale := cholesky(a, n)
	if l == nil {
		return nil
	}
	out := make([]float64, n*n)
	x := make([]float64, n)
	for j := range n {
		clear(x)
		x[j] = scale[j]
		back(l, x, n)
		for i := range n {
			out[i*n+j] = x[i] * scale[i]
		}
	}
	return out
}

// cholesky factors a symmetric matrix after bringing its diagonal to 1.
func cholesky(a []float64, n int) (l, scale []float64) {
	scale = make([]float64, n)
	for i := range n {
		if !(a[i*n+i] > 0) {
			return nil, nil
		}
		scale[i] = 1 / math.Sqrt(a[i*n+i])
	}
	l = make([]float64, n*n)
	for i := range n {
		for j := 0; j <= i; j++ {
			sum := a[i*n+j] * scale[i] * scale[j]
			for k := range j {
				sum -= l[i*n+k] * l[j*n+k]
			}
			switch {
			case i != j:
				l[i*n+j] = sum / l[j*n+j]
			case sum > 1e-14:
				l[i*n+i] = math.Sqrt(sum)
			default:
				return nil, nil
			}
		}
	}
	return l, scale
}

// back solves l l' x = b in place.
func back(l, x []float64, n int) {
	for i := range n {
		for k := range i {
			x[i] -= l[i*n+k] * x[k]
		}
		x[i] /= l[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= l[k*n+i] * x[k]
		}
		x[i] /= l[i*n+i]
	}
}
