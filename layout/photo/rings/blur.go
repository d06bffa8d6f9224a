package rings

import "math"

// gauss returns an nx x ny picture blurred by widths sx and sy, cells; beyond
// its rim the picture is taken to end, and what is there weighs more.
func gauss(p []float64, nx, ny int, sx, sy float64) []float64 {
	out := append([]float64(nil), p...)
	if sx > 0 {
		for j := range ny {
			blurLine(out[j*nx:(j+1)*nx], sx)
		}
	}
	if sy > 0 {
		col := make([]float64, ny)
		for i := range nx {
			for j := range ny {
				col[j] = out[j*nx+i]
			}
			blurLine(col, sy)
			for j := range ny {
				out[j*nx+i] = col[j]
			}
		}
	}
	return out
}

// blurLine blurs one line in place: narrow widths by their weights, broad ones
// by three running means, which come close to a Gaussian (Wells 1986).
func blurLine(p []float64, s float64) {
	if s > 3 {
		half := int(math.Round(s)) // variance of a mean over 2h+1 cells, three times, is h(h+1)
		for range 3 {
			boxLine(p, half)
		}
		return
	}
	r := int(math.Ceil(3 * s))
	w := make([]float64, r+1)
	for k := range w {
		w[k] = math.Exp(-float64(k*k) / (2 * s * s))
	}
	in := append([]float64(nil), p...)
	for i := range p {
		var sum, all float64
		for k := -r; k <= r; k++ {
			if i+k < 0 || i+k >= len(p) {
				continue
			}
			g := w[max(k, -k)]
			sum += g * in[i+k]
			all += g
		}
		p[i] = sum / all
	}
}

func boxLine(p []float64, half int) {
	sum := make([]float64, len(p)+1)
	for i, v := range p {
		sum[i+1] = sum[i] + v
	}
	for i := range p {
		a, b := max(0, i-half), min(len(p), i+half+1)
		p[i] = (sum[b] - sum[a]) / float64(b-a)
	}
}
