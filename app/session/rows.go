package session

import (
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/model"
)

// rowPlace is a strip of a row where it was laid.
type rowPlace struct {
	row, board        string
	x, y, angle, l, w float64
}

func rowPlaceOf(s *model.Strip) rowPlace {
	return rowPlace{s.Row, s.Board, s.X, s.Y, s.Angle, s.L, s.W}
}

// rows are the strips of a project that are cut in rows.
type rows map[rowPlace]*face.Row

// of is what the readings see of a strip's row, nil where it lies in none.
func (r rows) of(s *model.Strip) *face.Row {
	if s.Row == "" || s.Board == "" {
		return nil
	}
	return r[rowPlaceOf(s)]
}

// rowsOf finds the neighbours in the rows of a project. Rows that did not
// change keep their pointers.
func (v *viewer) rowsOf(p *model.Project, board boardFor) rows {
	type key struct{ row, board string }
	var order []key
	lists := map[key][]face.Strip{}
	add := func(list []model.Strip) {
		for i := range list {
			s := &list[i]
			if s.Row == "" || s.Board == "" {
				continue
			}
			k := key{s.Row, s.Board}
			if lists[k] == nil {
				order = append(order, k)
			}
			lists[k] = append(lists[k], stripOf(s, board, v.planedFace))
		}
	}
	for _, n := range p.Panels {
		add(n.Strips)
	}
	add(p.Spares)
	out := rows{}
	for _, k := range order {
		for i, r := range inRow(k.row, lists[k]) {
			s := &lists[k][i]
			out[rowPlace{k.row, k.board, s.X, s.Y, s.Angle, s.L, s.W}] = v.kept(r)
		}
	}
	return out
}

// inRow tells each of the strips that lie in a row its neighbours.
func inRow(name string, list []face.Strip) []face.Row {
	out := make([]face.Row, len(list))
	for i := range list {
		s := &list[i]
		others := append(append([]face.Strip{}, list[:i]...), list[i+1:]...)
		out[i] = face.Row{Name: name, X: s.X, Y: s.Y, Angle: s.Angle, L: s.L, W: s.W, Gap: cutting.Gaps(s, others)}
	}
	return out
}

// kept is the value of a row that a view made before has, or a new one.
func (v *viewer) kept(r face.Row) *face.Row {
	for _, w := range v.last {
		if w == nil {
			continue
		}
		for _, old := range w.rows {
			if *old == r {
				return old
			}
		}
	}
	return &r
}
