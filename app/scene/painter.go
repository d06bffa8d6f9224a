package scene

import (
	"image"
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
)

// Painter turns scenes into pixels one after the other. It keeps the last
// picture and paints again only where a scene differs from the one before. It
// is for one goroutine.
type Painter struct {
	faces *render.Faces
	img   *image.RGBA
	scale float64
	last  map[string]seen
	names []string // of the items, in their order
	count int      // pixels painted the last time
}

// seen is what an item was the last time.
type seen struct {
	sum    uint64
	bounds geom.Rect
	some   bool
}

// NewPainter returns a painter that writes with the given typefaces.
func NewPainter(f *render.Faces) *Painter { return &Painter{faces: f} }

// Paint returns the picture of a scene, w x h device pixels, rows tight from
// the origin, and the part of it that was painted anew, empty where nothing
// changed. The picture is the painter's own: it changes with the next call.
func (p *Painter) Paint(s *Scene, w, h int) (*image.RGBA, image.Rectangle) {
	w, h = max(w, 1), max(h, 1)
	scale := float64(w) / math.Max(s.in.Size.X, 1)
	now := make(map[string]seen, len(s.items))
	names := make([]string, 0, len(s.items))
	for _, it := range s.items {
		names = append(names, it.name)
		k := probe{faces: p.faces}
		it.draw(&k)
		now[it.name] = seen{k.sum, k.bounds, k.some}
	}
	full := image.Rect(0, 0, w, h)
	if p.img == nil || p.img.Rect != full || p.scale != scale {
		p.img, p.scale, p.last, p.names = image.NewRGBA(full), scale, now, names
		p.count = w * h
		p.repaint(s, full, now)
		return p.img, full
	}
	dirty := p.dirty(now, names)
	p.last, p.names = now, names
	var all image.Rectangle
	p.count = 0
	for _, r := range dirty {
		p.repaint(s, r, now)
		p.count += r.Dx() * r.Dy()
		all = all.Union(r)
	}
	return p.img, all
}

// Reset forgets the last picture.
func (p *Painter) Reset() { p.img = nil }

// mostDirty is how many places are painted apart before they are joined.
const mostDirty = 6

// dirty returns the places, in device pixels, where items differ from the
// last time; none overlaps another.
func (p *Painter) dirty(now map[string]seen, names []string) []image.Rectangle {
	var out []image.Rectangle
	add := func(v seen) {
		if r := p.device(v.bounds); v.some && !r.Empty() {
			out = join(out, r)
		}
	}
	for _, name := range names {
		v := now[name]
		old, ok := p.last[name]
		if ok && old.sum == v.sum {
			continue
		}
		add(v)
		add(old)
	}
	for _, name := range p.names {
		if _, ok := now[name]; !ok {
			add(p.last[name])
		}
	}
	if len(out) > mostDirty {
		all := out[0]
		for _, r := range out {
			all = all.Union(r)
		}
		return []image.Rectangle{all}
	}
	return out
}

// join adds r to a list of places that do not overlap.
func join(list []image.Rectangle, r image.Rectangle) []image.Rectangle {
	for again := true; again; {
		again = false
		for i, q := range list {
			if q.Overlaps(r) {
				r = r.Union(q)
				list = append(list[:i], list[i+1:]...)
				again = true
				break
			}
		}
	}
	return append(list, r)
}

// device returns the pixels a place touches, with a pixel to spare for soft
// edges.
func (p *Painter) device(r geom.Rect) image.Rectangle {
	at := func(v float64) int { return int(math.Max(-1e6, math.Min(1e6, v))) }
	return image.Rect(at(math.Floor(r.Min.X*p.scale))-1, at(math.Floor(r.Min.Y*p.scale))-1,
		at(math.Ceil(r.Max.X*p.scale))+1, at(math.Ceil(r.Max.Y*p.scale))+1).Intersect(p.img.Rect)
}

// repaint draws all items that touch a place, cut to it.
func (p *Painter) repaint(s *Scene, r image.Rectangle, now map[string]seen) {
	c := render.NewRaster(p.img, p.scale, p.faces)
	k := 1 / p.scale
	c.Push(render.Box(geom.R(float64(r.Min.X)*k, float64(r.Min.Y)*k, float64(r.Max.X)*k, float64(r.Max.Y)*k)))
	for _, it := range s.items {
		if v := now[it.name]; v.some && p.device(v.bounds).Overlaps(r) {
			it.draw(c)
		}
	}
	c.Pop()
}
