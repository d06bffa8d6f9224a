package split

import "math"

// kernel returns the weights of a Gaussian of sigma cells, the middle first.
func kernel(sigma float64) []float64 {
	if !(sigma > 0) {
		return []float64{1}
	}
	n := max(1, int(math.Ceil(2.5*sigma)))
	k := make([]float64, n+1)
	sum := 0.0
	for i := range k {
		k[i] = math.Exp(-0.5 * float64(i*i) / (sigma * sigma))
		sum += k[i]
		if i > 0 {
			sum += k[i]
		}
	}
	for i := range k {
		k[i] /= sum
	}
	return k
}

// smooth returns v under a Gaussian, sigmas in cells across and along. At the
// edges the outermost cell stands for those beyond.
func smooth(v []float64, nx, ny int, across, along float64) []float64 {
	out := make([]float64, len(v))
	smoothInto(out, make([]float64, len(v)), v, nx, ny, across, along)
	return out
}

// smoothInto is smooth with the caller's memory. v may be out.
func smoothInto(out, tmp, v []float64, nx, ny int, across, along float64) {
	k := kernel(along)
	n := len(k) - 1
	line := make([]float64, nx+2*n)
	for j := range ny {
		row := v[j*nx : (j+1)*nx]
		copy(line[n:], row)
		for i := range n {
			line[i], line[n+nx+i] = row[0], row[nx-1]
		}
		o := tmp[j*nx : (j+1)*nx]
		for i := range o {
			s := k[0] * line[n+i]
			for d := 1; d <= n; d++ {
				s += k[d] * (line[n+i-d] + line[n+i+d])
			}
			o[i] = s
		}
	}
	k = kernel(across)
	n = len(k) - 1
	for j := range ny {
		o := out[j*nx : (j+1)*nx]
		for i, c := range tmp[j*nx : (j+1)*nx] {
			o[i] = k[0] * c
		}
		for d := 1; d <= n; d++ {
			a := tmp[max(j-d, 0)*nx:][:nx]
			b := tmp[min(j+d, ny-1)*nx:][:nx]
			kd := k[d]
			for i := range o {
				o[i] += kd * (a[i] + b[i])
			}
		}
	}
}
