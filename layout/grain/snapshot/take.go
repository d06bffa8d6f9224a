package snapshot

import (
	"context"
	"fmt"
	"image"

	"heartside/layout/geom"
)

// Photo is a photograph with the truth about it.
type Photo struct {
	Img     *image.RGBA
	Corners [4]geom.Point // of Scene.Corners
	Bow     float64       // of photo.Lens
}

// mostPixels bounds a photograph.
const mostPixels = 40 << 20

// Take photographs a scene. It stops early when ctx ends.
func (s *Scene) Take(ctx context.Context) (*Photo, error) {
	w, h := s.Camera.W, s.Camera.H
	if w < 16 || h < 16 || w*h > mostPixels {
		return nil, fmt.Errorf("photograph: %d x %d pixels; ask for 16 to some thousands each way", w, h)
	}
	v := s.Camera.view()
	for _, b := range s.boxes {
		b.set(v)
	}
	film := make([][3]float32, w*h)
	ids := make([]uint8, w*h)
	px := v.focal / v.pos[2]
	for j := range h {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for i := range w {
			c, id := s.see(v, geom.Pt(float64(i)+0.5, float64(j)+0.5), px)
			film[j*w+i], ids[j*w+i] = c.small(), id
		}
	}
	// Where things meet, a pixel sees some of each.
	for j := 1; j < h-1; j++ {
		for i := 1; i < w-1; i++ {
			k := j*w + i
			if ids[k] == ids[k-1] && ids[k] == ids[k+1] && ids[k] == ids[k-w] && ids[k] == ids[k+w] {
				continue
			}
			var sum rgb
			const n = 4
			for m := range n * n {
				c, _ := s.see(v, geom.Pt(float64(i)+(float64(m%n)+0.5)/n, float64(j)+(float64(m/n)+0.5)/n), px)
				sum = sum.plus(c)
			}
			film[k] = sum.times(1.0 / (n * n)).small()
		}
	}
	img, err := s.Finish.develop(ctx, film, w, h)
	if err != nil {
		return nil, err
	}
	return &Photo{Img: img, Corners: s.Corners(), Bow: v.lens.Bow}, nil
}

// see returns the light met at a place of the picture, and a number for what
// was met.
func (s *Scene) see(v *view, p geom.Point, px float64) (rgb, uint8) {
	d := v.ray(p)
	best, at, side := 0.0, -1, 0
	for i, b := range s.boxes {
		if p.X < b.lo.X || p.Y < b.lo.Y || p.X > b.hi.X || p.Y > b.hi.Y {
			continue
		}
		if t, k, ok := b.meet(d); ok && (at < 0 || t < best) {
			best, at, side = t, i, k
		}
	}
	if at < 0 {
		t := (-s.deep - v.pos[2]) / d[2]
		x, y := v.pos[0]+t*d[0], v.pos[1]+t*d[1]
		c := s.ground.at(x, y, px)
		return c.times(s.lamp.under(s.boxes, geom.Pt(x, y), -s.deep)).by(s.lamp.on(x, y)), 0
	}
	x, y := v.pos[0]+best*d[0], v.pos[1]+best*d[1]
	c := s.boxes[at].at(d, best, side, px).by(s.lamp.on(x, y))
	if side == topSide {
		if g := s.lamp.shine(x, y); g > 0 {
			c = c.plus(rgb{g, g, g})
		}
		if b := s.boxes[at]; at > 0 && b.top+s.deep < 2 { // flat things lie in the board's shadow
			c = c.times(s.lamp.under(s.boxes[:1], geom.Pt(x, y), -s.deep))
		}
	}
	return c, uint8(1 + 5*at + side)
}
