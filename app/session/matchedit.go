package session

import (
	"slices"
	"strconv"

	"heartside/model"
	"heartside/model/say"
)

// laying makes the edit of a plan and says what it does.
func (b *bench) laying(p *plan) Laying {
	out := Laying{b: b, way: p.way, Anew: p.way[0].recut || p.way[1].recut}
	var strips []model.Strip
	used := map[int]bool{}
	taken := map[string]bool{}
	for _, s := range p.seats {
		if s.piece >= 0 && !b.pieces[s.piece].spare {
			taken[b.pieces[s.piece].m.ID] = true
		}
	}
	for _, s := range p.seats {
		m := model.Strip{}
		switch {
		case s.lay != nil:
			m = s.lay.m
		default:
			m = b.pieces[s.piece].m
		}
		if s.piece >= 0 {
			used[s.piece] = true
		}
		if s.piece < 0 || b.pieces[s.piece].spare {
			if m.ID == "" || taken[m.ID] {
				m.ID = b.freeID(taken)
			}
			taken[m.ID] = true
		}
		strips = append(strips, m)
	}
	e := model.SetStrips{Panel: b.panel.ID, Strips: strips, Verb: say.F("Lay %s and %s side by side", b.called(&p.way[0]), b.called(&p.way[1]))}
	spares, changed := []model.Strip{}, false
	for i := range b.pieces {
		q := &b.pieces[i]
		switch {
		case q.spare && !used[i]:
			spares = append(spares, q.m)
		case q.spare:
			changed = true
		}
	}
	for i := range b.pieces {
		if q := &b.pieces[i]; !q.spare && !used[i] && q.m.Board != "" {
			spares, changed = append(spares, b.asSpare(q.m, spares)), true
		}
	}
	if changed {
		e.Spares = spares
	}
	panel := *b.panel
	panel.Strips = nil
	for i := range strips {
		panel.Strips = append(panel.Strips, b.faced(&strips[i]))
	}
	for i := range spares {
		out.spares = append(out.spares, b.faced(&spares[i]))
	}
	out.Panel, out.Edit = &panel, e
	out.For, out.Change = b.roomWords(p), b.planWords(p)
	return out
}

// asSpare gives a strip that leaves the panel an id no spare has.
func (b *bench) asSpare(m model.Strip, spares []model.Strip) model.Strip {
	if slices.ContainsFunc(spares, func(s model.Strip) bool { return s.ID == m.ID }) {
		taken := map[string]bool{}
		for _, s := range spares {
			taken[s.ID] = true
		}
		m.ID = b.freeID(taken)
	}
	return m
}

// freeID is an id that no strip of the project has.
func (b *bench) freeID(taken map[string]bool) string {
	for n := 1; ; n++ {
		id := strconv.Itoa(n)
		if !taken[id] && !b.known(id) {
			return id
		}
	}
}

func (b *bench) known(id string) bool {
	has := func(list []model.Strip) bool {
		return slices.ContainsFunc(list, func(s model.Strip) bool { return s.ID == id })
	}
	for _, m := range b.project.Panels {
		if has(m.Strips) {
			return true
		}
	}
	for _, k := range b.project.Kept {
		if has(k.Strips) {
			return true
		}
	}
	return has(b.project.Spares)
}
