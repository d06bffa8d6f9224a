package outline

import (
	"math"
	"testing"

	"heartside/layout/geom"
)

// The pictures of rectangles by a pinhole that is written out in camera.at:
// the shape must give back their sides, and the focal length where the tilt
// tells it.
func TestShapeOfRectangles(t *testing.T) {
	for _, c := range []camera{
		{w: 1200, h: 900, focal: 0.9, distance: 1000},
		{w: 1200, h: 900, focal: 0.7, pitch: 25, roll: 30, distance: 900},
		{w: 1200, h: 900, focal: 1.4, pitch: 30, roll: -40, distance: 1600},
	} {
		q := c.rect(-400, -80, 760, 190)
		m := geom.Pt(600, 450)
		s := shapeOf(q, m, 1200, 760, 190, exactSpread)
		if math.Abs(s.aspect) > 0.003 || math.Abs(s.skew) > 0.003 {
			t.Errorf("%+v: aspect off by %.4f, skew %.4f", c, s.aspect, s.skew)
		}
		if c.pitch > 0 && math.Abs(math.Log(s.focal/c.focal)) > 0.1 {
			t.Errorf("%+v: focal length %.2f", c, s.focal)
		}
		// A board said to be a tenth wider is told apart.
		if w := shapeOf(q, m, 1200, 760, 209, exactSpread); w.cost < s.cost+9 {
			t.Errorf("%+v: a width a tenth off costs %.1f, the right one %.1f", c, w.cost, s.cost)
		}
	}
	if s := shapeOf([4]geom.Point{}, geom.Pt(1, 1), 2, 3, 1, exactSpread); !math.IsInf(s.cost, 1) {
		t.Errorf("no rectangle at all costs %g", s.cost)
	}
}
