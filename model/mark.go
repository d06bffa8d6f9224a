package model

import "slices"

// Marked returns p with the number of every strip that lies on a board
// settled, so that what is chalked stays right however others come and go.
// Where all are settled it is p itself.
func Marked(p *Project) *Project { return settle(p, func(string, *Strip) bool { return true }) }

// settleNew settles the numbers of strips that an edit brought to another
// board, and drops those of strips that lie on none any more.
func settleNew(p, q *Project) *Project {
	// Strips are known by id and board: they may have gone to the spares or
	// come from there.
	type piece struct{ id, board string }
	was := map[piece]bool{}
	for _, n := range p.Panels {
		if q.Panel(n.ID) == n {
			continue
		}
		for _, s := range n.Strips {
			was[piece{s.ID, s.Board}] = true
		}
	}
	for _, s := range p.Spares {
		was[piece{s.ID, s.Board}] = true
	}
	fresh := func(panel string, s *Strip) bool {
		if n := p.Panel(panel); n != nil && n == q.Panel(panel) {
			return false
		}
		return !was[piece{s.ID, s.Board}]
	}
	return settle(q, fresh)
}

// settle gives every strip that lies on a board and is chosen its number, a
// new one where fresh strips bring the number of another board with them.
func settle(p *Project, chosen func(panel string, s *Strip) bool) *Project {
	var out *Project
	each := func(panel string, list []Strip, put func([]Strip)) {
		var copied []Strip
		for i := range list {
			s := list[i]
			switch {
			case s.Board == "":
				s.Mark = ""
			case chosen(panel, &s) && (s.Mark == "" || !ownNumber(s.Board, s.Mark)):
				s.Mark = ""
			default:
				continue
			}
			if s.Mark == list[i].Mark && s.Board == "" {
				continue
			}
			if copied == nil {
				copied = slices.Clone(list)
			}
			copied[i] = s
		}
		if copied != nil {
			put(copied)
		}
	}
	own := func() *Project {
		if out == nil {
			q := *p
			q.Panels = slices.Clone(p.Panels)
			out = &q
		}
		return out
	}
	for i, n := range p.Panels {
		each(n.ID, n.Strips, func(list []Strip) {
			c := *n
			c.Strips = list
			own().Panels[i] = &c
		})
	}
	each("", p.Spares, func(list []Strip) { own().Spares = list })
	if out == nil {
		return p
	}
	return numberAll(p, out)
}

// numberAll fills the numbers that settle left open.
func numberAll(p, out *Project) *Project {
	numbers := map[string][]numbered{}
	number := func(panel string, list []Strip) {
		for i := range list {
			s := &list[i]
			if s.Board == "" || s.Mark != "" {
				continue
			}
			k, ok := numbers[s.Board]
			if !ok {
				k = numbersOf(out, s.Board)
				numbers[s.Board] = k
			}
			for _, n := range k {
				if n.panel == panel && n.id == s.ID {
					s.Mark = n.number
				}
			}
		}
	}
	// All numbers are worked out before any is written.
	for _, b := range out.Boards {
		numbers[b.ID] = numbersOf(out, b.ID)
	}
	for i, n := range out.Panels {
		if n != p.Panels[i] {
			number(n.ID, n.Strips)
		}
	}
	if len(out.Spares) > 0 && (len(p.Spares) == 0 || &out.Spares[0] != &p.Spares[0]) {
		number("", out.Spares)
	}
	return out
}
