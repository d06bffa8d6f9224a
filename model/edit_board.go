package model

import (
	"cmp"
	"slices"

	"heartside/model/say"
)

// AddBoard puts a board at the end of the stack.
type AddBoard struct{ Board *Board }

// Label implements Edit.
func (e AddBoard) Label() string { return say.F("Add board %s", boardID(e.Board)) }

func (e AddBoard) apply(p *Project) (*Project, error) {
	if e.Board == nil {
		return nil, RuleError{Rule: RuleMissing, Detail: say.T("no board was given")}
	}
	return p.with(func(q *Project) { q.Boards = append(slices.Clone(q.Boards), cloneBoard(e.Board)) }), nil
}

// SetBoard replaces the board that has the same id.
type SetBoard struct{ Board *Board }

// Label implements Edit.
func (e SetBoard) Label() string { return say.F("Change board %s", boardID(e.Board)) }

func (e SetBoard) apply(p *Project) (*Project, error) {
	if e.Board == nil {
		return nil, RuleError{Rule: RuleMissing, Detail: say.T("no board was given")}
	}
	return p.editBoard(e.Board.ID, func(b *Board) error { *b = *cloneBoard(e.Board); return nil })
}

// RenameBoard gives a board another id; its strips and cuttings follow.
type RenameBoard struct{ From, To string }

// Label implements Edit.
func (e RenameBoard) Label() string { return say.F("Rename board %s to %s", e.From, e.To) }

func (e RenameBoard) apply(p *Project) (*Project, error) {
	if p.Board(e.From) == nil {
		return nil, noBoard(e.From)
	}
	if e.From == e.To {
		return p, nil
	}
	if p.Board(e.To) != nil {
		return nil, RuleError{Rule: RuleDuplicateID, Board: e.To, Detail: say.T("another board has that letter already")}
	}
	q, err := p.editBoard(e.From, func(b *Board) error { b.ID = e.To; return nil })
	if err != nil {
		return nil, err
	}
	return q.onBoard(e.From, func(s *Strip) { s.Board = e.To }).onPlaces(e.From, func(k *PartPlace) bool { k.Board = e.To; return true }), nil
}

// RemoveBoard takes a board out of the stack. Its strips in panels become
// empty places; those among the spares and the cuttings of parts go with it.
type RemoveBoard struct{ ID string }

// Label implements Edit.
func (e RemoveBoard) Label() string { return say.F("Remove board %s", e.ID) }

func (e RemoveBoard) apply(p *Project) (*Project, error) {
	i := slices.IndexFunc(p.Boards, func(b *Board) bool { return b.ID == e.ID })
	if i < 0 {
		return nil, noBoard(e.ID)
	}
	q := p.with(func(q *Project) {
		q.Boards = slices.Delete(slices.Clone(q.Boards), i, i+1)
		if slices.ContainsFunc(q.Spares, func(s Strip) bool { return s.Board == e.ID }) {
			q.Spares = without(q.Spares, func(s Strip) bool { return s.Board == e.ID })
		}
	})
	return q.onBoard(e.ID, func(s *Strip) { *s = lifted(*s) }).onPlaces(e.ID, func(*PartPlace) bool { return false }), nil
}

// SetFace replaces face 1 or 2 of a board.
type SetFace struct {
	Board string
	Face  int // 1 or 2
	Value Face
}

// Label implements Edit.
func (e SetFace) Label() string { return say.F("Change face %d of board %s", e.Face, e.Board) }

func (e SetFace) apply(p *Project) (*Project, error) {
	return p.editFace(e.Board, e.Face, func(f *Face) { *f = cloneFace(e.Value) })
}

// SetZones replaces the zones of a face, which is known from then on.
type SetZones struct {
	Board string
	Face  int // 1 or 2
	Zones []Zone
	Verb  string // what was done: "Draw a sap zone"; "" for "Change zones"
}

// Label implements Edit.
func (e SetZones) Label() string {
	return say.F("%s on board %s", cmp.Or(e.Verb, say.T("Change zones")), e.Board)
}

func (e SetZones) apply(p *Project) (*Project, error) {
	return p.editFace(e.Board, e.Face, func(f *Face) { f.Zones, f.Known = cloneZones(e.Zones), true })
}

func boardID(b *Board) string {
	if b == nil {
		return ""
	}
	return b.ID
}

// lifted returns the empty place a strip leaves when it is taken off its
// board.
func lifted(s Strip) Strip {
	return Strip{ID: s.ID, L: s.L, W: s.W, Up: s.Up, Turned: s.Turned, Shift: s.Shift, Stage: s.Stage}
}
