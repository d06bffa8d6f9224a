package session

import (
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
)

// bench is a panel and the spares as they were when a match was asked for,
// ready to be laid otherwise on any goroutine.
type bench struct {
	words
	project  *model.Project
	view     *view
	panel    *face.Panel
	pieces   []piece      // the panel's strips front to back, then the spares
	inPanel  int          // how many of them lie in the panel
	rest     []face.Strip // what else is cut from the boards
	cut      cutting.Allowances
	machines cutting.Machines
}

// piece is a strip of the panel or a spare.
type piece struct {
	m      model.Strip
	strip  face.Strip
	spare  bool
	number string
}

// held reports whether a piece stays as it lies.
func (p *piece) held() bool { return p.strip.Pinned || p.strip.Stage >= face.Glued }

// bench takes a panel and the spares as committed.
func (s *Session) bench(panel string) (*bench, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	m, p := v.project.Panel(panel), v.panels[panel]
	if m == nil || p == nil {
		return nil, say.Errorf("there is no panel %q", panel)
	}
	b := &bench{project: v.project, view: v, panel: p,
		cut: AllowancesOf(v.project.Allowances), machines: machinesOf(v.project)}
	b.words = words{sys: v.project.Units, role: m.Role, wanted: p.Wanted, panel: p, number: numbersOf(v.project, panel), solid: solidNames(v.project)}
	for i, st := range m.Strips {
		b.pieces = append(b.pieces, piece{st, p.Strips[i], false, b.number(st.ID)})
	}
	b.inPanel = len(b.pieces)
	for i, st := range v.project.Spares {
		b.pieces = append(b.pieces, piece{st, v.spares[i], true, model.StripNumber(v.project, "", st.ID)})
	}
	for _, other := range v.project.Panels {
		if other.ID == panel {
			continue
		}
		for _, st := range v.panels[other.ID].Strips {
			st.ID = other.ID + "/" + st.ID
			b.rest = append(b.rest, st)
		}
	}
	b.rest = append(b.rest, v.cuttings...)
	return b, nil
}

// beside is what else is cut from the boards than piece i.
func (b *bench) beside(i int) []face.Strip {
	out := make([]face.Strip, 0, len(b.rest)+len(b.pieces))
	out = append(out, b.rest...)
	for k := range b.pieces {
		if k != i {
			st := b.pieces[k].strip
			st.ID = "" // two may have one id, in the panel and among the spares
			out = append(out, st)
		}
	}
	return out
}

// faced makes the value the readings see of a strip of the project.
func (b *bench) faced(m *model.Strip) face.Strip {
	st := stripOf(m, b.view.boardFor, planedOf)
	st.Row = b.view.rows.of(m)
	return st
}

// lying is one of two strips as it is to lie.
type lying struct {
	m     model.Strip
	at    int  // which piece it is, -1 one still to be cut
	recut bool // the piece is sawn from another place than planned
	by    float64
}

// as is the piece as it would lie.
func (p *piece) as(l match.Lie) lying {
	m := p.m
	m.Up, m.Turned = l.Up, l.Turned
	return lying{m: m}
}

// slide moves where it is sawn, away from the marked end.
func (l *lying) slide(by float64) {
	l.by = by
	slid(&l.m, by)
}

// round is the strip after the panel is turned half round.
func (l lying) round() lying {
	l.m.Turned = !l.m.Turned
	return l
}

// pair is two strips by themselves, as long as the panel.
func (b *bench) pair(front, rear *lying) *face.Panel {
	p := *b.panel
	p.Shape, p.Hidden = nil, nil
	p.Strips = []face.Strip{b.faced(&front.m), b.faced(&rear.m)}
	p.Width = front.m.W + rear.m.W
	return &p
}
