package scene

import (
	"slices"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// spoiledWord stands beside a board that nothing more is cut from.
func spoiledWord() string { return say.T("spoiled") }

func (s *Scene) spoiled(b *face.Board) bool { return slices.Contains(s.in.Boards.Spoiled, b.ID) }

// drawCrossed crosses out both faces of the board in hand.
func (s *Scene) drawCrossed(c render.Canvas) {
	for f := 1; f <= 2; f++ {
		ring := s.handRing(f)
		s.cross(c, render.Ring(ring), geom.Polygon(ring).Bounds().Min, 1)
	}
}

// cross lays crossed lines over wood, far wider apart and heavier than those
// that tell the zones, dark between pale so that they stand out on either wood.
func (s *Scene) cross(c render.Canvas, wood render.Path, origin geom.Point, size float64) {
	k := size * s.text
	t := &s.in.Look.Theme
	c.Push(wood)
	defer c.Pop()
	for _, pen := range [...]render.Pen{
		{Width: 4.5 * k, Color: faint(t.Chalk, 0.75)},
		{Width: 2.4 * k, Color: spoiledHue},
	} {
		for _, angle := range [...]float64{55, -55} {
			c.Hatch(wood, render.Hatch{Angle: angle, Spacing: 30 * k, Origin: origin, Pen: pen})
		}
	}
}

// spoiledHue is of one darkness on light and on dark ground: it lies on wood.
var spoiledHue = rgb(0x8E1F16)

// drawSolid draws the outline of a cutting for a solid part: what is not to be
// had for strips, like the strips of other panels, with its two diagonals.
func (s *Scene) drawSolid(c render.Canvas, ring []geom.Point, l Laid) {
	t := &s.in.Look.Theme
	c.Fill(render.Ring(ring), faint(t.Veil, 0.5))
	s.onWood(c, render.Segment(ring[0], ring[2]), 0.8, nil)
	s.onWood(c, render.Segment(ring[1], ring[3]), 0.8, nil)
	s.onWood(c, render.Ring(ring), 1.6, nil)
	if h := s.in.Hover; h.Part == BoardStrip && h.Solid != "" && h.Strip == l.Strip.ID {
		c.Stroke(render.Ring(ring), render.Pen{Width: 2, Color: t.Hover})
	}
}
