package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// drawJoints marks at the right of each joint what meets there: two squares,
// filled for heartwood and open and hatched for sapwood, ringed where they
// differ.
func (s *Scene) drawJoints(c render.Canvas) {
	rd, t := s.in.Panel.Reading, &s.in.Look.Theme
	for _, b := range s.jointBoxes() {
		j, r := &rd.Joints[b.reading], b.at
		y := r.Centre().Y
		c.Fill(render.RoundBox(r.Inset(-3.5), 2), t.Ground) // it may stand on wood
		rear, front := s.jointMark(j)
		s.jointSquare(c, geom.R(r.Min.X, r.Min.Y, r.Max.X, y), rear)
		s.jointSquare(c, geom.R(r.Min.X, y, r.Max.X, r.Max.Y), front)
		if j.Kind == face.SapHeart {
			c.Stroke(render.Box(r.Inset(-2.5)), render.Pen{Width: 2, Color: t.Caution})
		}
	}
}

// jointBox is where the mark of a joint stands.
type jointBox struct {
	reading, joint int // index in the reading, and of the strip in front of it
	at             geom.Rect
}

// jointBoxes lays out the marks of the joints. They tell of the show face.
func (s *Scene) jointBoxes() []jointBox {
	p, rd := s.in.Panel.Panel, s.in.Panel.Reading
	if p == nil || rd == nil || rd.Panel != p.ID || s.in.Back {
		return nil
	}
	var out []jointBox
	x := math.Min(s.panel.rect(s.panelContent()).Max.X, s.areas.panel.Max.X-36*s.text) + 8*s.text
	for i := range rd.Joints {
		j := &rd.Joints[i]
		if j.Kind == face.Unjudged || j.I+1 >= len(p.Strips) {
			continue
		}
		below, above := stripRect(p, j.I), stripRect(p, j.I+1)
		y := s.panel.px(geom.Pt(0, above.Min.Y)).Y
		k := math.Min(s.size(7), 0.42*s.panel.zoom*math.Min(below.H(), above.H()))
		if k < 2.5 || y < s.areas.panel.Min.Y+k || y > s.areas.panel.Max.Y-k {
			continue
		}
		out = append(out, jointBox{i, j.I, geom.R(x, y-k, x+1.5*k, y+k)})
	}
	return out
}

// jointMark tells which side of a joint is sapwood.
func (s *Scene) jointMark(j *face.Joint) (rear, front bool) {
	switch j.Kind {
	case face.SapSap:
		return true, true
	case face.HeartHeart:
		return false, false
	}
	sum := func(w face.Widths) float64 { return w[0] + w[1] + w[2] }
	return sum(j.RearW) > sum(j.FrontW), sum(j.FrontW) >= sum(j.RearW)
}

func (s *Scene) jointSquare(c render.Canvas, r geom.Rect, sap bool) {
	t := &s.in.Look.Theme
	if !sap {
		c.Fill(render.Box(r), t.Ink)
		return
	}
	c.Hatch(render.Box(r), render.Hatch{Angle: 45, Spacing: 3, Origin: r.Min, Pen: render.Pen{Width: 0.9, Color: t.Ink}})
	c.Stroke(render.Box(r.Inset(0.5)), render.Pen{Width: 1, Color: t.Ink})
}
