package boardset

import "math"

// distances returns, for each cell of w x h, how far the nearest cell that is
// in lies, cells from centre to centre: 0 where it is in itself, infinite
// where none is. Exact, row by row and then column by column after Felzenszwalb
// and Huttenlocher (2012).
func distances(in []bool, w, h int) []float64 {
	d := make([]float64, w*h)
	for i, v := range in {
		if !v {
			d[i] = math.Inf(1)
		}
	}
	n := max(w, h)
	t := transform{f: make([]float64, n), v: make([]int, n), z: make([]float64, n+1)}
	for j := 0; j < h; j++ {
		t.line(d[j*w:], 1, w)
	}
	for i := 0; i < w; i++ {
		t.line(d[i:], w, h)
	}
	for i, v := range d {
		d[i] = math.Sqrt(v)
	}
	return d
}

// transform holds the lower envelope of parabolas along a line.
type transform struct {
	f, z []float64
	v    []int
}

// line replaces squared distances along a line of n cells, step apart.
func (t *transform) line(d []float64, step, n int) {
	k := -1
	for q := 0; q < n; q++ {
		t.f[q] = d[q*step]
		if math.IsInf(t.f[q], 1) {
			continue
		}
		for k >= 0 {
			p := t.v[k]
			s := ((t.f[q] + float64(q*q)) - (t.f[p] + float64(p*p))) / float64(2*(q-p))
			if s > t.z[k] {
				k++
				t.v[k], t.z[k] = q, s
				break
			}
			k--
		}
		if k < 0 {
			k = 0
			t.v[0], t.z[0] = q, math.Inf(-1)
		}
	}
	if k < 0 {
		return
	}
	t.z[k+1] = math.Inf(1)
	for q, i := 0, 0; q < n; q++ {
		for t.z[i+1] < float64(q) {
			i++
		}
		p := t.v[i]
		d[q*step] = float64((q-p)*(q-p)) + t.f[p]
	}
}
