package model

import (
	"slices"
	"strconv"
)

// Strips of one Row were laid side by side on a board to be cut in one go, so
// that the picture runs on through them: between two of them is the saw cut and
// nothing else.

// FreeRow returns a name that no row of the project has.
func FreeRow(p *Project) string {
	taken := map[string]bool{}
	eachRow(p, func(s *Strip) { taken[s.Row] = true })
	for n := 1; ; n++ {
		if name := strconv.Itoa(n); !taken[name] {
			return name
		}
	}
}

// eachRow visits every strip of a row, those of kept arrangements too.
func eachRow(p *Project, visit func(*Strip)) {
	each := func(list []Strip) {
		for i := range list {
			if list[i].Row != "" {
				visit(&list[i])
			}
		}
	}
	for _, n := range p.Panels {
		each(n.Strips)
	}
	each(p.Spares)
	for i := range p.Kept {
		each(p.Kept[i].Strips)
	}
}

// laidAt is where a strip of a row was laid.
type laidAt struct {
	row, board  string
	x, y, angle float64
}

func (s *Strip) laidAt() laidAt { return laidAt{s.Row, s.Board, s.X, s.Y, s.Angle} }

// settleRows takes out of its row every strip that an edit moved on its board,
// to another or off it. A row that the edit itself laid stays.
func settleRows(p, q *Project, e Edit) *Project {
	if !rowed(p) {
		return offBoard(q, nil)
	}
	renamed, _ := e.(RenameBoard)
	was, known := map[laidAt]bool{}, map[string]bool{}
	eachRow(p, func(s *Strip) {
		at := s.laidAt()
		if at.board == renamed.From && renamed.From != "" {
			at.board = renamed.To
		}
		was[at], known[s.Row] = true, true
	})
	return offBoard(q, func(s *Strip) bool { return known[s.Row] && !was[s.laidAt()] })
}

func rowed(p *Project) bool {
	found := false
	eachRow(p, func(*Strip) { found = true })
	return found
}

// offBoard takes strips that lie on no board, and those chosen, out of their
// rows.
func offBoard(p *Project, chosen func(*Strip) bool) *Project {
	out := p
	change := func(list []Strip) ([]Strip, bool) {
		changed := false
		for i := range list {
			s := &list[i]
			if s.Row == "" || s.Board != "" && (chosen == nil || !chosen(s)) {
				continue
			}
			if !changed {
				list, changed = slices.Clone(list), true
			}
			list[i].Row = ""
		}
		return list, changed
	}
	own := func() *Project {
		if out == p {
			c := *p
			c.Panels = slices.Clone(p.Panels)
			out = &c
		}
		return out
	}
	for i, n := range p.Panels {
		if list, ok := change(n.Strips); ok {
			c := *n
			c.Strips = list
			own().Panels[i] = &c
		}
	}
	if list, ok := change(p.Spares); ok {
		own().Spares = list
	}
	return out
}
