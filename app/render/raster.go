package render

import (
	"image"
	"image/color"
	"math"

	"heartside/layout/geom"
)

// Raster is a Canvas that paints pixels. It is for one goroutine at a time.
type Raster struct {
	img   *image.RGBA
	scale float64 // pixels a unit
	faces *Faces
	fill  filler
	clips []clip // the last one holds
}

// NewRaster returns a canvas that paints on img, with scale pixels to a unit
// and the origin at the picture's first pixel.
func NewRaster(img *image.RGBA, scale float64, f *Faces) *Raster {
	return &Raster{img: img, scale: scale, faces: f, clips: []clip{{box: img.Rect}}}
}

var _ Canvas = (*Raster)(nil)

// Measure returns the typefaces text is set in.
func (r *Raster) Measure() *Faces { return r.faces }

func (r *Raster) clip() *clip { return &r.clips[len(r.clips)-1] }

// device maps canvas units to pixels.
func (r *Raster) device() geom.Affine {
	o := r.img.Rect.Min
	return geom.Affine{A: r.scale, C: float64(o.X), E: r.scale, F: float64(o.Y)}
}

// rings returns the points of p in device pixels.
func (r *Raster) rings(p Path) [][]geom.Point {
	m := r.device()
	out := make([][]geom.Point, len(p))
	for i, l := range p {
		out[i] = m.ApplyTo(l.Points)
	}
	return out
}

// view is what can be seen, in canvas units, grown by a margin.
func (r *Raster) view(margin float64) geom.Rect {
	b, o := r.clip().box, r.img.Rect.Min
	return geom.R(float64(b.Min.X-o.X)/r.scale, float64(b.Min.Y-o.Y)/r.scale,
		float64(b.Max.X-o.X)/r.scale, float64(b.Max.Y-o.Y)/r.scale).Inset(-margin)
}

func (r *Raster) solid(c color.NRGBA) *solidPainter {
	a := uint32(c.A)
	pre := func(v uint8) uint32 { return (uint32(v)*a + 127) / 255 }
	return &solidPainter{img: r.img, clip: r.clip(), r: pre(c.R), g: pre(c.G), b: pre(c.B), a: a}
}

// Fill implements Canvas.
func (r *Raster) Fill(p Path, c color.NRGBA) {
	if c.A == 0 {
		return
	}
	r.fill.fill(r.rings(p), false, r.clip().box, r.solid(c))
}

// Stroke implements Canvas.
func (r *Raster) Stroke(p Path, pen Pen) {
	if pen.Color.A == 0 || !(pen.Width > 0) {
		return
	}
	view := r.view(2*pen.Width + 1/r.scale)
	p = nearView(p, view)
	if pen.Color.A == 255 || len(p) > mostTogether {
		r.eachLine(p, pen)
		return
	}
	// Where it is seen through, what lines have in common is painted once.
	m := r.device()
	var rings [][]geom.Point
	for _, ring := range strokeRings(p, pen) {
		rings = append(rings, m.ApplyTo(ring))
	}
	r.fill.fill(rings, true, r.clip().box, r.solid(pen.Color))
}

// mostTogether is how many lines are stroked as one; see eachLine.
const mostTogether = 24

// eachLine strokes the lines one by one: the rasteriser's time grows with the
// square of what it holds on one row.
func (r *Raster) eachLine(p Path, pen Pen) {
	m, paint := r.device(), r.solid(pen.Color)
	for i := range p {
		rings := strokeRings(p[i:i+1], pen)
		for k := range rings {
			rings[k] = m.ApplyTo(rings[k])
		}
		r.fill.fill(rings, true, r.clip().box, paint)
	}
}

// nearView drops the lines whose bounds miss the view, so that a drawing
// zoomed far in costs what is seen of it.
func nearView(p Path, view geom.Rect) Path {
	out := make(Path, 0, len(p))
	for _, l := range p {
		b := geom.Polygon(l.Points).Bounds()
		if b.Max.X < view.Min.X || b.Min.X > view.Max.X || b.Max.Y < view.Min.Y || b.Min.Y > view.Max.Y {
			continue
		}
		out = append(out, l)
	}
	return out
}

// Hatch implements Canvas.
func (r *Raster) Hatch(p Path, h Hatch) {
	if h.Spacing*r.scale < 1 { // closer than pixels: a tint
		c := h.Pen.Color
		c.A = uint8(float64(c.A) * math.Min(h.Pen.Width/h.Spacing, 1))
		r.Fill(p, c)
		return
	}
	view := r.view(h.Spacing)
	if h.Dots {
		m, paint := r.device(), r.solid(h.Pen.Color)
		for _, c := range hatchDots(p, h, view) {
			r.fill.fill([][]geom.Point{m.ApplyTo(dot(c, h.Pen.Width/2))}, true, r.clip().box, paint)
		}
		return
	}
	if h.Pen.Color.A > 0 && h.Pen.Width > 0 {
		r.eachLine(hatchLines(p, h, view), h.Pen)
	}
}

// dot is a small round spot.
func dot(c geom.Point, r float64) geom.Polygon {
	const n = 10
	out := make(geom.Polygon, n)
	for i := range out {
		s, k := math.Sincos(2 * math.Pi * float64(i) / n)
		out[i] = geom.Pt(c.X+r*k, c.Y+r*s)
	}
	return out
}

// Image implements Canvas.
func (r *Raster) Image(img *image.RGBA, m geom.Affine, clip Path) {
	w, h := float64(img.Rect.Dx()), float64(img.Rect.Dy())
	full := m.Then(r.device())
	inv, ok := full.Inverse()
	if !ok || w == 0 || h == 0 {
		return
	}
	p := &imagePainter{img: r.img, clip: r.clip(), src: tight(img), inv: inv}
	frame := full.ApplyTo(geom.R(0, 0, w, h).Polygon())
	if clip == nil {
		r.fill.fill([][]geom.Point{frame}, false, r.clip().box, p)
		return
	}
	rings := r.rings(clip)
	b, f := geom.Polygon(flat(rings)).Bounds(), frame.Bounds()
	if f.Min.X > b.Min.X+1e-6 || f.Min.Y > b.Min.Y+1e-6 || f.Max.X < b.Max.X-1e-6 || f.Max.Y < b.Max.Y-1e-6 {
		r.Push(Ring(m.ApplyTo(geom.R(0, 0, w, h).Polygon())))
		p.clip = r.clip()
		r.fill.fill(rings, false, r.clip().box, p)
		r.Pop()
		return
	}
	r.fill.fill(rings, false, r.clip().box, p)
}

func flat(rings [][]geom.Point) []geom.Point {
	var out []geom.Point
	for _, ring := range rings {
		out = append(out, ring...)
	}
	return out
}

// Push implements Canvas.
func (r *Raster) Push(p Path) {
	under := r.clip()
	if b, ok := p.asRect(); ok {
		q := r.device().ApplyTo(b.Polygon()).Bounds()
		box := image.Rect(round(q.Min.X), round(q.Min.Y), round(q.Max.X), round(q.Max.Y)).Intersect(under.box)
		to := clip{box: box}
		if under.mask != nil && !box.Empty() {
			to.mask = make([]uint8, 0, box.Dx()*box.Dy())
			for y := box.Min.Y; y < box.Max.Y; y++ {
				to.mask = append(to.mask, under.row(y, box.Min.X, box.Max.X)...)
			}
		}
		r.clips = append(r.clips, to)
		return
	}
	rings := r.rings(p)
	b := geom.Polygon(flat(rings)).Bounds()
	box := image.Rect(round(b.Min.X-1), round(b.Min.Y-1), round(b.Max.X+1), round(b.Max.Y+1)).Intersect(under.box)
	if box.Empty() || len(p) == 0 {
		r.clips = append(r.clips, clip{})
		return
	}
	to := clip{box: box, mask: make([]uint8, box.Dx()*box.Dy())}
	r.fill.fill(rings, false, box, clipPainter{&to, under})
	r.clips = append(r.clips, to)
}

// Pop implements Canvas. A Pop too many does nothing.
func (r *Raster) Pop() {
	if len(r.clips) > 1 {
		r.clips = r.clips[:len(r.clips)-1]
	}
}

func round(v float64) int {
	return int(math.Round(math.Max(-1e8, math.Min(1e8, v))))
}
