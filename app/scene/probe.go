package scene

import (
	"image"
	"image/color"
	"math"
	"reflect"

	"heartside/app/render"
	"heartside/layout/geom"
)

// probe is a Canvas that paints nothing: it boils the calls down to a number
// that differs where they differ, and to the place they touch.
type probe struct {
	sum    uint64
	bounds geom.Rect
	some   bool
	clips  []geom.Rect
	faces  *render.Faces
}

var _ render.Canvas = (*probe)(nil)

func (p *probe) word(v uint64) {
	p.sum = (p.sum ^ v) * 0x9E3779B97F4A7C15
	p.sum ^= p.sum >> 29
}

func (p *probe) num(v float64) { p.word(math.Float64bits(v)) }

func (p *probe) str(s string) {
	p.word(uint64(len(s)))
	for i := 0; i < len(s); i++ {
		p.word(uint64(s[i]))
	}
}

func (p *probe) hue(c color.NRGBA) {
	p.word(uint64(c.R)<<24 | uint64(c.G)<<16 | uint64(c.B)<<8 | uint64(c.A))
}

func (p *probe) pen(k render.Pen) {
	p.num(k.Width)
	p.hue(k.Color)
	for _, d := range k.Dash {
		p.num(d)
	}
	if k.Round {
		p.word(3)
	}
}

func (p *probe) path(q render.Path) {
	for _, l := range q {
		p.word(uint64(len(l.Points)))
		for _, pt := range l.Points {
			p.num(pt.X)
			p.num(pt.Y)
		}
	}
}

// touch widens the place by r, cut to the clip.
func (p *probe) touch(r geom.Rect) {
	if n := len(p.clips); n > 0 {
		r = r.Intersect(p.clips[n-1])
	}
	if r.Max.X < r.Min.X || r.Max.Y < r.Min.Y {
		return
	}
	if !p.some {
		p.bounds, p.some = r, true
		return
	}
	p.bounds = geom.Rect{
		Min: geom.Pt(math.Min(p.bounds.Min.X, r.Min.X), math.Min(p.bounds.Min.Y, r.Min.Y)),
		Max: geom.Pt(math.Max(p.bounds.Max.X, r.Max.X), math.Max(p.bounds.Max.Y, r.Max.Y)),
	}
}

// Fill implements render.Canvas.
func (p *probe) Fill(q render.Path, c color.NRGBA) {
	p.word(1)
	p.hue(c)
	p.path(q)
	p.touch(q.Bounds())
}

// Hatch implements render.Canvas.
func (p *probe) Hatch(q render.Path, h render.Hatch) {
	p.word(2)
	p.pen(h.Pen)
	p.num(h.Angle)
	p.num(h.Spacing)
	p.num(h.Origin.X)
	p.num(h.Origin.Y)
	p.path(q)
	p.touch(q.Bounds().Inset(-h.Pen.Width))
}

// Stroke implements render.Canvas.
func (p *probe) Stroke(q render.Path, k render.Pen) {
	p.word(3)
	p.pen(k)
	p.path(q)
	// A mitred corner reaches two widths out at most.
	p.touch(q.Bounds().Inset(-2 * k.Width))
}

// Text implements render.Canvas.
func (p *probe) Text(at geom.Point, s string, st render.Style) {
	p.word(4)
	p.num(at.X)
	p.num(at.Y)
	p.str(s)
	p.num(st.Size)
	p.num(st.Turn)
	p.hue(st.Color)
	flags := uint64(st.Align)
	if st.Bold {
		flags |= 8
	}
	if st.Narrow {
		flags |= 16
	}
	p.word(flags)
	w := st.Size * float64(len(s))
	if p.faces != nil {
		w = p.faces.Width(s, st)
	}
	x := 0.0
	switch st.Align {
	case render.Middle:
		x = -w / 2
	case render.Right:
		x = -w
	}
	box := geom.R(x-1, -st.Size, x+w+1, 0.3*st.Size)
	m := geom.Rotate(-st.Turn).Then(geom.Translate(at.X, at.Y))
	p.touch(m.ApplyTo(box.Polygon()).Bounds())
}

// Image implements render.Canvas. A picture is known by its address and a few
// of its pixels.
func (p *probe) Image(img *image.RGBA, m geom.Affine, clip render.Path) {
	p.word(5)
	p.word(uint64(reflect.ValueOf(img).Pointer()))
	for i := 0; i < 8; i++ {
		if n := len(img.Pix); n > 0 {
			p.word(uint64(img.Pix[(n-1)*i/8]))
		}
	}
	for _, v := range [6]float64{m.A, m.B, m.C, m.D, m.E, m.F} {
		p.num(v)
	}
	p.path(clip)
	r := m.ApplyTo(geom.R(0, 0, float64(img.Rect.Dx()), float64(img.Rect.Dy())).Polygon()).Bounds()
	if clip != nil {
		r = r.Intersect(clip.Bounds())
	}
	p.touch(r)
}

// Push implements render.Canvas.
func (p *probe) Push(q render.Path) {
	p.word(6)
	p.path(q)
	r := q.Bounds()
	if n := len(p.clips); n > 0 {
		r = r.Intersect(p.clips[n-1])
	}
	p.clips = append(p.clips, r)
}

// Pop implements render.Canvas.
func (p *probe) Pop() {
	p.word(7)
	if n := len(p.clips); n > 0 {
		p.clips = p.clips[:n-1]
	}
}
