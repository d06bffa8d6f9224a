package outline

import (
	"context"

	"heartside/layout/photo"
)

// colours counts the channels of a plane: light and two of colour.
const colours = 3

// chroma is how much more a step of colour counts than one of light: shadows
// make light, not colour. Engineering choice.
const chroma = 1.5

// sample is a colour: light 0 to 255 and two channels of colour.
type sample [colours]float32

func (a sample) sub(b sample) sample { return sample{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a sample) dot(b sample) float32 {
	return a[0]*b[0] + a[1]*b[1] + a[2]*b[2]
}

// plane is a picture made smaller by a whole factor.
type plane struct {
	w, h   int
	factor float64 // pixels of the photograph along one of the plane
	pix    []sample
}

// planeOf averages the photograph to at most long pixels along its longer side.
func planeOf(ctx context.Context, s *source, long int) (*plane, error) {
	k := max(1, (max(s.w, s.h)+long-1)/long)
	p := &plane{w: max(1, s.w/k), h: max(1, s.h/k), factor: float64(k)}
	p.pix = make([]sample, p.w*p.h)
	// Of a large cell every second pixel will do.
	step := 1
	if k >= 4 {
		step = 2
	}
	n := (k + step - 1) / step
	per := 1 / float32(n*n)
	if err := photo.Each(ctx, p.h, func(j int) {
		row := p.pix[j*p.w : (j+1)*p.w]
		for b := 0; b < k && j*k+b < s.h; b += step {
			s.addRow(row, j*k+b, k, step)
		}
		for i := range row {
			for c := range row[i] {
				row[i][c] *= per
			}
		}
	}); err != nil {
		return nil, err
	}
	return p, nil
}

// smaller averages whole cells of k x k pixels.
func (p *plane) smaller(ctx context.Context, k int) (*plane, error) {
	if k <= 1 {
		return p, nil
	}
	q := &plane{w: max(1, p.w/k), h: max(1, p.h/k), factor: p.factor * float64(k)}
	q.pix = make([]sample, q.w*q.h)
	if err := photo.Each(ctx, q.h, func(j int) {
		for i := 0; i < q.w; i++ {
			var sum sample
			n := float32(0)
			for b := j * k; b < min((j+1)*k, p.h); b++ {
				for a := i * k; a < min((i+1)*k, p.w); a++ {
					v := &p.pix[b*p.w+a]
					sum[0] += v[0]
					sum[1] += v[1]
					sum[2] += v[2]
					n++
				}
			}
			for c := range sum {
				q.pix[j*q.w+i][c] = sum[c] / n
			}
		}
	}); err != nil {
		return nil, err
	}
	return q, nil
}

// blurred smooths by the weights 1 2 1 in both directions, twice.
func (p *plane) blurred(ctx context.Context) (*plane, error) {
	q := &plane{w: p.w, h: p.h, factor: p.factor, pix: append([]sample(nil), p.pix...)}
	tmp := make([]sample, len(q.pix))
	smooth := func(dst, a, b, c *sample) {
		dst[0] = 0.25*a[0] + 0.5*b[0] + 0.25*c[0]
		dst[1] = 0.25*a[1] + 0.5*b[1] + 0.25*c[1]
		dst[2] = 0.25*a[2] + 0.5*b[2] + 0.25*c[2]
	}
	for range 2 {
		if err := photo.Each(ctx, q.h, func(j int) {
			to, from := tmp[j*q.w:(j+1)*q.w], q.pix[j*q.w:(j+1)*q.w]
			for i := range to {
				smooth(&to[i], &from[max(i-1, 0)], &from[i], &from[min(i+1, q.w-1)])
			}
		}); err != nil {
			return nil, err
		}
		if err := photo.Each(ctx, q.h, func(j int) {
			up, low := max(j-1, 0), min(j+1, q.h-1)
			for i := range q.w {
				smooth(&q.pix[j*q.w+i], &tmp[up*q.w+i], &tmp[j*q.w+i], &tmp[low*q.w+i])
			}
		}); err != nil {
			return nil, err
		}
	}
	return q, nil
}
