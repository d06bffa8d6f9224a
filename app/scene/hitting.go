package scene

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// reach is how near the pointer must come to a handle, corner or joint, units
// at ordinary text.
const reach = 6.0

// Hit returns what lies under a place of the surface.
func (s *Scene) Hit(at geom.Point) Hit {
	h := Hit{Zone: -1}
	switch s.AreaAt(at) {
	case PanelArea:
		return s.fromBack(s.hitPanel(h, at))
	case BoardArea:
		return s.hitBoard(h, at)
	case LaneArea:
		return s.hitLane(h, at)
	}
	return h
}

func (s *Scene) hitPanel(h Hit, at geom.Point) Hit {
	p := s.in.Panel.Panel
	if p == nil {
		h.Part = PanelGround
		return h
	}
	h.Panel = p.ID
	if s.in.Before != nil && at.X < s.areas.panel.Centre().X {
		h.Part, h.Panels = BeforeSide, s.was.mm(at)
		return h
	}
	h.Part, h.Panels, h.Index = PanelGround, s.panel.mm(at), -1
	for _, b := range s.jointBoxes() {
		if b.at.Inset(-3).Contains(at) {
			h.Part, h.Index = JointMark, b.joint
			return h
		}
	}
	for i := range p.Strips {
		r := stripRect(p, i)
		if !r.Contains(h.Panels) {
			continue
		}
		s.hitStrip(&h, p, i)
		if part := s.markAt(p, i, at); part != Nothing {
			h.Part = part
			return h
		}
		near := reach / 2.4 / s.panel.zoom
		if r.H() < 8*near {
			return h
		}
		// A joint is hit close to the glue line, between two strips.
		switch {
		case i+1 < len(p.Strips) && r.Max.Y-h.Panels.Y < near:
			h.Part = Joint
		case i > 0 && h.Panels.Y-r.Min.Y < near:
			h.Part, h.Index = Joint, i-1
		}
		return h
	}
	return h
}

// hitStrip fills in what a place on strip i of the panel is, on the face that
// shows.
func (s *Scene) hitStrip(h *Hit, p *face.Panel, i int) {
	st := &p.Strips[i]
	h.Index, h.Strip, h.Part = i, st.ID, PanelPlace
	if st.Board == nil {
		return
	}
	h.Part, h.Board, h.Face = PanelStrip, st.Board.ID, handleFace(st)
	h.At = p.PanelToFace(i, face.Show).Apply(h.Panels)
	h.At1 = toFace1(st.Board, h.Face, h.At)
	h.Zone = zoneAt(st.Board, h.Face, h.At)
}

func toFace1(b *face.Board, f int, p geom.Point) geom.Point {
	if f == 2 {
		return b.Other().Apply(p)
	}
	return p
}

func (s *Scene) hitBoard(h Hit, at geom.Point) Hit {
	h.Part = BoardGround
	if s.hand == nil || !s.areas.body.Contains(at) {
		return h
	}
	near := reach * s.text
	laid := s.laid()
	if n := len(laid); n > 0 && s.picked(laid[n-1]) {
		st := laid[n-1].Strip
		if _, knob := s.handle(st, handleFace(st)); knob.Dist(at) <= handleSize*s.text+2 {
			s.onFace(&h, handleFace(st), at)
			h.Part, h.Strip, h.Panel = RotateHandle, st.ID, laid[n-1].Panel
			return h
		}
	}
	if ring, f, ok := s.zoneInHand(); ok && s.hitZone(&h, ring, f, at, near) {
		return h
	}
	b := s.hand
	v := s.board.mm(at)
	if v.X >= 0 && v.X <= b.Length && math.Abs(v.Y) < b.Thickness/2 {
		h.Part, h.Board, h.At1 = BoardEdge, b.ID, geom.Pt(v.X, 0)
		return h
	}
	f := 1
	if v.Y < 0 {
		f = 2
	}
	s.onFace(&h, f, at)
	for i := len(laid) - 1; i >= 0; i-- {
		st := laid[i].Strip
		inv, ok := st.ToBoard().Inverse()
		if !ok {
			continue
		}
		if q := inv.Apply(h.At1); q.X >= 0 && q.X <= st.L && q.Y >= 0 && q.Y <= st.W {
			h.Part, h.Strip, h.Panel, h.Solid = BoardStrip, st.ID, laid[i].Panel, laid[i].Solid
			return h
		}
	}
	if geom.R(0, 0, b.Length, b.Width).Contains(h.At) {
		h.Part = BoardFace
		return h
	}
	return Hit{Part: BoardGround, Zone: -1}
}

// onFace fills in the face and the places on it.
func (s *Scene) onFace(h *Hit, f int, at geom.Point) {
	h.Board, h.Face = s.hand.ID, f
	h.At, _ = s.FaceAt(s.hand.ID, f, at)
	h.At1 = toFace1(s.hand, f, h.At)
	h.Zone = zoneAt(s.hand, f, h.At)
}

// hitZone looks for a corner or edge of the zone in hand.
func (s *Scene) hitZone(h *Hit, ring geom.Polygon, f int, at geom.Point, near float64) bool {
	q := s.faceUnits(f).ApplyTo(ring)
	best, bestD := -1, near
	for i, p := range q {
		if d := p.Dist(at); d <= bestD {
			best, bestD = i, d
		}
	}
	part := ZoneVertex
	if best < 0 {
		part, bestD = ZoneEdge, near*0.7
		for i, p := range q {
			if d := toSegment(at, p, q[(i+1)%len(q)]); d <= bestD {
				best, bestD = i, d
			}
		}
	}
	if best < 0 {
		return false
	}
	s.onFace(h, f, at)
	h.Part, h.Zone, h.Index = part, s.in.Pick.Zone, best
	return true
}

// toSegment returns how far p lies from the line between a and b.
func toSegment(p, a, b geom.Point) float64 {
	d := b.Sub(a)
	n := d.Dot(d)
	if n == 0 {
		return p.Dist(a)
	}
	t := math.Min(math.Max(p.Sub(a).Dot(d)/n, 0), 1)
	return p.Dist(a.Add(d.Mul(t)))
}

func (s *Scene) hitLane(h Hit, at geom.Point) Hit {
	h.Part = LaneGround
	for i := range s.lanes {
		l := &s.lanes[i]
		if !l.cell.Contains(at) {
			continue
		}
		h.Part, h.Board, h.Face = Lane, l.board.ID, 1
		if inv, ok := l.to.Inverse(); ok {
			h.At = inv.Apply(at)
			h.At1 = h.At
		}
		return h
	}
	return h
}
