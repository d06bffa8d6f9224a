package session

import (
	"context"
	"fmt"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/mend"
	"heartside/model"
)

// Mend replaces the strips that lie on spoiled boards; it is run on a goroutine
// of its own.
type Mend struct {
	project *model.Project
	words   map[string]words // by panel
	req     mend.Request
}

// Mended is what is to be done about spoiled boards.
type Mended struct {
	Changes []string // in words, one a strip
	Missing []string // strips that nothing is left for, and what they need
	Edit    model.Edit
}

// Mend prepares to replace what lies on spoiled boards.
func (s *Session) Mend() (*Mend, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	m := &Mend{project: v.project, words: map[string]words{}}
	spoiled := map[*face.Board]bool{}
	for _, b := range v.project.Boards {
		if b.Spoiled {
			spoiled[v.boards[b.ID]] = true
		}
		m.req.Boards = append(m.req.Boards, v.boards[b.ID])
	}
	if len(spoiled) == 0 {
		return nil, fmt.Errorf("no board is spoiled: take one in hand and say so first")
	}
	lost := false
	for _, n := range v.project.Panels {
		p := v.panels[n.ID]
		m.words[n.ID] = s.words(n.ID)
		m.req.Panels = append(m.req.Panels, p)
		m.req.Looks = append(m.req.Looks, looks.Name(n.Look))
		for i := range p.Strips {
			lost = lost || spoiled[p.Strips[i].Board] && p.Strips[i].Stage == face.Planned
		}
	}
	if !lost {
		return nil, fmt.Errorf("no strip of a panel is still to be sawn from a spoiled board: nothing is lost")
	}
	m.req.Taken = v.cuttings
	m.req.Spares, m.req.Allowances, m.req.Rules = v.spares, AllowancesOf(v.project.Allowances), looks.DefaultRules
	m.req.Spoiled = func(b *face.Board) bool { return spoiled[b] }
	return m, nil
}

// Run finds the least change.
func (m *Mend) Run(ctx context.Context) (Mended, error) {
	r := mend.Replace(ctx, &m.req)
	if ctx.Err() != nil {
		return Mended{}, ctx.Err()
	}
	var out Mended
	known := map[string]model.Strip{}
	for _, st := range m.project.Spares {
		known[st.ID] = st
	}
	plan := model.SetPlan{Verb: "Replace what is lost"}
	touched := map[int]bool{}
	for _, c := range r.Changes {
		touched[c.Panel] = true
		out.Changes = append(out.Changes, m.change(&c))
	}
	for i, n := range m.project.Panels {
		if !touched[i] {
			continue
		}
		for _, st := range n.Strips {
			known[st.ID] = st
		}
		plan.Panels = append(plan.Panels, model.PlanPanel{Panel: n.ID, Strips: laid(known, r.Panels[i])})
	}
	plan.Spares = append([]model.Strip{}, laid(known, r.Spares)...)
	for _, x := range r.Missing {
		out.Missing = append(out.Missing, m.missing(&x))
	}
	if len(r.Changes) > 0 {
		out.Edit = plan
	}
	return out, nil
}

func (m *Mend) change(c *mend.Change) string {
	id := m.req.Panels[c.Panel].ID
	w := m.words[id]
	what := fmt.Sprintf("%s, %s on board %s: ", id, w.strips([]string{c.Was.ID}), c.Was.Board.ID)
	how := ""
	if c.Spare {
		how = fmt.Sprintf("take spare %s of board %s", c.Now.ID, c.Now.Board.ID)
	} else {
		how = fmt.Sprintf("saw it from board %s, %s from the marked end and %s from the marked edge", c.Now.Board.ID, w.len(c.Now.X), w.len(c.Now.Y))
	}
	var lie []string
	if c.Now.UpFace() == 2 {
		lie = append(lie, "face 2 up")
	}
	if c.Now.Turned {
		lie = append(lie, "turned end for end")
	}
	if len(lie) > 0 {
		how += ", " + strings.Join(lie, " and ")
	}
	return what + how
}

func (m *Mend) missing(x *mend.Missing) string {
	id := m.req.Panels[x.Panel].ID
	w := m.words[id]
	text := fmt.Sprintf("%s, %s: needs a blank of %s by %s; ", id, w.strips([]string{x.Strip.ID}), w.len(x.NeedL), w.len(x.NeedW))
	if x.Longest > 0 {
		return text + "the longest free piece so wide is " + w.len(x.Longest)
	}
	return text + "no free piece is so wide"
}
