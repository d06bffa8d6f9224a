package outline

import (
	"context"
	"image"
	"image/draw"
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

// at returns the colour at a place of the plane, between pixels by their
// distance, beyond the border that of the border.
func (p *plane) at(x, y float64) sample {
	x, y = min(max(x-0.5, 0), float64(p.w-1)), min(max(y-0.5, 0), float64(p.h-1))
	i, j := int(x), int(y)
	fx, fy := float32(x-float64(i)), float32(y-float64(j))
	o := j*p.w + i
	r, d := 0, 0
	if i+1 < p.w {
		r = 1
	}
	if j+1 < p.h {
		d = p.w
	}
	return between(&p.pix[o], &p.pix[o+r], &p.pix[o+d], &p.pix[o+r+d], fx, fy)
}

// source reads single pixels of a photograph, counted from its own top left.
type source struct {
	w, h int
	rgba *image.RGBA
	ycc  *image.YCbCr
}

func sourceOf(img image.Image) source {
	b := img.Bounds()
	s := source{w: b.Dx(), h: b.Dy()}
	switch m := img.(type) {
	case *image.YCbCr:
		s.ycc = m
	case *image.RGBA:
		s.rgba = m
	default:
		s.rgba = image.NewRGBA(image.Rect(0, 0, s.w, s.h))
		draw.Draw(s.rgba, s.rgba.Rect, img, b.Min, draw.Src)
	}
	return s
}

// pixel adds the pixel at column i, row j.
func (s *source) pixel(i, j int) sample {
	if m := s.ycc; m != nil {
		x, y := i+m.Rect.Min.X, j+m.Rect.Min.Y
		c := m.COffset(x, y)
		return sample{float32(m.Y[m.YOffset(x, y)]), chroma * (float32(m.Cb[c]) - 128), chroma * (float32(m.Cr[c]) - 128)}
	}
	m := s.rgba
	px := m.Pix[j*m.Stride+4*i:]
	r, g, b := float32(px[0]), float32(px[1]), float32(px[2])
	// The light and colour of JFIF.
	y := 0.299*r + 0.587*g + 0.114*b
	return sample{y, chroma * 0.564 * (b - y), chroma * 0.713 * (r - y)}
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
	n := float32(0)
	for a := 0; a < k; a += step {
		n++
	}
	n = 1 / (n * n)
	for j := 0; j < p.h; j++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		row := p.pix[j*p.w : (j+1)*p.w]
		for b := 0; b < k && j*k+b < s.h; b += step {
			for i := range row {
				for a := 0; a < k && i*k+a < s.w; a += step {
					v := s.pixel(i*k+a, j*k+b)
					for c := range v {
						row[i][c] += v[c]
					}
				}
			}
		}
		for i := range row {
			for c := range row[i] {
				row[i][c] *= n
			}
		}
	}
	return p, nil
}

// smaller averages whole cells of k x k pixels.
func (p *plane) smaller(k int) *plane {
	if k <= 1 {
		return p
	}
	q := &plane{w: max(1, p.w/k), h: max(1, p.h/k), factor: p.factor * float64(k)}
	q.pix = make([]sample, q.w*q.h)
	for j := 0; j < q.h; j++ {
		for i := 0; i < q.w; i++ {
			var sum sample
			n := float32(0)
			for b := j * k; b < min((j+1)*k, p.h); b++ {
				for a := i * k; a < min((i+1)*k, p.w); a++ {
					for c, v := range p.pix[b*p.w+a] {
						sum[c] += v
					}
					n++
				}
			}
			for c := range sum {
				q.pix[j*q.w+i][c] = sum[c] / n
			}
		}
	}
	return q
}

// blurred smooths by the weights 1 2 1 in both directions, n times.
func (p *plane) blurred(n int) *plane {
	q := &plane{w: p.w, h: p.h, factor: p.factor, pix: append([]sample(nil), p.pix...)}
	tmp := make([]sample, len(q.pix))
	pass := func(dst, src []sample, count, step, lines, line int) {
		for l := 0; l < lines; l++ {
			o := l * line
			for i := 0; i < count; i++ {
				a, b, c := o+max(i-1, 0)*step, o+i*step, o+min(i+1, count-1)*step
				for k := 0; k < colours; k++ {
					dst[b][k] = 0.25*src[a][k] + 0.5*src[b][k] + 0.25*src[c][k]
				}
			}
		}
	}
	for ; n > 0; n-- {
		pass(tmp, q.pix, q.w, 1, q.h, q.w)
		pass(q.pix, tmp, q.h, q.w, q.w, 1)
	}
	return q
}
