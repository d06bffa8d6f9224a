package session

import (
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// boardFor returns a board by its id as it is for a strip: for one that was sawn out
// of it the whole board, as it was then, else what is left of it.
type boardFor func(id string, sawn bool) *face.Board

// boardFor of a view: what was sawn before the end of its board was cut off is none
// of what is gone.
func (v *view) boardFor(id string, sawn bool) *face.Board {
	if b := v.whole[id]; sawn && b != nil {
		return b
	}
	return v.boards[id]
}

// cutOff takes the wood that was cut off the ends out of both faces of a board
// that is being made.
func cutOff(b *face.Board, cut [2]float64) {
	b.Cut = cut
	for i := range b.Faces {
		b.Faces[i].Outline = within(b, b.Faces[i].Outline)
	}
}

// within is what the ends cut off leave of the outline of a face of a board.
func within(b *face.Board, outline geom.Polygon) geom.Polygon {
	if b.Cut == [2]float64{} {
		return outline
	}
	from, to := b.Left()
	if len(outline) < 3 {
		return geom.R(from, 0, to, b.Width).Polygon()
	}
	box := outline.Bounds()
	return outline.ClipRect(geom.R(from, box.Min.Y, to, box.Max.Y))
}

// outsideOf names the end or edge of the board that a strip runs over.
func (w words) outsideOf(x *face.Warning) string {
	text := outsideOf(x.Why)
	end := -1
	switch x.Why {
	case cutting.OverMarkedEnd:
		end = 0
	case cutting.OverOtherEnd:
		end = 1
	}
	if end < 0 || w.panel == nil {
		return text
	}
	for i := range w.panel.Strips {
		s := &w.panel.Strips[i]
		if s.Board != nil && slices.Contains(x.Strips, s.ID) && s.Board.Cut[end] > 0 {
			return say.F("%s as it is now, with %s cut off", text, w.len(s.Board.Cut[end]))
		}
	}
	return text
}

// Misfit is a piece that would run over the end of its board.
type Misfit struct {
	Panel string // id, "" for a spare and for a solid part
	Strip string // id
	By    float64
	Text  string
}

// CutMisfits tells what would no longer fit with so much cut off an end of a
// board in all, by panels in their order, then spares and solid parts: of what is
// still to be sawn, what runs farther over that end than it does now.
func (s *Session) CutMisfits(board string, end int, off float64) []Misfit {
	p := s.Committed()
	q, err := model.Apply(p, model.CutEnd{Board: board, End: end, Off: off})
	if err != nil {
		return nil
	}
	v, a := s.viewer.of(p, s.pics.fields), AllowancesOf(p.Allowances)
	b := *v.boards[board]
	b.Cut = q.Board(board).Cut
	sys := words{sys: p.Units}
	var out []Misfit
	tell := func(panel, name string, list []face.Strip) {
		for i := range list {
			st := list[i]
			if st.Board == nil || st.Board.ID != board || st.Stage >= face.Sawn {
				continue
			}
			was, _ := overCut(&st, a)
			st.Board = &b
			mm, at := overCut(&st, a)
			if at == end && mm > was+0.05 {
				out = append(out, Misfit{panel, st.ID, mm, say.F("%s%s%s: its blank reaches %s over the new end", say.Upper(name), s.Number(panel, st.ID), panelWords(panel), sys.len(mm))})
			}
		}
	}
	for _, n := range p.Panels {
		tell(n.ID, say.T("strip "), v.panels[n.ID].Strips)
	}
	tell("", say.T("spare "), v.spares)
	tell("", say.T("part "), v.cuttings)
	return out
}

func panelWords(id string) string {
	if id == "" {
		return ""
	}
	return say.F(" of panel %s", id)
}

// OverCut reports whether something that is still to be sawn lies over an end
// that was cut off.
func (s *Session) OverCut() bool {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	if len(v.whole) == 0 {
		return false
	}
	a := AllowancesOf(v.project.Allowances)
	over := func(list []face.Strip) bool {
		return slices.ContainsFunc(list, func(st face.Strip) bool { mm, _ := overCut(&st, a); return mm > 0 })
	}
	for _, fp := range v.panels {
		if over(fp.Strips) {
			return true
		}
	}
	return over(v.cuttings)
}
