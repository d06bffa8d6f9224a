package model

import (
	"cmp"

	"heartside/model/say"
)

// PlaceStrip lays a strip, or an empty place, on a board: its corner at
// (X, Y) in face-1 coordinates, turned by Angle degrees.
type PlaceStrip struct {
	Panel, Strip string
	Board        string
	X, Y         float64
	Angle        float64
}

// Label implements Edit.
func (e PlaceStrip) Label() string {
	return say.F("Place strip %s on board %s", e.Strip, e.Board)
}

func (e PlaceStrip) apply(p *Project) (*Project, error) {
	if p.Board(e.Board) == nil {
		return nil, noBoard(e.Board)
	}
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error {
		if s.Board != e.Board {
			s.Off = nil // the stock to take off was chosen for another board
		}
		s.Board, s.X, s.Y, s.Angle = e.Board, e.X, e.Y, e.Angle
		return nil
	})
}

// LiftStrip takes a strip off its board and leaves an empty place.
type LiftStrip struct{ Panel, Strip string }

// Label implements Edit.
func (e LiftStrip) Label() string { return say.F("Lift strip %s off its board", e.Strip) }

func (e LiftStrip) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error { *s = lifted(*s); return nil })
}

// SetStrip replaces the strip of a panel that has the same id.
type SetStrip struct {
	Panel string
	Strip Strip
	Verb  string // "Narrow" gives "Narrow strip A1"; "" for "Change"
}

// Label implements Edit.
func (e SetStrip) Label() string {
	return say.F("%s strip %s", cmp.Or(e.Verb, say.T("Change")), e.Strip.ID)
}

func (e SetStrip) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip.ID, func(s *Strip) error { *s = cloneStrip(e.Strip); return nil })
}

// FlipStrip rolls a strip over about its long axis: the other face shows.
type FlipStrip struct{ Panel, Strip string }

// Label implements Edit.
func (e FlipStrip) Label() string { return say.F("Roll strip %s over", e.Strip) }

func (e FlipStrip) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error { s.Up = 3 - s.Up; return nil })
}

// TurnStrip turns a strip end for end with the same face showing.
type TurnStrip struct{ Panel, Strip string }

// Label implements Edit.
func (e TurnStrip) Label() string { return say.F("Turn strip %s end for end", e.Strip) }

func (e TurnStrip) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error { s.Turned = !s.Turned; return nil })
}

// ShiftStrip slides a strip along the panel: its centre lies Shift mm to the
// right of the panel's.
type ShiftStrip struct {
	Panel, Strip string
	Shift        float64
}

// Label implements Edit.
func (e ShiftStrip) Label() string { return say.F("Slide strip %s along the panel", e.Strip) }

func (e ShiftStrip) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error { s.Shift = e.Shift; return nil })
}

// PinStrip holds a strip where it is against the search, or lets it go.
type PinStrip struct {
	Panel, Strip string
	Pinned       bool
}

// Label implements Edit.
func (e PinStrip) Label() string {
	if e.Pinned {
		return say.F("Pin strip %s", e.Strip)
	}
	return say.F("Unpin strip %s", e.Strip)
}

func (e PinStrip) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error { s.Pinned = e.Pinned; return nil })
}

// SetStage says how far the making of a strip has come.
type SetStage struct {
	Panel, Strip string
	Stage        Stage
}

// Label implements Edit.
func (e SetStage) Label() string {
	return say.F("Mark strip %s %s", e.Strip, e.Stage.Words())
}

func (e SetStage) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error { s.Stage = e.Stage; return nil })
}

// SetPlaned records the sap widths measured on a strip after planing, or
// forgets them where Planed is nil. They are those of the face that shows now
// unless Planed names another. A strip so measured has been planed.
type SetPlaned struct {
	Panel, Strip string
	Planed       *PlanedSap
}

// Label implements Edit.
func (e SetPlaned) Label() string {
	if e.Planed == nil {
		return say.F("Forget measured sap of strip %s", e.Strip)
	}
	return say.F("Measure sap of strip %s", e.Strip)
}

func (e SetPlaned) apply(p *Project) (*Project, error) {
	return p.editStrip(e.Panel, e.Strip, func(s *Strip) error {
		if e.Planed == nil {
			s.Planed = nil
			return nil
		}
		m := *e.Planed
		if m.Face == 0 {
			m.Face = s.Up
		}
		s.Planed = &m
		if s.Stage.order() < Planed.order() {
			s.Stage = Planed
		}
		return nil
	})
}
