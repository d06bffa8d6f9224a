package outline

import (
	"image"
	"image/draw"
)

// reader gives colours at places of the photograph, pixels.
type reader interface {
	at(x, y float64) sample
	// add adds to each colour k times that at its place.
	add(to []sample, places []place, k float32)
}

// place is where a colour is looked at.
type place struct{ x, y float64 }

// scaled reads a plane by places of the photograph.
type scaled struct{ p *plane }

func (s scaled) at(x, y float64) sample { return s.p.at(x/s.p.factor, y/s.p.factor) }

func (s scaled) add(to []sample, places []place, k float32) {
	s.p.addAt(to, places, 1/s.p.factor, k)
}

// at returns the colour at a place of the plane, between pixels by their
// distance, beyond the border that of the border.
func (p *plane) at(x, y float64) (c sample) {
	var to [1]sample
	p.addAt(to[:], []place{{x, y}}, 1, 1)
	return to[0]
}

func (p *plane) add(to []sample, places []place, k float32) { p.addAt(to, places, 1, k) }

// addAt reads places of a picture that shows 1/scale times what the plane does.
func (p *plane) addAt(to []sample, places []place, scale float64, k float32) {
	right, low := float64(p.w-1), float64(p.h-1)
	for n := range places {
		x, y := places[n].x*scale-0.5, places[n].y*scale-0.5
		r, d := 1, p.w
		if !(x >= 0 && y >= 0 && x < right && y < low) {
			x, y = min(max(x, 0), right), min(max(y, 0), low)
			if x == right {
				r = 0
			}
			if y == low {
				d = 0
			}
		}
		i, j := int(x), int(y)
		fx, fy := float32(x-float64(i)), float32(y-float64(j))
		o := j*p.w + i
		a, b, c, e := &p.pix[o], &p.pix[o+r], &p.pix[o+d], &p.pix[o+r+d]
		t := &to[n]
		t[0] += k * mixed(a[0], b[0], c[0], e[0], fx, fy)
		t[1] += k * mixed(a[1], b[1], c[1], e[1], fx, fy)
		t[2] += k * mixed(a[2], b[2], c[2], e[2], fx, fy)
	}
}

// mixed is what lies between four neighbours: a and b above, c and e below.
func mixed(a, b, c, e, fx, fy float32) float32 {
	top := a + fx*(b-a)
	low := c + fx*(e-c)
	return top + fy*(low-top)
}

// source reads single pixels of a photograph, counted from its own top left.
type source struct {
	w, h   int
	rgba   *image.RGBA
	ycc    *image.YCbCr
	sx, sy uint // colour samples lie 1<<sx pixels apart across, 1<<sy down
}

func sourceOf(img image.Image) source {
	b := img.Bounds()
	s := source{w: b.Dx(), h: b.Dy()}
	switch m := img.(type) {
	case *image.YCbCr:
		if b.Min.X < 0 || b.Min.Y < 0 {
			break
		}
		s.ycc = m
		switch m.SubsampleRatio {
		case image.YCbCrSubsampleRatio422:
			s.sx = 1
		case image.YCbCrSubsampleRatio420:
			s.sx, s.sy = 1, 1
		case image.YCbCrSubsampleRatio440:
			s.sy = 1
		case image.YCbCrSubsampleRatio411:
			s.sx = 2
		case image.YCbCrSubsampleRatio410:
			s.sx, s.sy = 2, 1
		}
		return s
	case *image.RGBA:
		s.rgba = m
		return s
	}
	s.rgba = image.NewRGBA(image.Rect(0, 0, s.w, s.h))
	draw.Draw(s.rgba, s.rgba.Rect, img, b.Min, draw.Src)
	return s
}

// tint is where in its row the colour of a pixel stands, and tintRow where
// the colours of a row begin.
func (s *source) tint(x int) int {
	left := s.ycc.Rect.Min.X
	return (x+left)>>s.sx - left>>s.sx
}

func (s *source) tintRow(y int) int {
	top := s.ycc.Rect.Min.Y
	return ((y+top)>>s.sy - top>>s.sy) * s.ycc.CStride
}

// addRow adds every step-th pixel of row y to the cells of k pixels.
func (s *source) addRow(row []sample, y, k, step int) {
	if s.ycc == nil {
		for i := range row {
			for x := i * k; x < min((i+1)*k, s.w); x += step {
				v := s.pixel(x, y)
				for c := range v {
					row[i][c] += v[c]
				}
			}
		}
		return
	}
	light, cb, cr := s.ycc.Y[y*s.ycc.YStride:], s.ycc.Cb[s.tintRow(y):], s.ycc.Cr[s.tintRow(y):]
	for i := range row {
		var l, b, r, n int
		for x := i * k; x < min((i+1)*k, s.w); x += step {
			o := s.tint(x)
			l += int(light[x])
			b += int(cb[o])
			r += int(cr[o])
			n++
		}
		v := &row[i]
		v[0] += float32(l)
		v[1] += chroma * float32(b-128*n)
		v[2] += chroma * float32(r-128*n)
	}
}

// pixel returns the pixel at column i, row j of a picture in red, green and
// blue.
func (s *source) pixel(i, j int) sample {
	m := s.rgba
	px := m.Pix[j*m.Stride+4*i:]
	r, g, b := float32(px[0]), float32(px[1]), float32(px[2])
	// The light and colour of JFIF.
	y := 0.299*r + 0.587*g + 0.114*b
	return sample{y, chroma * 0.564 * (b - y), chroma * 0.713 * (r - y)}
}

// at reads between pixels by their distance.
func (s *source) at(x, y float64) sample {
	var to [1]sample
	s.add(to[:], []place{{x, y}}, 1)
	return to[0]
}

func (s *source) add(to []sample, places []place, k float32) {
	right, low := float64(s.w-1), float64(s.h-1)
	for n := range places {
		x, y := places[n].x-0.5, places[n].y-0.5
		if !(x >= 0 && y >= 0 && x < right && y < low) {
			x, y = min(max(x, 0), right), min(max(y, 0), low)
		}
		i, j := int(x), int(y)
		fx, fy := float32(x-float64(i)), float32(y-float64(j))
		r, d := min(i+1, s.w-1), min(j+1, s.h-1)
		t := &to[n]
		if s.ycc == nil {
			a, b, c, e := s.pixel(i, j), s.pixel(r, j), s.pixel(i, d), s.pixel(r, d)
			t[0] += k * mixed(a[0], b[0], c[0], e[0], fx, fy)
			t[1] += k * mixed(a[1], b[1], c[1], e[1], fx, fy)
			t[2] += k * mixed(a[2], b[2], c[2], e[2], fx, fy)
			continue
		}
		m := s.ycc
		u, v := m.Y[j*m.YStride:], m.Y[d*m.YStride:]
		t[0] += k * mixed(float32(u[i]), float32(u[r]), float32(v[i]), float32(v[r]), fx, fy)
		p, q := s.tint(i), s.tint(r)
		o, w := s.tintRow(j), s.tintRow(d)
		a, b, c, e := o+p, o+q, w+p, w+q
		t[1] += k * chroma * (mixed(float32(m.Cb[a]), float32(m.Cb[b]), float32(m.Cb[c]), float32(m.Cb[e]), fx, fy) - 128)
		t[2] += k * chroma * (mixed(float32(m.Cr[a]), float32(m.Cr[b]), float32(m.Cr[c]), float32(m.Cr[e]), fx, fy) - 128)
	}
}
