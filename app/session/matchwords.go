package session

import (
	"math"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// edge names a long edge of a piece: by where it lies now, that of a spare by
// its board.
func (b *bench) edge(p *piece, e match.Edge) string {
	if p.spare {
		side := say.T("the other side")
		if e == match.Near {
			side = say.T("the marked side")
		}
		return say.F("spare %s's edge at %s", p.number, side)
	}
	sides := b.role.Sides()
	name := sides[1].Name
	at := match.Near // the front edge as it lies
	if p.strip.Turned != (p.strip.UpFace() == 2) {
		at = match.Far
	}
	if e == at {
		name = sides[0].Name
	}
	return say.F("%s's %s", p.number, name)
}

// band says what two edges make together.
func (b *bench) band(s *match.Seam, front, rear *lying) string {
	text := say.F("A %s band of %s. Its halves differ by %s on the mean, %s at most, and agree along %s of the joint.",
		b.tone(), b.len(math.Round(s.Width)), b.diff(s.Mean), b.diff(s.Greatest), Percent(s.Within))
	if s.Unseen > 0 {
		text += say.F(" Not seen yet along %s of it.", Percent(s.Unseen))
	}
	return text + b.guessed(front, rear)
}

// guessed says which of two strips shows a face nobody has looked at.
func (b *bench) guessed(list ...*lying) string {
	text := ""
	for _, l := range list {
		st := b.faced(&l.m)
		if st.Board != nil && st.Board.Faces[st.UpFace()-1].Guessed {
			text += say.F(" The %s of board %s was not looked at.", say.Of(st.Board.SideName(st.UpFace())), st.Board.ID)
		}
	}
	return text
}

// diff prints a difference that may be none.
func (b *bench) diff(mm float64) string {
	if mm < 0.05 {
		return b.len(0)
	}
	return b.some(mm)
}

// up is a length no less than mm that is printed exactly.
func (b *bench) up(mm float64) float64 {
	step := 0.1
	if b.sys == unit.Inch {
		step = unit.InchMM / 16
	}
	return math.Ceil(mm/step-1e-6) * step
}

// called names one of the two strips.
func (b *bench) called(l *lying) string {
	if l.at < 0 {
		return say.F("a new strip of board %s", l.m.Board)
	}
	return b.pieces[l.at].number
}

// numberIn is what is chalked on a strip of the panel as it would lie.
func (b *bench) numberIn(p *face.Panel, id string) string {
	for i := range b.pieces {
		if q := &b.pieces[i]; q.m.ID == id && q.m.Board != "" {
			return q.number
		}
	}
	for i := range p.Strips {
		if st := &p.Strips[i]; st.ID == id && st.Board != nil {
			return say.F("new from board %s", st.Board.ID)
		}
	}
	if panel, own, ok := strings.Cut(id, "/"); ok {
		return say.F("%s of %s", model.StripNumber(b.project, panel, own), panel)
	}
	return id
}

// roomWords says what makes room for what comes in.
func (b *bench) roomWords(p *plan) string {
	come := 0
	for i := range p.way {
		if l := &p.way[i]; l.at < 0 || b.pieces[l.at].spare {
			come++
		} else if l.recut {
			return say.F("strip %s, sawn there instead", b.pieces[l.at].number)
		}
	}
	switch {
	case come == 0:
		return ""
	case len(p.out) == 0 && come == 2:
		return say.T("two strips more")
	case len(p.out) == 0:
		return say.T("one strip more")
	}
	var names []string
	for _, i := range p.out {
		if q := &b.pieces[i]; q.m.Board == "" {
			names = append(names, say.F("the empty place %d", i+1))
		} else {
			names = append(names, say.F("strip %s", q.number))
		}
	}
	return say.F("in the place of %s", strings.Join(names, say.T(" and ")))
}

// planWords says what is done to lay the panel so.
func (b *bench) planWords(p *plan) string {
	var in, moved, rolled, turned, slides, out []string
	note := func(list *[]string, name string) { *list = append(*list, name) }
	for i, s := range p.seats {
		if s.piece < 0 {
			note(&slides, say.F("cut a strip from board %s, %s", s.lay.m.Board, b.where(s.lay)))
			continue
		}
		q := &b.pieces[s.piece]
		if q.spare {
			note(&in, q.number)
		} else if i != s.piece && q.m.Board != "" && !p.wider {
			note(&moved, q.number)
		}
		l := s.lay
		if l == nil {
			continue
		}
		if l.m.Up != q.strip.UpFace() && !l.recut {
			note(&rolled, q.number)
		}
		if l.m.Turned != q.m.Turned && !l.recut {
			note(&turned, q.number)
		}
		switch {
		case l.recut:
			note(&slides, say.F("saw %s from board %s, %s", q.number, l.m.Board, b.where(l)))
		case l.by > 0:
			note(&slides, say.F("slide %s %s away from the marked end of its board", q.number, b.some(l.by)))
		case l.by < 0:
			note(&slides, say.F("slide %s %s towards the marked end of its board", q.number, b.some(-l.by)))
		}
	}
	for _, i := range p.out {
		if q := &b.pieces[i]; q.m.Board != "" {
			note(&out, q.number)
		}
	}
	var all []string
	add := func(list []string, before, after string) {
		if len(list) > 0 {
			slices.Sort(list)
			all = append(all, before+say.List(list)+after)
		}
	}
	add(in, say.T("take in spare "), "")
	add(moved, say.T("move "), "")
	add(rolled, say.T("roll over "), "")
	add(turned, say.T("turn "), say.T(" end for end"))
	all = append(all, slides...)
	add(out, say.T("put "), say.T(" among the spares"))
	return strings.Join(all, "; ")
}

// where says where on its board a strip is sawn.
func (b *bench) where(l *lying) string {
	text := say.F("%s from the marked end and %s from the marked edge", b.len(l.m.X), b.len(l.m.Y))
	if l.m.Angle != 0 {
		text += say.F(", at %.1f°", l.m.Angle)
	}
	return text
}
