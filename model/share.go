package model

import (
	"reflect"
	"slices"

	"heartside/model/say"
)

// with returns a copy of p after f, or p itself where f changed no field of
// it that can be told cheaply.
func (p *Project) with(f func(*Project)) *Project {
	q := *p
	f(&q)
	if p.same(&q) {
		return p
	}
	return &q
}

// same reports whether two projects hold the same boards and panels by
// pointer and the same values beside them.
func (p *Project) same(q *Project) bool {
	return p.Name == q.Name && p.Units == q.Units && p.Currency == q.Currency && p.Climate == q.Climate && p.Limits == q.Limits &&
		p.Allowances == q.Allowances && p.Machines == q.Machines && p.Behaviour == q.Behaviour &&
		slices.Equal(p.Boards, q.Boards) && slices.Equal(p.Panels, q.Panels) && slices.Equal(p.Joined, q.Joined) &&
		sameList(p.Spares, q.Spares) && sameList(p.Kept, q.Kept) && sameList(p.Colours, q.Colours) &&
		sameList(p.Sets, q.Sets) && sameList(p.Parts, q.Parts) && sameList(p.Record, q.Record) && p.Yard == q.Yard && p.Clear == q.Clear
}

// SameWork reports whether two projects differ at most in what was recorded at a
// yard and said of clear stock: nothing that is made of the boards.
func (p *Project) SameWork(q *Project) bool {
	c := *q
	c.Yard, c.Clear = p.Yard, p.Clear
	return p.same(&c)
}

func sameList[T any](a, b []T) bool {
	return len(a) == 0 && len(b) == 0 || reflect.DeepEqual(a, b)
}

// editBoard returns p with a changed copy of one board.
func (p *Project) editBoard(id string, f func(*Board) error) (*Project, error) {
	i := slices.IndexFunc(p.Boards, func(b *Board) bool { return b.ID == id })
	if i < 0 {
		return nil, noBoard(id)
	}
	b := *p.Boards[i]
	if err := f(&b); err != nil {
		return nil, err
	}
	if reflect.DeepEqual(b, *p.Boards[i]) {
		return p, nil
	}
	q := *p
	q.Boards = slices.Clone(p.Boards)
	q.Boards[i] = &b
	return &q, nil
}

// editFace returns p with a changed copy of face 1 or 2 of a board.
func (p *Project) editFace(board string, face int, f func(*Face)) (*Project, error) {
	if face != 1 && face != 2 {
		return nil, RuleError{Rule: RuleFace, Board: board, Detail: say.T("a board has a face 1 and a face 2")}
	}
	return p.editBoard(board, func(b *Board) error { f(&b.Faces[face-1]); return nil })
}

// editPanel returns p with a changed copy of one panel. f may change the
// strips it finds in place: they are a copy.
func (p *Project) editPanel(id string, f func(*Panel) error) (*Project, error) {
	i := slices.IndexFunc(p.Panels, func(n *Panel) bool { return n.ID == id })
	if i < 0 {
		return nil, noPanel(id)
	}
	n := *p.Panels[i]
	n.Strips = slices.Clone(n.Strips)
	if err := f(&n); err != nil {
		return nil, err
	}
	if len(n.Strips) == 0 && len(p.Panels[i].Strips) == 0 {
		n.Strips = p.Panels[i].Strips
	}
	if reflect.DeepEqual(n, *p.Panels[i]) {
		return p, nil
	}
	q := *p
	q.Panels = slices.Clone(p.Panels)
	q.Panels[i] = &n
	return &q, nil
}

// editStrip returns p with a changed copy of one strip of a panel.
func (p *Project) editStrip(panel, strip string, f func(*Strip) error) (*Project, error) {
	return p.editPanel(panel, func(n *Panel) error {
		i := n.StripIndex(strip)
		if i < 0 {
			return noStrip(panel, strip)
		}
		return f(&n.Strips[i])
	})
}

// onBoard returns p with every strip of a board changed, in panels, spares
// and kept arrangements. Panels without one keep their pointer.
func (p *Project) onBoard(id string, f func(*Strip)) *Project {
	change := func(list []Strip) ([]Strip, bool) {
		if !slices.ContainsFunc(list, func(s Strip) bool { return s.Board == id }) {
			return list, false
		}
		list = slices.Clone(list)
		for i := range list {
			if list[i].Board == id {
				f(&list[i])
			}
		}
		return list, true
	}
	return p.with(func(q *Project) {
		q.Panels = slices.Clone(q.Panels)
		for i, n := range q.Panels {
			if strips, ok := change(n.Strips); ok {
				m := *n
				m.Strips = strips
				q.Panels[i] = &m
			}
		}
		q.Spares, _ = change(q.Spares)
		q.Kept = slices.Clone(q.Kept)
		for i := range q.Kept {
			q.Kept[i].Strips, _ = change(q.Kept[i].Strips)
		}
	})
}

// withSpares returns p with other spares.
func (p *Project) withSpares(list []Strip) *Project {
	return p.with(func(q *Project) { q.Spares = list })
}

// without returns the elements that drop does not name, nil where none is
// left.
func without[T any](list []T, drop func(T) bool) []T {
	var out []T
	for _, v := range list {
		if !drop(v) {
			out = append(out, v)
		}
	}
	return out
}
