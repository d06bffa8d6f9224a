package ui

import (
	"heartside/app/render"
	"heartside/layout/geom"
)

// veiled is how far what is no wood is brought to grey. An engineering choice:
// enough to be told from wood at a glance, so little that a wrong outline is
// seen through it.
const veiled = 0.6

// veil greys a pixel that shows no wood, with dark lines over it.
func veil(p []uint8, x, y, step, thick int, shown float64) {
	grey := uint8((int(p[0]) + 2*int(p[1]) + int(p[2])) / 4)
	share := veiled * max(shown, 0.5)
	for k := range 3 {
		p[k] = uint8(float64(p[k]) + share*(float64(grey)/2+64-float64(p[k])))
	}
	if mod(x-y, 2*step) < thick {
		blend(p, 0, 0.5*share)
	}
}

// outline strokes the outline that was traced, through to, which takes pixels
// of the picture to units of r.
func (p *facePicker) outline(r *render.Raster, to func(geom.Point) geom.Point, width float64) {
	l := &p.c.lie
	if len(l.ring) < 3 || len(l.at) != 4 || !(l.size.X > 0) || !(l.size.Y > 0) {
		return
	}
	m, lens, err := l.view().FromFace(int(p.view.pic.X), int(p.view.pic.Y), l.size.X, l.size.Y)
	if err != nil {
		return
	}
	line := make([]geom.Point, 0, len(l.ring)+1)
	for _, q := range l.ring {
		line = append(line, to(lens.Bowed(m.Apply(q))))
	}
	two(r, render.Polyline(append(line, line[0])...), width, hex(0xFFC83C))
}
