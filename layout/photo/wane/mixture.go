package wane

import (
	"math"
	"slices"
)

// bell is a normal distribution with its share of a mixture.
type bell struct {
	mean  feature
	cov   [dims][dims]float64 // its lower half
	share float64
	inv   [dims][dims]float64 // lower triangle: |inv d|^2 is the squared distance
	lead  float64             // logarithm of the share over the root of the determinant
}

// mixture is a sum of normal distributions.
type mixture []bell

// leastSpread keeps a distribution from becoming narrower than what cameras
// and light do to one colour. Engineering choices.
var leastSpread = feature{0.05, 0.02, 0.02, 0.2, 0.2}

// mostSamples is how many cells a mixture is learned from.
const mostSamples = 2500

// thinnedOut takes evenly spaced ones of many.
func thinnedOut(list []feature) []feature {
	if len(list) <= mostSamples {
		return list
	}
	out := make([]feature, mostSamples)
	for i := range out {
		out[i] = list[i*len(list)/mostSamples]
	}
	return out
}

// learn fits a mixture of at most n distributions by expectation
// maximisation (Dempster, Laird and Rubin 1977), from groups along the
// direction in which the samples differ most. Nil for too few samples.
func learn(list []feature, n int) mixture {
	list = thinnedOut(list)
	if len(list) < 4*dims {
		return nil
	}
	n = min(n, len(list)/(4*dims))
	belongs := grouped(list, n)
	p := make([]float64, len(list)*n)
	for i, g := range belongs {
		p[i*n+g] = 1
	}
	var m mixture
	const rounds = 8
	for range rounds {
		m = m[:0]
		for g := range n {
			if b, ok := bellOf(list, p, g, n); ok {
				m = append(m, b)
			} else {
				m = append(m, bell{lead: math.Inf(-1)})
			}
		}
		for i := range list {
			most, row := math.Inf(-1), p[i*n:(i+1)*n]
			for g := range m {
				row[g] = m[g].log(&list[i])
				most = math.Max(most, row[g])
			}
			sum := 0.0
			for g := range row {
				row[g] = math.Exp(row[g] - most)
				sum += row[g]
			}
			for g := range row {
				row[g] /= sum
			}
		}
	}
	return slices.DeleteFunc(m, func(b bell) bool { return math.IsInf(b.lead, -1) })
}

// grouped puts samples into n groups (Lloyd 1982), which begin as equal parts
// along the main axis.
func grouped(list []feature, n int) []int {
	var mean feature
	for _, v := range list {
		for k := range v {
			mean[k] += v[k] / float64(len(list))
		}
	}
	axis := feature{1, 0.5, 0.25, 0.1, 0.1}
	for range 12 { // power iteration, in units of the least spread
		var next feature
		for _, v := range list {
			dot := 0.0
			for k := range v {
				dot += axis[k] * (v[k] - mean[k]) / leastSpread[k]
			}
			for k := range v {
				next[k] += dot * (v[k] - mean[k]) / leastSpread[k]
			}
		}
		l := 1e-12
		for _, v := range next {
			l += v * v
		}
		for k := range next {
			axis[k] = next[k] / math.Sqrt(l)
		}
	}
	along := make([]float64, len(list))
	order := make([]int, len(list))
	for i, v := range list {
		order[i] = i
		for k := range v {
			along[i] += axis[k] * (v[k] - mean[k]) / leastSpread[k]
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case along[a] < along[b]:
			return -1
		case along[a] > along[b]:
			return 1
		}
		return 0
	})
	out := make([]int, len(list))
	for rank, i := range order {
		out[i] = rank * n / len(list)
	}
	for range 6 {
		centre, count := make([]feature, n), make([]float64, n)
		for i, v := range list {
			count[out[i]]++
			for k := range v {
				centre[out[i]][k] += v[k]
			}
		}
		for i, v := range list {
			best := math.Inf(1)
			for g := range centre {
				if count[g] == 0 {
					continue
				}
				d := 0.0
				for k := range v {
					e := (v[k] - centre[g][k]/count[g]) / leastSpread[k]
					d += e * e
				}
				if d < best {
					best, out[i] = d, g
				}
			}
		}
	}
	return out
}

// bellOf fits one distribution to samples by their shares p[i*n+g].
func bellOf(list []feature, p []float64, g, n int) (bell, bool) {
	var b bell
	sum := 0.0
	for i, v := range list {
		q := p[i*n+g]
		sum += q
		for k := range v {
			b.mean[k] += q * v[k]
		}
	}
	if sum < 2*dims {
		return b, false
	}
	for k := range b.mean {
		b.mean[k] /= sum
	}
	for i, v := range list {
		q := p[i*n+g] / sum
		if q == 0 {
			continue
		}
		for k := range v {
			for l := range k + 1 {
				b.cov[k][l] += q * (v[k] - b.mean[k]) * (v[l] - b.mean[l])
			}
		}
	}
	for k := range b.cov {
		b.cov[k][k] += leastSpread[k] * leastSpread[k]
	}
	return b, b.shape(sum / float64(len(list)))
}

// shape sets the share, and what follows from the covariance.
func (b *bell) shape(share float64) bool {
	// Cholesky's root, then its inverse.
	var root [dims][dims]float64
	b.share, b.lead = share, math.Log(share)
	for i := range dims {
		for j := range i + 1 {
			s := b.cov[i][j]
			for k := range j {
				s -= root[i][k] * root[j][k]
			}
			if i != j {
				root[i][j] = s / root[j][j]
				continue
			}
			if !(s > 0) {
				return false
			}
			root[i][i] = math.Sqrt(s)
			b.lead -= math.Log(root[i][i])
		}
	}
	for j := range dims {
		b.inv[j][j] = 1 / root[j][j]
		for i := j + 1; i < dims; i++ {
			s := 0.0
			for k := j; k < i; k++ {
				s -= root[i][k] * b.inv[k][j]
			}
			b.inv[i][j] = s / root[i][i]
		}
	}
	return true
}

// log is the logarithm of the density, but for a constant that all share.
func (b *bell) log(v *feature) float64 {
	sum := 0.0
	var d feature
	for i := range dims {
		d[i] = v[i] - b.mean[i]
		s := 0.0
		for j := range i + 1 {
			s += b.inv[i][j] * d[j]
		}
		sum += s * s
	}
	return b.lead - sum/2
}

// log is about the logarithm of the mixture's density: that of its greatest
// part.
func (m mixture) log(v *feature) float64 {
	out := math.Inf(-1)
	for i := range m {
		out = math.Max(out, m[i].log(v))
	}
	return out
}
