package scene

import (
	"math"

	"heartside/layout/geom"
)

// Area is a part of the surface with a scale of its own.
type Area uint8

// Areas.
const (
	NoArea Area = iota
	PanelArea
	BoardArea
	LaneArea
)

// View is how an area is looked at. The zero value fits everything in.
type View struct {
	Zoom   float64    // units a mm; 0: fit
	Centre geom.Point // mm in the middle of the area, where Zoom is set
}

// Views are those of the areas; Lanes is how far the lanes are scrolled,
// units.
type Views struct {
	Panel, Board View
	Lanes        float64
	Split        float64 // share of the height the panel takes; 0: half
}

// Zoom limits, units a mm.
const (
	leastZoom = 0.02
	mostZoom  = 40
)

// frame is a View in use: a box on the surface, and the map between mm and
// units there.
type frame struct {
	box    geom.Rect // units
	zoom   float64
	centre geom.Point // mm
}

// newFrame looks at content (mm, y up) through a box.
func newFrame(box, content geom.Rect, v View) frame {
	if v.Zoom > 0 {
		return frame{box, math.Min(math.Max(v.Zoom, leastZoom), mostZoom), v.Centre}
	}
	z := float64(mostZoom)
	if content.W() > 0 {
		z = math.Min(z, box.W()/content.W())
	}
	if content.H() > 0 {
		z = math.Min(z, box.H()/content.H())
	}
	return frame{box, math.Max(z, leastZoom), content.Centre()}
}

// toUnits maps mm to surface units.
func (f frame) toUnits() geom.Affine {
	c := f.box.Centre()
	return geom.Affine{A: f.zoom, C: c.X - f.zoom*f.centre.X, E: -f.zoom, F: c.Y + f.zoom*f.centre.Y}
}

// px maps a point in mm to surface units.
func (f frame) px(p geom.Point) geom.Point { return f.toUnits().Apply(p) }

// mm maps a place on the surface to mm.
func (f frame) mm(p geom.Point) geom.Point {
	c := f.box.Centre()
	return geom.Pt(f.centre.X+(p.X-c.X)/f.zoom, f.centre.Y-(p.Y-c.Y)/f.zoom)
}

// rect maps a rectangle in mm to surface units.
func (f frame) rect(r geom.Rect) geom.Rect {
	a, b := f.px(r.Min), f.px(r.Max)
	return geom.R(a.X, a.Y, b.X, b.Y)
}

// zoomed returns the view scaled about a place of the surface.
func (f frame) zoomed(at geom.Point, by float64) View {
	z := math.Min(math.Max(f.zoom*by, leastZoom), mostZoom)
	under := f.mm(at)
	c := f.box.Centre()
	// The mm under the pointer stays there.
	return View{Zoom: z, Centre: geom.Pt(under.X-(at.X-c.X)/z, under.Y+(at.Y-c.Y)/z)}
}

// panned returns the view moved by a displacement of the surface.
func (f frame) panned(by geom.Point) View {
	return View{Zoom: f.zoom, Centre: geom.Pt(f.centre.X-by.X/f.zoom, f.centre.Y+by.Y/f.zoom)}
}
