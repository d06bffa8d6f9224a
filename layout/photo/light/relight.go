package light

import (
	"context"
	"image"
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// codes are the 8-bit sRGB values of 16385 steps of light from 0 to 1: a step
// is a fifth of a value where the curve is steepest. It is never changed.
var codes = func() (t [1<<14 + 1]uint8) {
	for i := range t {
		v := float64(i) / (1 << 14)
		t[i], _, _ = colour.Linear{R: v}.SRGB()
	}
	return t
}()

func code(light float64) uint8 { return codes[int(light*(1<<14)+0.5)] }

// knee is the light from which brightened pixels are held back, so that none
// burns out that was not burnt before.
const knee = 0.85

// held returns what light m comes to that was raised from was: itself below
// the knee, above it ever less, never white.
func held(m, was float64) float64 {
	if m <= knee || m <= was {
		return m
	}
	return math.Max(was, knee+(1-knee)*(1-math.Exp(-(m-knee)/(1-knee))))
}

// relight returns s with each pixel's light times the factors that gains fills
// in for its row, and the share of pixels that were held back from burning
// out; they keep their hue.
func relight(ctx context.Context, s *photo.Squared, gains func(j int, row []colour.Linear)) (*photo.Squared, float64, error) {
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	out := &photo.Squared{Pix: image.NewRGBA(image.Rect(0, 0, nx, ny)), PxPerMM: s.PxPerMM, Length: s.Length, Width: s.Width}
	row := make([]colour.Linear, nx)
	back := 0
	for j := range ny {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		gains(j, row)
		from, to := s.Pix.Pix[j*s.Pix.Stride:][:4*nx], out.Pix.Pix[j*out.Pix.Stride:][:4*nx]
		for i, k := range row {
			px, o := from[4*i:4*i+4], to[4*i:4*i+4]
			a, b, c := colour.Light(px[0]), colour.Light(px[1]), colour.Light(px[2])
			r, g, bl := a*k.R, b*k.G, c*k.B
			if m := max(r, g, bl); m > knee {
				if h := held(m, max(a, b, c)); h < m {
					r, g, bl = r*h/m, g*h/m, bl*h/m
					back++
				}
			}
			o[0], o[1], o[2], o[3] = code(min(r, 1)), code(min(g, 1)), code(min(bl, 1)), px[3]
		}
	}
	return out, float64(back) / float64(nx*ny), nil
}
