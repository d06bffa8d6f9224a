package model

import (
	"slices"

	"heartside/model/say"
)

// SwapStrips lets two strips of a panel change places.
type SwapStrips struct{ Panel, A, B string }

// Label implements Edit.
func (e SwapStrips) Label() string { return say.F("Swap strips %s and %s", e.A, e.B) }

func (e SwapStrips) apply(p *Project) (*Project, error) {
	return p.editPanel(e.Panel, func(n *Panel) error {
		i, j := n.StripIndex(e.A), n.StripIndex(e.B)
		if i < 0 {
			return noStrip(e.Panel, e.A)
		}
		if j < 0 {
			return noStrip(e.Panel, e.B)
		}
		n.Strips[i], n.Strips[j] = n.Strips[j], n.Strips[i]
		return nil
	})
}

// MoveStrip moves a strip within its panel so that it ends up as number To
// from the front, counted from 0; the ends of the list hold it.
type MoveStrip struct {
	Panel, Strip string
	To           int
}

// Label implements Edit.
func (e MoveStrip) Label() string { return say.F("Move strip %s", e.Strip) }

func (e MoveStrip) apply(p *Project) (*Project, error) {
	return p.editPanel(e.Panel, func(n *Panel) error {
		i := n.StripIndex(e.Strip)
		if i < 0 {
			return noStrip(e.Panel, e.Strip)
		}
		s := n.Strips[i]
		rest := slices.Delete(n.Strips, i, i+1)
		n.Strips = slices.Insert(rest, min(max(e.To, 0), len(rest)), s)
		return nil
	})
}

// AddStrip puts a strip or an empty place into a panel as number At from the
// front, counted from 0; an At outside the list puts it last.
type AddStrip struct {
	Panel string
	Strip Strip
	At    int
}

// Label implements Edit.
func (e AddStrip) Label() string { return say.F("Add strip %s", e.Strip.ID) }

func (e AddStrip) apply(p *Project) (*Project, error) {
	return p.editPanel(e.Panel, func(n *Panel) error {
		n.insert(e.At, cloneStrip(e.Strip))
		return nil
	})
}

// RemoveStrip takes a strip out of its panel and forgets it.
type RemoveStrip struct{ Panel, Strip string }

// Label implements Edit.
func (e RemoveStrip) Label() string { return say.F("Remove strip %s", e.Strip) }

func (e RemoveStrip) apply(p *Project) (*Project, error) {
	return p.editPanel(e.Panel, func(n *Panel) error {
		i := n.StripIndex(e.Strip)
		if i < 0 {
			return noStrip(e.Panel, e.Strip)
		}
		n.Strips = slices.Delete(n.Strips, i, i+1)
		return nil
	})
}

// ToSpares takes a strip out of its panel and keeps it among the spares. It
// keeps its id unless a spare has that id already; then it gets the next free
// number.
type ToSpares struct{ Panel, Strip string }

// Label implements Edit.
func (e ToSpares) Label() string { return say.F("Put strip %s among the spares", e.Strip) }

func (e ToSpares) apply(p *Project) (*Project, error) {
	n := p.Panel(e.Panel)
	if n == nil {
		return nil, noPanel(e.Panel)
	}
	s, ok := stripIn(n, e.Strip)
	if !ok {
		return nil, noStrip(e.Panel, e.Strip)
	}
	if s.Board == "" {
		return nil, RuleError{Rule: RuleEmptyPlace, Panel: e.Panel, Strip: e.Strip,
			Detail: say.T("an empty place cannot be a spare; remove it instead")}
	}
	q, err := RemoveStrip(e).apply(p)
	if err != nil {
		return nil, err
	}
	return q.withSpares(withSpare(p, q.Spares, s)), nil
}

// FromSpares takes a spare into a panel as number At from the front, counted
// from 0; an At outside the list puts it last.
type FromSpares struct {
	Strip string
	Panel string
	At    int
}

// Label implements Edit.
func (e FromSpares) Label() string {
	return say.F("Take spare %s into panel %s", e.Strip, e.Panel)
}

func (e FromSpares) apply(p *Project) (*Project, error) {
	s, ok := findStrip(p.Spares, e.Strip)
	if !ok {
		return nil, noStrip("", e.Strip)
	}
	n := p.Panel(e.Panel)
	if n == nil {
		return nil, noPanel(e.Panel)
	}
	if n.StripIndex(s.ID) >= 0 {
		s.ID = NextStripID(p)
	}
	q, err := RemoveSpare{e.Strip}.apply(p)
	if err != nil {
		return nil, err
	}
	return q.editPanel(e.Panel, func(n *Panel) error { n.insert(e.At, s); return nil })
}

// RemoveSpare forgets a spare.
type RemoveSpare struct{ Strip string }

// Label implements Edit.
func (e RemoveSpare) Label() string { return say.F("Remove spare %s", e.Strip) }

func (e RemoveSpare) apply(p *Project) (*Project, error) {
	if _, ok := findStrip(p.Spares, e.Strip); !ok {
		return nil, noStrip("", e.Strip)
	}
	return p.withSpares(without(p.Spares, func(s Strip) bool { return s.ID == e.Strip })), nil
}

// insert puts s at place i of a panel that is being built.
func (n *Panel) insert(i int, s Strip) {
	if i < 0 || i > len(n.Strips) {
		i = len(n.Strips)
	}
	n.Strips = slices.Insert(n.Strips, i, s)
}

// withSpare returns spares and s, under its own id where that is free.
func withSpare(p *Project, spares []Strip, s Strip) []Strip {
	if _, taken := findStrip(spares, s.ID); taken {
		s.ID = nextStripID(p, spares)
	}
	return append(slices.Clone(spares), s)
}
