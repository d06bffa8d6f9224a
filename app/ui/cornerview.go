package ui

import (
	"image"

	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"heartside/layout/geom"
)

// cornerView is how a picture lies on the widget: zoom 1 shows all of it.
type cornerView struct {
	pic  geom.Point // size of the picture, pixels
	room geom.Point // size of the widget, units
	zoom float64
	at   geom.Point // the picture's pixel in the middle of the widget
}

// mostZoom shows a pixel of a large picture as a few units.
const mostZoom = 24

// scale is how many units a pixel has.
func (v *cornerView) scale() float64 {
	return min(v.room.X/v.pic.X, v.room.Y/v.pic.Y) * max(v.zoom, 1)
}

// toRoom returns where a pixel lies on the widget.
func (v *cornerView) toRoom(p geom.Point) geom.Point {
	return p.Sub(v.at).Mul(v.scale()).Add(v.room.Mul(0.5))
}

// toPic is toRoom the other way.
func (v *cornerView) toPic(p geom.Point) geom.Point {
	k := v.scale()
	if k <= 0 {
		return geom.Point{}
	}
	return p.Sub(v.room.Mul(0.5)).Mul(1 / k).Add(v.at)
}

// inside brings a pixel into the picture.
func (v *cornerView) inside(p geom.Point) geom.Point {
	return geom.Pt(min(max(p.X, 0), v.pic.X), min(max(p.Y, 0), v.pic.Y))
}

// zoomed changes the zoom; what lies at a place of the widget stays there.
func (v *cornerView) zoomed(at geom.Point, by float64) {
	p := v.toPic(at)
	v.zoom = min(max(v.zoom*by, 1), mostZoom)
	v.at = p.Sub(at.Sub(v.room.Mul(0.5)).Mul(1 / v.scale()))
	v.hold()
}

// moved pans by units of the widget.
func (v *cornerView) moved(by geom.Point) {
	v.at = v.at.Sub(by.Mul(1 / v.scale()))
	v.hold()
}

// hold keeps the picture on the widget, in its middle where it is smaller.
func (v *cornerView) hold() {
	half := v.room.Mul(0.5 / v.scale())
	keep := func(at, half, size float64) float64 {
		if 2*half >= size {
			return size / 2
		}
		return min(max(at, half), size-half)
	}
	v.at = geom.Pt(keep(v.at.X, half.X, v.pic.X), keep(v.at.Y, half.Y, v.pic.Y))
}

// draw paints the view into a picture of the widget of device pixels.
func (v *cornerView) draw(dst *image.RGBA, src *image.RGBA) {
	clear(dst.Pix)
	if v.room.X <= 0 {
		return
	}
	d := float64(dst.Rect.Dx()) / v.room.X
	k := v.scale() * d
	o := v.toRoom(geom.Point{}).Mul(d)
	draw.ApproxBiLinear.Transform(dst, f64.Aff3{k, 0, o.X, 0, k, o.Y}, src, src.Rect, draw.Src, nil)
}
