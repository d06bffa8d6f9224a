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
	type sum struct {
		light  colour.Linear
		weight float64
	}
	sums := make([]sum, f.NX)
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
					sums[i].light.R += w * colour.Light(px[0])
					sums[i].light.G += w * colour.Light(px[1])
					sums[i].light.B += w * colour.Light(px[2])
					sums[i].weight += w
				}
			}
		}
		for i, v := range sums {
			at := &f.Lab[j*f.NX+i]
			if v.weight <= 0 {
				*at = colour.Lab{L: math.NaN()}
				continue
			}
			*at = colour.Linear{R: v.light.R / v.weight, G: v.light.G / v.weight, B: v.light.B / v.weight}.Lab()
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
