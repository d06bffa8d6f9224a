package render

import (
	"encoding/binary"
	"image"
	"math"

	"github.com/golang/freetype/raster"

	"heartside/layout/geom"
)

// imagePainter lays a picture over another, taken through an affine map with
// bilinear samples in 16.16 fixed point.
type imagePainter struct {
	img  *image.RGBA
	clip *clip
	src  *image.RGBA
	inv  geom.Affine // from device pixels to pixels of src
}

// fixedLimit keeps 16.16 coordinates far from overflow.
const fixedLimit = 1 << 40

// Paint implements raster.Painter.
func (p *imagePainter) Paint(ss []raster.Span, _ bool) {
	w, h := p.src.Rect.Dx(), p.src.Rect.Dy()
	du, dv := toFixed(p.inv.A), toFixed(p.inv.D)
	uMax, vMax := int64(w-1)<<16, int64(h-1)<<16
	for _, s := range ss {
		n := s.X1 - s.X0
		if n <= 0 {
			continue
		}
		at := p.inv.Apply(geom.Pt(float64(s.X0)+0.5, float64(s.Y)+0.5))
		u, v := toFixed(at.X-0.5), toFixed(at.Y-0.5)
		o := p.img.PixOffset(s.X0, s.Y)
		row := p.img.Pix[o : o+4*n]
		m := p.clip.row(s.Y, s.X0, s.X1)
		cover := s.Alpha >> 8
		uEnd, vEnd := u+du*int64(n-1), v+dv*int64(n-1)
		within := min(u, uEnd) >= 0 && max(u, uEnd) < uMax && min(v, vEnd) >= 0 && max(v, vEnd) < vMax
		if within && m == nil && cover == 255 {
			p.inner(row, u, v, du, dv)
			continue
		}
		for i := 0; i < n; i++ {
			k := cover
			if m != nil {
				k = cover * uint32(m[i]) / 255
			}
			if k != 0 {
				blend(row[4*i:4*i+4], p.at(clamp(u, uMax), clamp(v, vMax)), k)
			}
			u, v = u+du, v+dv
		}
	}
}

// inner paints a row all of whose samples have four neighbours in src.
func (p *imagePainter) inner(row []uint8, u, v, du, dv int64) {
	stride, pix := p.src.Stride, p.src.Pix
	for i := 0; i+3 < len(row); i += 4 {
		o := int(v>>16)*stride + int(u>>16)*4
		top := pix[o : o+8 : o+8]
		low := pix[o+stride : o+stride+8 : o+stride+8]
		c := bilinear(
			binary.LittleEndian.Uint32(top), binary.LittleEndian.Uint32(top[4:]),
			binary.LittleEndian.Uint32(low), binary.LittleEndian.Uint32(low[4:]),
			uint32(u>>8)&0xFF, uint32(v>>8)&0xFF)
		if c>>24 == 255 {
			binary.LittleEndian.PutUint32(row[i:], c)
		} else {
			blend(row[i:i+4], c, 255)
		}
		u, v = u+du, v+dv
	}
}

// at samples src, whose pixel centres are whole numbers here.
func (p *imagePainter) at(u, v int64) uint32 {
	x, y := int(u>>16), int(v>>16)
	x1, y1 := min(x+1, p.src.Rect.Dx()-1), min(y+1, p.src.Rect.Dy()-1)
	px := func(x, y int) uint32 {
		return binary.LittleEndian.Uint32(p.src.Pix[y*p.src.Stride+4*x:])
	}
	return bilinear(px(x, y), px(x1, y), px(x, y1), px(x1, y1), uint32(u>>8)&0xFF, uint32(v>>8)&0xFF)
}

// bilinear mixes four packed pixels, two channels at a time, with weights in
// 256ths.
func bilinear(a, b, c, d, fx, fy uint32) uint32 {
	const even = 0x00FF00FF
	gx, gy := 256-fx, 256-fy
	t0 := ((a&even)*gx + (b&even)*fx) >> 8 & even
	t1 := ((a>>8&even)*gx + (b>>8&even)*fx) >> 8 & even
	l0 := ((c&even)*gx + (d&even)*fx) >> 8 & even
	l1 := ((c>>8&even)*gx + (d>>8&even)*fx) >> 8 & even
	return (t0*gy+l0*fy)>>8&even | ((t1*gy+l1*fy)>>8&even)<<8
}

// blend lays a packed premultiplied pixel over px with a coverage of 0 to
// 255.
func blend(px []uint8, c, cover uint32) {
	_ = px[3]
	k := 255*255 - (c>>24)*cover
	px[0] = uint8(((c&0xFF)*cover*255 + uint32(px[0])*k + 32512) / 65025)
	px[1] = uint8(((c>>8&0xFF)*cover*255 + uint32(px[1])*k + 32512) / 65025)
	px[2] = uint8(((c>>16&0xFF)*cover*255 + uint32(px[2])*k + 32512) / 65025)
	px[3] = uint8(((c>>24)*cover*255 + uint32(px[3])*k + 32512) / 65025)
}

func clamp(v, most int64) int64 { return min(max(v, 0), most) }

func toFixed(v float64) int64 {
	f := v * 65536
	if !(math.Abs(f) < fixedLimit) {
		return 0
	}
	return int64(math.Floor(f + 0.5))
}

// tight returns img as rows without gaps from the origin, copied where need
// be, so that its pixels may be found by plain arithmetic.
func tight(img *image.RGBA) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	if img.Rect.Min == (image.Point{}) && img.Stride == 4*w && len(img.Pix) == 4*w*h {
		return img
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := 0; y < h; y++ {
		o := img.PixOffset(img.Rect.Min.X, img.Rect.Min.Y+y)
		copy(out.Pix[y*out.Stride:], img.Pix[o:o+4*w])
	}
	return out
}
