package scene

import (
	"heartside/layout/face"
	"heartside/layout/geom"
)

// rolledOver returns a panel as it lies after being rolled over about its long
// axis: its strips in the other order, each with its other face up. Ends stay
// where they were.
func rolledOver(p *face.Panel) *face.Panel {
	if p == nil {
		return nil
	}
	q, m := *p, p.BackView()
	n := len(p.Strips)
	q.Strips = make([]face.Strip, n)
	for i := range p.Strips {
		q.Strips[n-1-i] = rolledStrip(p.Strips[i])
	}
	q.Hidden = nil // what is hidden is hidden on the show face
	if p.Shape != nil {
		q.Shape = m.ApplyTo(p.Shape)
	}
	return &q
}

// rolledStrip is a strip with its other face up; what was measured after
// planing was measured on the face that shows.
func rolledStrip(s face.Strip) face.Strip {
	s.Up, s.Planed = 3-s.UpFace(), nil
	return s
}

// turnToBack makes the scene one of the back of the panel, where that is what
// is to be seen.
func (s *Scene) turnToBack() {
	if !s.in.Back || s.in.Panel.Panel == nil {
		s.in.Back = false
		return
	}
	n := &s.in.Panel
	n.Panel, s.in.Before = rolledOver(n.Panel), rolledOver(s.in.Before)
	n.Front, n.Back = n.Back, n.Front
	if r := s.in.Roll; r != nil {
		q := *r
		q.Was = rolledStrip(q.Was)
		s.in.Roll = &q
	}
}

// turned maps mm of the panel to mm as seen, and the other way round.
func (s *Scene) turned(p geom.Point) geom.Point {
	if s.in.Back {
		return s.in.Panel.Panel.BackView().Apply(p)
	}
	return p
}

// fromBack gives a hit on the panel as seen in coordinates and indices of the
// panel itself.
func (s *Scene) fromBack(h Hit) Hit {
	if !s.in.Back {
		return h
	}
	h.Panels = s.turned(h.Panels)
	n := len(s.in.Panel.Panel.Strips)
	switch {
	case h.Part == Joint || h.Part == JointMark:
		h.Index = n - 2 - h.Index
	case h.Index >= 0 && h.Part != BeforeSide:
		h.Index = n - 1 - h.Index
	}
	return h
}
