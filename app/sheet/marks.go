package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// hatchOf is how a kind of wood is marked; false leaves it white.
func hatchOf(k face.Kind) (render.Hatch, bool) {
	switch k {
	case face.Sap:
		return render.Hatch{Angle: 45, Spacing: 1.5, Pen: render.Pen{Width: 0.16, Color: dark}}, true
	case face.Flaw:
		return render.Hatch{Angle: 30, Spacing: 0.8, Cross: true, Pen: render.Pen{Width: 0.2, Color: black}}, true
	case face.Unseen:
		return render.Hatch{Spacing: 1.7, Dots: true, Pen: render.Pen{Width: 0.5, Color: dark}}, true
	}
	return render.Hatch{}, false
}

// wood marks a region of a kind. Heart over sap is whitened, so that later
// zones lie on top.
func (k *ink) wood(p render.Path, kind face.Kind, border bool) {
	k.fill(p, white)
	if h, ok := hatchOf(kind); ok {
		k.hatch(p, h)
	}
	if border {
		k.stroke(p, 0.15, dark)
	}
}

// arrow is a planing arrow from x0 to x1 at height y.
func (k *ink) arrow(x0, x1, y float64) {
	d := math.Copysign(math.Min(2.6, math.Abs(x1-x0)), x1-x0)
	k.line(x0, y, x1-d/2, y, 0.5, black)
	k.fill(render.Ring(geom.Polygon{{X: x1, Y: y}, {X: x1 - d, Y: y - 1.1}, {X: x1 - d, Y: y + 1.1}}), black)
}

// endBar is the mark of the marked end: a thick bar along the end at x, on the
// inside of the strip or board.
func (k *ink) endBar(x, top, bottom, inwards float64) {
	k.fill(render.Box(geom.R(x, top, x+math.Copysign(barWidth, inwards), bottom)), black)
}

// barWidth is how thick the bar of a marked end is, mm.
const barWidth = 1.4

// triangle is the cabinetmaker's triangle over all strips: its point to the
// back.
func (k *ink) triangle(x, half, back, front float64) {
	p := render.Path{{Points: []geom.Point{{X: x - half, Y: front}, {X: x, Y: back}, {X: x + half, Y: front}}, Closed: true}}
	k.calls.Stroke(p, render.Pen{Width: 0.9, Color: white, Round: true})
	k.calls.Stroke(p, render.Pen{Width: 0.45, Color: black, Round: true})
}
