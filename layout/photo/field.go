package photo

import (
	"math"

	"heartside/layout/colour"
)

// Field returns the mean colours of the face in cells of step mm, in the
// face's own coordinates: y up from its own y = 0. Light is averaged, not
// pixel values. The last column and row may cover less than a cell. Nil where
// step is not more than 0.
func (s *Squared) Field(step float64) *colour.Field {
	if !(step > 0) {
		return nil
	}
	f := &colour.Field{
		Step: step,
		NX:   int(math.Ceil(s.Length/step - 1e-9)), NY: int(math.Ceil(s.Width/step - 1e-9)),
	}
	f.Lab = make([]colour.Lab, f.NX*f.NY)
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	cells := cellsOf(nx, s.Length, step, f.NX)
	rows := cellsOf(ny, s.Width, step, f.NY)
	lin := linear()
	sums := make([][4]float64, f.NX)
	for j := 0; j < f.NY; j++ {
		clear(sums)
		for _, r := range rows[j] {
			row := s.Pix.Pix[(ny-1-r.i)*s.Pix.Stride:]
			for i := range sums {
				for _, c := range cells[i] {
					px, w := row[4*c.i:4*c.i+4], r.w*c.w
					if px[3] == 0 {
						continue
					}
					sums[i][0] += w * lin[px[0]]
					sums[i][1] += w * lin[px[1]]
					sums[i][2] += w * lin[px[2]]
					sums[i][3] += w
				}
			}
		}
		for i, v := range sums {
			at := &f.Lab[j*f.NX+i]
			if v[3] <= 0 {
				*at = colour.Lab{L: math.NaN()}
				continue
			}
			*at = lab(v[0]/v[3], v[1]/v[3], v[2]/v[3])
		}
	}
	return f
}

// cellsOf returns the pixels under each of n cells of step mm, with weights in
// pixels.
func cellsOf(pixels int, length, step float64, n int) [][]share {
	out := make([][]share, n)
	per := float64(pixels) / length
	for i := range out {
		a, b := float64(i)*step*per, math.Min(float64(i+1)*step*per, float64(pixels))
		for p := int(a); p < pixels && float64(p) < b-1e-9; p++ {
			out[i] = append(out[i], share{p, math.Min(b, float64(p+1)) - math.Max(a, float64(p))})
		}
	}
	return out
}

// linear returns the light of each sRGB value, 0 to 1 (IEC 61966-2-1).
func linear() *[256]float64 {
	var t [256]float64
	for i := range t {
		v := float64(i) / 255
		if v <= 0.04045 {
			t[i] = v / 12.92
		} else {
			t[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return &t
}

// lab turns linear sRGB into CIELAB for D65 (IEC 61966-2-1, CIE 15).
func lab(r, g, b float64) colour.Lab {
	x := (0.4124*r + 0.3576*g + 0.1805*b) / 0.9505
	y := 0.2126*r + 0.7152*g + 0.0722*b
	z := (0.0193*r + 0.1192*g + 0.9505*b) / 1.0890
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return colour.Lab{L: 116*f(y) - 16, A: 500 * (f(x) - f(y)), B: 200 * (f(y) - f(z))}
}
