package photo

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"heartside/layout/geom"
)

// source gives the channels of a picture at places between its pixels, whole
// numbers at their centres, and turns channels into colour. Beyond the border
// the nearest pixel stands.
type source interface {
	at(x, y float64) (a, b, c float64)
	colour(px []uint8, a, b, c float64)
}

// sourceOf returns the fastest way to read src near the corners.
func sourceOf(src image.Image, corners [4]geom.Point) source {
	switch m := src.(type) {
	case *image.YCbCr:
		return newYCC(m)
	case *image.RGBA:
		return rgbaSource{m}
	}
	// Anything else is copied once, as far as the board reaches.
	b := geom.Polygon(corners[:]).Bounds().Inset(-2)
	part := image.Rect(int(math.Floor(b.Min.X)), int(math.Floor(b.Min.Y)), int(math.Ceil(b.Max.X)), int(math.Ceil(b.Max.Y)))
	if part = part.Intersect(src.Bounds()); part.Empty() {
		part = src.Bounds()
	}
	out := image.NewRGBA(part)
	draw.Draw(out, part, src, part.Min, draw.Src)
	return rgbaSource{out}
}

// cell returns the pixels about a coordinate and the weight of the second.
func cell(v float64, lo, hi int) (int, int, float64) {
	f := math.Floor(v)
	i := int(f)
	if i >= lo && i+1 < hi { // mostly
		return i, i + 1, v - f
	}
	i = int(min(max(f, float64(lo)-1), float64(hi)))
	a, b := min(max(i, lo), hi-1), min(max(i+1, lo), hi-1)
	return a, b, v - f
}

type rgbaSource struct{ m *image.RGBA }

func (s rgbaSource) at(x, y float64) (red, green, blue float64) {
	r := s.m.Rect
	x0, x1, fx := cell(x, r.Min.X, r.Max.X)
	y0, y1, fy := cell(y, r.Min.Y, r.Max.Y)
	a, b := s.m.Pix[s.m.PixOffset(x0, y0):], s.m.Pix[s.m.PixOffset(x1, y0):]
	c, d := s.m.Pix[s.m.PixOffset(x0, y1):], s.m.Pix[s.m.PixOffset(x1, y1):]
	return mix(a[0], b[0], c[0], d[0], fx, fy), mix(a[1], b[1], c[1], d[1], fx, fy), mix(a[2], b[2], c[2], d[2], fx, fy)
}

func (rgbaSource) colour(px []uint8, r, g, b float64) {
	px[0], px[1], px[2], px[3] = uint8(r+0.5), uint8(g+0.5), uint8(b+0.5), 255
}

func mix(a, b, c, d uint8, fx, fy float64) float64 {
	top := float64(a) + fx*(float64(b)-float64(a))
	low := float64(c) + fx*(float64(d)-float64(c))
	return top + fy*(low-top)
}

// yccSource reads a JPEG picture as it was stored, light between pixels and
// colour between the coarser colour samples.
type yccSource struct {
	m      *image.YCbCr
	sx, sy int       // pixels a colour sample covers
	kx, ky float64   // of one pixel, in colour samples
	c      rectangle // of the colour samples
}

type rectangle struct{ x0, y0, x1, y1 int }

func newYCC(m *image.YCbCr) yccSource {
	s := yccSource{m: m, sx: 1, sy: 1}
	switch m.SubsampleRatio {
	case image.YCbCrSubsampleRatio422:
		s.sx = 2
	case image.YCbCrSubsampleRatio420:
		s.sx, s.sy = 2, 2
	case image.YCbCrSubsampleRatio440:
		s.sy = 2
	case image.YCbCrSubsampleRatio411:
		s.sx = 4
	case image.YCbCrSubsampleRatio410:
		s.sx, s.sy = 4, 2
	}
	s.kx, s.ky = 1/float64(s.sx), 1/float64(s.sy)
	r := m.Rect
	s.c = rectangle{r.Min.X / s.sx, r.Min.Y / s.sy, (r.Max.X + s.sx - 1) / s.sx, (r.Max.Y + s.sy - 1) / s.sy}
	return s
}

func (s yccSource) at(x, y float64) (light, cb, cr float64) {
	r := s.m.Rect
	x0, x1, fx := cell(x, r.Min.X, r.Max.X)
	y0, y1, fy := cell(y, r.Min.Y, r.Max.Y)
	a, b := (y0-r.Min.Y)*s.m.YStride-r.Min.X, (y1-r.Min.Y)*s.m.YStride-r.Min.X
	light = mix(s.m.Y[a+x0], s.m.Y[a+x1], s.m.Y[b+x0], s.m.Y[b+x1], fx, fy)
	// The centre of a colour sample lies amid the pixels it covers.
	cx, cy := (x+0.5)*s.kx-0.5, (y+0.5)*s.ky-0.5
	x0, x1, fx = cell(cx, s.c.x0, s.c.x1)
	y0, y1, fy = cell(cy, s.c.y0, s.c.y1)
	a, b = (y0-s.c.y0)*s.m.CStride-s.c.x0, (y1-s.c.y0)*s.m.CStride-s.c.x0
	cb = mix(s.m.Cb[a+x0], s.m.Cb[a+x1], s.m.Cb[b+x0], s.m.Cb[b+x1], fx, fy)
	cr = mix(s.m.Cr[a+x0], s.m.Cr[a+x1], s.m.Cr[b+x0], s.m.Cr[b+x1], fx, fy)
	return light, cb, cr
}

func (yccSource) colour(px []uint8, y, cb, cr float64) {
	px[0], px[1], px[2] = color.YCbCrToRGB(uint8(y+0.5), uint8(cb+0.5), uint8(cr+0.5))
	px[3] = 255
}
