package split

import (
	"context"
	"math"

	"heartside/layout/photo"
)

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
	inRows(nx, ny, func(from, to int) { alongRows(tmp, v, nx, from, to, k) })
	k = kernel(across)
	inRows(nx, ny, func(from, to int) { acrossRows(out, tmp, nx, ny, from, to, k) })
}

// fewCells is up to what size it is not worth the while to share out rows.
const fewCells = 1 << 14

// inRows runs f for stretches of rows, some at a time where there are many.
func inRows(nx, ny int, f func(from, to int)) {
	if nx*ny < fewCells {
		f(0, ny)
		return
	}
	const parts = 8
	_ = photo.Each(context.Background(), parts, func(i int) { f(i*ny/parts, (i+1)*ny/parts) })
}

func alongRows(out, v []float64, nx, from, to int, k []float64) {
	n := len(k) - 1
	line := make([]float64, nx+2*n)
	for j := from; j < to; j++ {
		row := v[j*nx : (j+1)*nx]
		copy(line[n:], row)
		for i := range n {
			line[i], line[n+nx+i] = row[0], row[nx-1]
		}
		o := out[j*nx : (j+1)*nx]
		for i := range o {
			s := k[0] * line[n+i]
			for d := 1; d <= n; d++ {
				s += k[d] * (line[n+i-d] + line[n+i+d])
			}
			o[i] = s
		}
	}
}

func acrossRows(out, v []float64, nx, ny, from, to int, k []float64) {
	for j := from; j < to; j++ {
		o := out[j*nx : (j+1)*nx]
		for i, c := range v[j*nx : (j+1)*nx] {
			o[i] = k[0] * c
		}
		for d := 1; d < len(k); d++ {
			a := v[max(j-d, 0)*nx:][:nx]
			b := v[min(j+d, ny-1)*nx:][:nx]
			kd := k[d]
			for i := range o {
				o[i] += kd * (a[i] + b[i])
			}
		}
	}
}
