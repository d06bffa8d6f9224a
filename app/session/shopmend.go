package session

import (
	"math"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/stock"
	"heartside/model/say"
)

// overCut returns by how many mm the blank of a strip that is still to be sawn
// runs over an end of its board that was cut off, and which end, 0 or 1.
func overCut(st *face.Strip, a cutting.Allowances) (mm float64, end int) {
	if st.Board == nil || st.Stage >= face.Sawn || st.Board.Cut == [2]float64{} {
		return 0, 0
	}
	box := cutting.Blank(st, a).Bounds()
	from, to := st.Board.Left()
	for i, over := range [2]float64{from - box.Min.X, box.Max.X - to} {
		if st.Board.Cut[i] > 0 && over > mm && over > 0.05 {
			mm, end = over, i
		}
	}
	return mm, end
}

// lostEnd is the wood that a strip over a cut end was to come from: to the
// search for a replacement a board by itself that is lost, so that what is left
// of the real one is free.
const lostEnd = "cut off "

// ends takes the strips over ends that were cut off out of their boards, or
// slides them along where there is room, and reports whether there were any.
func (m *Mend) ends(v *view) bool {
	a := m.supply.Allowances
	gone := map[string]*face.Board{}
	lose := func(st *face.Strip) {
		b := gone[st.Board.ID]
		if b == nil {
			c := *st.Board
			c.ID, b = lostEnd+c.ID, &c
			gone[st.Board.ID], m.ended[b] = b, st.Board
			m.supply.Boards = append(m.supply.Boards, stock.Stock{Board: b})
			m.loss.Boards = append(m.loss.Boards, b.ID)
		}
		st.Board = b
	}
	any := false
	for i := range m.now {
		m.now[i].Strips = slices.Clone(m.now[i].Strips)
		for k := range m.now[i].Strips {
			st := &m.now[i].Strips[k]
			mm, end := overCut(st, a)
			if mm == 0 || v.lost(st) {
				continue
			}
			any = true
			if to, ok := m.along(i, k, mm, end); ok {
				m.slid[at{i, k}] = math.Abs(to.X - st.X)
				*st = to
				continue
			}
			lose(st)
		}
	}
	m.spares = slices.Clone(m.spares)
	for i := range m.spares {
		if mm, _ := overCut(&m.spares[i], a); mm > 0 {
			lose(&m.spares[i])
		}
	}
	return any
}

// putBack lays strips for which nothing was found on their own boards again: the
// maker may still narrow or shorten them.
func (m *Mend) putBack(got *stock.Changed) {
	for i := range got.Made {
		for k := range got.Made[i].Strips {
			if b := m.ended[got.Made[i].Strips[k].Board]; b != nil {
				got.Made[i].Strips[k].Board = b
			}
		}
	}
}

// at is strip k of demand i.
type at struct{ i, k int }

// along returns a strip slid along its board, away from the end that was cut
// off, where it then meets neither another piece nor a flaw that it did not meet
// before.
func (m *Mend) along(i, k int, mm float64, end int) (face.Strip, bool) {
	st := m.now[i].Strips[k]
	if st.Row != nil {
		return st, false // its neighbours would have to go with it
	}
	was := flawsUnder(&st, m.supply.Allowances.FlawMargin)
	mm = math.Ceil(mm*10) / 10 // the file and the tape know tenths
	if end == 1 {
		mm = -mm
	}
	to := st
	to.X += mm
	if flawsUnder(&to, m.supply.Allowances.FlawMargin) > was {
		return st, false
	}
	list := []face.Strip{to}
	list[0].ID = ""
	add := func(s face.Strip) {
		s.ID = "x"
		list = append(list, s)
	}
	for j := range m.now {
		for n, s := range m.now[j].Strips {
			if s.Board != nil && (j != i || n != k) {
				add(s)
			}
		}
	}
	for _, s := range m.spares {
		add(s)
	}
	for _, f := range cutting.Check(nil, list, m.supply.Allowances, cutting.Machines{}) {
		if slices.Contains(f.Strips, "") {
			return st, false
		}
	}
	return to, true
}

// flawsUnder counts the flaws that a strip comes near on either face.
func flawsUnder(st *face.Strip, margin float64) int {
	n := 0
	for f := range st.Board.Faces {
		to := st.ToBoard()
		if f == 1 {
			if st.Board.Faces[f].Guessed {
				continue
			}
			to = to.Then(st.Board.Other())
		}
		box := to.ApplyTo(geom.R(-margin, -margin, st.L+margin, st.W+margin).Polygon()).Bounds()
		for _, z := range st.Board.Faces[f].Zones {
			if z.Kind == face.Flaw && !z.Polygon.Bounds().Intersect(box).Empty() {
				n++
			}
		}
	}
	return n
}

// slides tells of the strips of a demand that are only slid along.
func (m *Mend) slides(i int) []string {
	var out []string
	w := words{sys: m.project.Units}
	for k := range m.now[i].Strips {
		st := &m.now[i].Strips[k]
		by, ok := m.slid[at{i, k}]
		if !ok {
			continue
		}
		out = append(out, say.F("%s: slide it %s along its board, to %s from where the marked end was", m.on(i, st), w.len(by), w.len(st.X)))
	}
	return out
}
