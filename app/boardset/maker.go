package boardset

import (
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Correction is a stroke that a maker would draw: along the middle of the
// thickest stretch of the largest error.
type Correction struct {
	Kind   photo.Label
	Points []geom.Point // mm of the face
	Width  float64
}

// The simulated maker: strokes of at most strokeLength, strokeWidth wide, on
// errors at least errorAlong x errorAcross.
const (
	strokeLength = 120
	strokeWidth  = 4
	errorAlong   = 6
	errorAcross  = 3
)

// Correct looks at a split and returns the stroke that mends the worst of it;
// ok is false where there is nothing worth a stroke.
func Correct(got, truth *photo.Mask) (c Correction, ok bool) {
	w, h := truth.W, truth.H
	wrong := make([]bool, w*h)
	for k, t := range truth.Pix {
		i, j := k%w, k/w
		g := got.At(min(i*got.W/w, got.W-1), min(j*got.H/h, got.H-1)) == photo.Sap
		wrong[k] = t == photo.Heart && g || t == photo.Sap && !g
	}
	wrong = opened(wrong, w, h)
	region := largest(wrong, w, h)
	if region == nil {
		return c, false
	}
	sap, n := 0, 0
	for k, v := range region {
		if v {
			n++
			if truth.Pix[k] == photo.Sap {
				sap++
			}
		}
	}
	c.Kind, c.Width = photo.Heart, strokeWidth
	if 2*sap > n {
		c.Kind = photo.Sap
	}
	for k := range region {
		region[k] = region[k] && truth.Pix[k] == c.Kind
	}
	c.Points = middle(region, truth)
	return c, len(c.Points) > 1
}

// opened keeps what holds a block of errorAlong x errorAcross cells.
func opened(in []bool, w, h int) []bool {
	out := make([]bool, len(in))
	for j := 0; j+errorAcross <= h; j++ {
		for i := 0; i+errorAlong <= w; i++ {
			full := true
			for b := 0; b < errorAcross && full; b++ {
				for a := 0; a < errorAlong && full; a++ {
					full = in[(j+b)*w+i+a]
				}
			}
			for b := 0; b < errorAcross && full; b++ {
				for a := 0; a < errorAlong; a++ {
					out[(j+b)*w+i+a] = true
				}
			}
		}
	}
	return out
}

// largest returns the largest region, nil where there is none.
func largest(in []bool, w, h int) []bool {
	seen := make([]bool, len(in))
	var best []int
	for k := range in {
		if !in[k] || seen[k] {
			continue
		}
		list := []int{k}
		seen[k] = true
		for n := 0; n < len(list); n++ {
			i, j := list[n]%w, list[n]/w
			for _, d := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
				x, y := i+d[0], j+d[1]
				if x < 0 || y < 0 || x >= w || y >= h || !in[y*w+x] || seen[y*w+x] {
					continue
				}
				seen[y*w+x] = true
				list = append(list, y*w+x)
			}
		}
		if len(list) > len(best) {
			best = list
		}
	}
	if best == nil {
		return nil
	}
	out := make([]bool, len(in))
	for _, k := range best {
		out[k] = true
	}
	return out
}

// middle returns the line along the thickest stretch of a region.
func middle(region []bool, m *photo.Mask) []geom.Point {
	w, h := m.W, m.H
	// A border of cells outside, so that the face's edge counts as one.
	outside := make([]bool, (w+2)*(h+2))
	for k := range outside {
		i, j := k%(w+2)-1, k/(w+2)-1
		outside[k] = i < 0 || j < 0 || i >= w || j >= h || !region[j*w+i]
	}
	d := distances(outside, w+2, h+2)
	thick, at := make([]float64, w), make([]int, w)
	some := 0
	for i := range thick {
		for j := 0; j < h; j++ {
			if v := d[(j+1)*(w+2)+i+1]; v > thick[i] {
				thick[i], at[i] = v, j
			}
		}
		if thick[i] > 0 {
			some++
		}
	}
	n := min(strokeLength, some)
	if n < 2 {
		return nil
	}
	best, start, sum := -1., 0, 0.
	for i, v := range thick {
		sum += v
		if i >= n {
			sum -= thick[i-n]
		}
		if i >= n-1 && sum > best {
			best, start = sum, i-n+1
		}
	}
	var out []geom.Point
	for i := start; i < start+n; i++ {
		if thick[i] == 0 {
			continue
		}
		// The middle jumps where a region is as thick in two places.
		lo, hi := max(start, i-5), min(start+n, i+6)
		rows := slices.Sorted(slices.Values(at[lo:hi]))
		j := rows[len(rows)/2]
		if !region[j*w+i] {
			j = at[i]
		}
		x := (float64(i) + 0.5) * m.Length / float64(w)
		y := m.Width - (float64(j)+0.5)*m.Width/float64(h)
		out = append(out, geom.Pt(x, math.Max(y, 0)))
	}
	return out
}
