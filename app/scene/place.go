package scene

import (
	"heartside/layout/face"
	"heartside/layout/geom"
)

// toPlane maps a face's own coordinates to the unwrapped plane, whose y = 0
// runs along the middle of the marked edge.
func toPlane(b *face.Board, f int) geom.Affine {
	if f == 2 {
		return geom.Translate(0, -b.Width-b.Thickness/2)
	}
	return geom.Translate(0, b.Thickness/2)
}

// faceUnits maps a face of the board in hand to units.
func (s *Scene) faceUnits(f int) geom.Affine {
	return toPlane(s.hand, f).Then(s.board.toUnits())
}

// AreaAt returns which area a place of the surface belongs to.
func (s *Scene) AreaAt(at geom.Point) Area {
	switch {
	case s.areas.panel.Contains(at):
		return PanelArea
	case s.areas.lanes.Contains(at) && !s.areas.lanes.Empty():
		return LaneArea
	case s.areas.board.Contains(at):
		return BoardArea
	}
	return NoArea
}

// AreaRect returns where an area lies, units.
func (s *Scene) AreaRect(a Area) geom.Rect {
	switch a {
	case PanelArea:
		return s.areas.panel
	case BoardArea:
		return s.areas.board
	case LaneArea:
		return s.areas.lanes
	}
	return geom.Rect{}
}

// PanelAt maps a place of the surface to mm of the panel, also beyond it.
func (s *Scene) PanelAt(at geom.Point) geom.Point { return s.turned(s.panel.mm(at)) }

// PanelPoint maps a point of the panel, mm, to the surface.
func (s *Scene) PanelPoint(p geom.Point) geom.Point { return s.panel.px(s.turned(p)) }

// FaceAt maps a place of the surface to mm of a board's face, its own
// coordinates, also beyond it; for a board in the lanes to its face 1 as the
// lane shows it. False where the board is not on screen.
func (s *Scene) FaceAt(board string, f int, at geom.Point) (geom.Point, bool) {
	if s.hand != nil && s.hand.ID == board && (f == 1 || f == 2) {
		inv, _ := s.faceUnits(f).Inverse()
		return inv.Apply(at), true
	}
	for i := range s.lanes {
		if l := &s.lanes[i]; l.board.ID == board {
			inv, ok := l.to.Inverse()
			p := inv.Apply(at)
			if f == 2 {
				p = l.board.Other().Apply(p)
			}
			return p, ok
		}
	}
	return geom.Point{}, false
}

// FacePoint maps a point of a face of the board in hand, its own coordinates,
// to the surface; false where that board is not in hand.
func (s *Scene) FacePoint(board string, f int, p geom.Point) (geom.Point, bool) {
	if s.hand == nil || s.hand.ID != board || f < 1 || f > 2 {
		return geom.Point{}, false
	}
	return s.faceUnits(f).Apply(p), true
}

// Zoomed returns the views with the area under a place scaled about it.
func (s *Scene) Zoomed(at geom.Point, by float64) Views {
	v := s.in.Views
	switch s.AreaAt(at) {
	case PanelArea:
		v.Panel = s.frameAt(at).zoomed(at, by)
	case BoardArea:
		if s.hand != nil {
			v.Board = s.board.zoomed(at, by)
		}
	}
	return v
}

// frameAt returns the frame of the panel, or of the panel as it was, nearer to
// a place.
func (s *Scene) frameAt(at geom.Point) frame {
	if s.in.Before != nil && at.X < s.areas.panel.Centre().X {
		return s.was
	}
	return s.panel
}

// Panned returns the views with the area under a place moved.
func (s *Scene) Panned(at, by geom.Point) Views {
	v := s.in.Views
	switch s.AreaAt(at) {
	case PanelArea:
		v.Panel = s.panel.panned(by)
	case BoardArea:
		if s.hand != nil {
			v.Board = s.board.panned(by)
		}
	case LaneArea:
		v.Lanes = s.holdLanes(v.Lanes - by.Y)
	}
	return v
}

// Fitted returns the views with an area showing all of what it holds.
func (s *Scene) Fitted(a Area) Views {
	v := s.in.Views
	switch a {
	case PanelArea:
		v.Panel = View{}
	case BoardArea:
		v.Board = View{}
	case LaneArea:
		v.Lanes = 0
	}
	return v
}

// TrueSize returns the views with an area at the size of the wood itself;
// unitsPerMM is that of the screen.
func (s *Scene) TrueSize(a Area, unitsPerMM float64) Views {
	v := s.in.Views
	if !(unitsPerMM > 0) {
		return v
	}
	switch {
	case a == PanelArea:
		v.Panel = View{Zoom: unitsPerMM, Centre: s.panel.centre}
	case a == BoardArea && s.hand != nil:
		v.Board = View{Zoom: unitsPerMM, Centre: s.board.centre}
	}
	return v
}

// Scale returns how many units a mm has in an area now.
func (s *Scene) Scale(a Area) float64 {
	switch {
	case a == PanelArea:
		return s.panel.zoom
	case a == BoardArea && s.hand != nil:
		return s.board.zoom
	}
	return 0
}
