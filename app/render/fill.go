package render

import (
	"image"
	"math"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/math/fixed"

	"heartside/layout/geom"
)

// filler turns rings in device pixels into spans of coverage. It keeps its
// buffers between uses and is for one goroutine at a time.
type filler struct{ r raster.Rasterizer }

// fill hands the inside of the rings, cut to bounds, to a painter: by winding
// number or even-odd. Rings are closed by themselves.
func (f *filler) fill(rings [][]geom.Point, winding bool, bounds image.Rectangle, p raster.Painter) {
	box := geom.Rect{Min: geom.Pt(math.Inf(1), math.Inf(1)), Max: geom.Pt(math.Inf(-1), math.Inf(-1))}
	for _, ring := range rings {
		for _, q := range ring {
			if math.IsNaN(q.X) || math.IsNaN(q.Y) {
				return
			}
			box.Min.X, box.Min.Y = math.Min(box.Min.X, q.X), math.Min(box.Min.Y, q.Y)
			box.Max.X, box.Max.Y = math.Max(box.Max.X, q.X), math.Max(box.Max.Y, q.Y)
		}
	}
	view := geom.R(float64(bounds.Min.X), float64(bounds.Min.Y), float64(bounds.Max.X), float64(bounds.Max.Y))
	part := box.Intersect(view)
	if !(part.Max.X >= part.Min.X && part.Max.Y >= part.Min.Y) || bounds.Empty() {
		return
	}
	x0, y0 := int(math.Floor(part.Min.X)), int(math.Floor(part.Min.Y))
	x1, y1 := int(math.Ceil(part.Max.X)), int(math.Ceil(part.Max.Y))
	if x1 <= x0 || y1 <= y0 {
		return
	}
	// The rasteriser rounds places left of or above its origin the wrong way,
	// so it gets a pixel more on every side, which is not painted.
	f.r.UseNonZeroWinding = winding
	f.r.SetBounds(x1-x0+2, y1-y0+2)
	f.r.Dx, f.r.Dy = x0-1, y0-1
	cut := geom.R(float64(x0)-1, float64(y0)-1, float64(x1)+1, float64(y1)+1)
	at := func(q geom.Point) fixed.Point26_6 {
		return fixed.Point26_6{
			X: fixed.Int26_6(math.Round((q.X - cut.Min.X) * 64)),
			Y: fixed.Int26_6(math.Round((q.Y - cut.Min.Y) * 64)),
		}
	}
	for _, ring := range rings {
		ring = clipRing(ring, cut)
		if len(ring) < 3 {
			continue
		}
		start := at(ring[0])
		f.r.Start(start)
		for _, q := range ring[1:] {
			f.r.Add1(at(q))
		}
		f.r.Add1(start)
	}
	f.r.Rasterize(&trimmer{p, image.Rect(x0, y0, x1, y1)})
}

// trimmer hands on the parts of spans inside a box.
type trimmer struct {
	to  raster.Painter
	box image.Rectangle
}

// Paint implements raster.Painter.
func (t *trimmer) Paint(ss []raster.Span, done bool) {
	n := 0
	for _, s := range ss {
		s.X0, s.X1 = max(s.X0, t.box.Min.X), min(s.X1, t.box.Max.X)
		if s.Y >= t.box.Min.Y && s.Y < t.box.Max.Y && s.X0 < s.X1 {
			ss[n] = s
			n++
		}
	}
	t.to.Paint(ss[:n], done)
}

// maskPainter writes coverage into a glyph's mask.
type maskPainter struct{ m *mask }

// Paint implements raster.Painter.
func (p maskPainter) Paint(ss []raster.Span, _ bool) {
	for _, s := range ss {
		y := s.Y - p.m.off.Y
		if y < 0 || y >= p.m.h {
			continue
		}
		row := p.m.a[y*p.m.w : (y+1)*p.m.w]
		for x := max(s.X0-p.m.off.X, 0); x < min(s.X1-p.m.off.X, p.m.w); x++ {
			row[x] = uint8(s.Alpha >> 8)
		}
	}
}

// clip is the part of the picture that may be painted: a rectangle, and in it
// a mask of opacities where it is no rectangle.
type clip struct {
	box  image.Rectangle
	mask []uint8 // rows of box, nil: all of it
}

// row returns the mask over [x0, x1) of line y, nil where all is open.
func (c *clip) row(y, x0, x1 int) []uint8 {
	if c.mask == nil {
		return nil
	}
	o := (y-c.box.Min.Y)*c.box.Dx() - c.box.Min.X
	return c.mask[o+x0 : o+x1]
}

// clipPainter writes coverage into the mask of a new clip, under the old one.
type clipPainter struct{ to, under *clip }

// Paint implements raster.Painter.
func (p clipPainter) Paint(ss []raster.Span, _ bool) {
	for _, s := range ss {
		if s.X1 <= s.X0 {
			continue
		}
		row, old := p.to.row(s.Y, s.X0, s.X1), p.under.row(s.Y, s.X0, s.X1)
		a := uint32(s.Alpha >> 8)
		for i := range row {
			if old == nil {
				row[i] = uint8(a)
			} else {
				row[i] = uint8(a * uint32(old[i]) / 255)
			}
		}
	}
}

// solidPainter lays one colour over the picture.
type solidPainter struct {
	img        *image.RGBA
	clip       *clip
	r, g, b, a uint32 // premultiplied, 0 to 255
}

// Paint implements raster.Painter.
func (p *solidPainter) Paint(ss []raster.Span, _ bool) {
	for _, s := range ss {
		if s.X1 <= s.X0 {
			continue
		}
		o := p.img.PixOffset(s.X0, s.Y)
		row := p.img.Pix[o : o+4*(s.X1-s.X0)]
		cover := s.Alpha >> 8
		if m := p.clip.row(s.Y, s.X0, s.X1); m != nil {
			for i, k := range m {
				if k != 0 {
					p.over(row[4*i:4*i+4], cover*uint32(k)/255)
				}
			}
			continue
		}
		if p.a == 255 && cover == 255 {
			for i := 0; i+3 < len(row); i += 4 {
				row[i], row[i+1], row[i+2], row[i+3] = uint8(p.r), uint8(p.g), uint8(p.b), 255
			}
			continue
		}
		for i := 0; i+3 < len(row); i += 4 {
			p.over(row[i:i+4], cover)
		}
	}
}

// over lays the colour over one pixel with a coverage of 0 to 255.
func (p *solidPainter) over(px []uint8, cover uint32) {
	_ = px[3]
	k := 255*255 - p.a*cover
	px[0] = uint8((p.r*cover*255 + uint32(px[0])*k + 32512) / 65025)
	px[1] = uint8((p.g*cover*255 + uint32(px[1])*k + 32512) / 65025)
	px[2] = uint8((p.b*cover*255 + uint32(px[2])*k + 32512) / 65025)
	px[3] = uint8((p.a*cover*255 + uint32(px[3])*k + 32512) / 65025)
}
