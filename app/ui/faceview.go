package ui

import (
	"image"
	"math"

	"heartside/layout/geom"
)

// faceView is how a squared face lies on its widget: face mm, y up, on one
// side; units from the widget's top left corner, y down, on the other.
type faceView struct {
	size  geom.Point // of the face, mm
	room  geom.Rect  // what the view fills, units
	scale float64    // units a mm
	at    geom.Point // the place of the face in the middle of the room
}

// mostUnits is the most a mm of a face is drawn: then a cell of a mask is a
// square that cannot be missed. An engineering choice.
const mostUnits = 24

// whole is the scale that shows all of the face.
func (v *faceView) whole() float64 {
	r := v.room.Max.Sub(v.room.Min)
	return max(min(r.X/v.size.X, r.Y/v.size.Y)*0.97, 1e-6)
}

// Heights a board is worked at, units: one that is lower when all of it shows
// is drawn larger, so that a border can be followed by hand. Engineering
// choices.
const (
	lowBoard  = 110
	goodBoard = 220
)

// readable is the scale a face begins at.
func (v *faceView) readable() float64 {
	whole := v.whole()
	if whole*v.size.Y >= lowBoard {
		return whole
	}
	return max(whole, min(goodBoard, 0.5*v.room.H())/v.size.Y)
}

// toRoom returns where a place of the face lies on the widget.
func (v *faceView) toRoom(p geom.Point) geom.Point {
	c := v.room.Centre()
	return geom.Pt(c.X+(p.X-v.at.X)*v.scale, c.Y-(p.Y-v.at.Y)*v.scale)
}

// toFace is toRoom the other way.
func (v *faceView) toFace(p geom.Point) geom.Point {
	if v.scale <= 0 {
		return v.at
	}
	c := v.room.Centre()
	return geom.Pt(v.at.X+(p.X-c.X)/v.scale, v.at.Y-(p.Y-c.Y)/v.scale)
}

// inside brings a place onto the face.
func (v *faceView) inside(p geom.Point) geom.Point {
	return geom.Pt(min(max(p.X, 0), v.size.X), min(max(p.Y, 0), v.size.Y))
}

// on reports whether a place of the widget shows wood.
func (v *faceView) on(p geom.Point) bool { return v.inside(v.toFace(p)) == v.toFace(p) }

// keep lays the view so that a place of the face is at one of the widget.
func (v *faceView) keep(p, at geom.Point) {
	c := v.room.Centre()
	v.at = geom.Pt(p.X-(at.X-c.X)/v.scale, p.Y+(at.Y-c.Y)/v.scale)
	v.hold()
}

// moved pans by units of the widget.
func (v *faceView) moved(by geom.Point) {
	v.at = v.at.Add(geom.Pt(-by.X, by.Y).Mul(1 / v.scale))
	v.hold()
}

// show pans so that a place of the face is in sight.
func (v *faceView) show(p geom.Point) {
	half := v.room.Max.Sub(v.room.Min).Mul(0.42 / v.scale)
	v.at.X = min(max(v.at.X, p.X-half.X), p.X+half.X)
	v.at.Y = min(max(v.at.Y, p.Y-half.Y), p.Y+half.Y)
	v.hold()
}

// hold keeps the face in the room, in its middle where it is smaller.
func (v *faceView) hold() {
	half := v.room.Max.Sub(v.room.Min).Mul(0.5 / v.scale)
	keep := func(at, half, size float64) float64 {
		if 2*half >= size {
			return size / 2
		}
		slack := half * 0.04 // a little ground beyond the edge, so that it can be seen
		return min(max(at, half-slack), size-half+slack)
	}
	v.at = geom.Pt(keep(v.at.X, half.X, v.size.X), keep(v.at.Y, half.Y, v.size.Y))
}

// seen is the part of the face in the room.
func (v *faceView) seen() geom.Rect {
	a, b := v.inside(v.toFace(v.room.Min)), v.inside(v.toFace(v.room.Max))
	return geom.R(a.X, b.Y, b.X, a.Y)
}

// pixels returns how the face lies on a picture with px pixels a unit: the
// pixel of its upper left corner as seen, and pixels a mm.
func (v *faceView) pixels(px float64) facePlace {
	o := v.toRoom(geom.Pt(0, v.size.Y)).Mul(px)
	return facePlace{at: o, k: v.scale * px, clip: pixelRect(v.room, px)}
}

// facePlace is where a face is drawn.
type facePlace struct {
	at   geom.Point // pixel of the face's upper left corner as seen
	k    float64    // pixels a mm
	clip image.Rectangle
}

func pixelRect(r geom.Rect, px float64) image.Rectangle {
	return image.Rect(int(math.Round(r.Min.X*px)), int(math.Round(r.Min.Y*px)), int(math.Round(r.Max.X*px)), int(math.Round(r.Max.Y*px)))
}
