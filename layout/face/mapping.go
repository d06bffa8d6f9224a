package face

import "heartside/layout/geom"

// ToBoard maps the strip's own (s, t) to face-1 board coordinates.
func (s *Strip) ToBoard() geom.Affine {
	return geom.Rotate(s.Angle).Then(geom.Translate(s.X, s.Y))
}

// FromPlace maps (u, v), the place as seen on the show face measured from the
// strip's left front corner in the panel, to the strip's own (s, t).
func (s *Strip) FromPlace() geom.Affine {
	m := geom.Identity
	if s.Turned {
		m.A, m.C = -1, s.L
	}
	if s.Turned != (s.Up == 2) {
		m.E, m.F = -1, s.W
	}
	return m
}

// Other returns the map from face-1 coordinates of a board to those of face 2
// at the same place, which is also the map back.
func (b *Board) Other() geom.Affine { return geom.Affine{A: 1, E: -1, F: b.Width} }

// PlaceToFace maps (u, v) of the strip, as seen on the show face, to the own
// coordinates of board face 1 or 2 at that place. The strip must have a board.
func (s *Strip) PlaceToFace(face int) geom.Affine {
	m := s.FromPlace().Then(s.ToBoard())
	if face == 2 {
		m = m.Then(s.Board.Other())
	}
	return m
}

// Left returns the panel X at which strip i begins, its u = 0.
func (p *Panel) Left(i int) float64 {
	return (p.Length-p.Strips[i].L)/2 + p.Strips[i].Shift
}

// StripY returns the panel Y at which strip i begins, its v = 0.
func (p *Panel) StripY(i int) float64 {
	y := p.Y0()
	for k := 0; k < i; k++ {
		y += p.Strips[k].W
	}
	return y
}

// PanelToFace maps a panel point, as seen on the show face, to the own
// coordinates of the board face that strip i turns to the given side (Show or
// Back) at that place.
func (p *Panel) PanelToFace(i int, side Side) geom.Affine {
	s := &p.Strips[i]
	f := s.Up
	if side == Back {
		f = 3 - f
	}
	return geom.Translate(-p.Left(i), -p.StripY(i)).Then(s.PlaceToFace(f))
}

// BackView maps a point seen on the back, after rolling the panel about its
// long axis, to the point of the show face above it, and the other way round.
func (p *Panel) BackView() geom.Affine { return geom.Affine{A: 1, E: -1, F: p.Width} }

// UpFace returns the face of the board that shows, 1 or 2: whatever Up is but
// 2 stands for 1.
func (s *Strip) UpFace() int {
	if s.Up == 2 {
		return 2
	}
	return 1
}

// ArrowReversed reports whether the board's planing direction on face 1 runs
// the other way as the strip lies: turned or rolled over, not both.
func (s *Strip) ArrowReversed() bool { return s.Turned != (s.Up == 2) }

// Planing returns which way the strip planes cleanly on its show face as it
// lies: 1 to the right, -1 to the left, 0 where that is not known or mixed.
func (s *Strip) Planing() int {
	d := 0
	switch {
	case s.Board == nil:
	case s.Board.Planes == PlanesFromMarked:
		d = 1
	case s.Board.Planes == PlanesToMarked:
		d = -1
	}
	if s.ArrowReversed() {
		d = -d
	}
	return d
}
