package session

import (
	"context"
	"slices"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
)

// Mend replaces what was to come from spoiled boards, strips of panels and
// pieces of solid parts, with the least change; it is run on a goroutine of its
// own.
type Mend struct {
	project *model.Project
	owners  map[string]string
	words   map[string]words // by panel
	panels  []*face.Panel    // as in the project
	supply  stock.Supply
	now     []stock.Made // panels, then parts, as in the project
	spares  []face.Strip
	loss    stock.Loss
	slid    map[at]float64              // strips that are only slid along, by how many mm
	ended   map[*face.Board]*face.Board // boards by what stands for their lost ends
}

// Mended is what is to be done about spoiled boards.
type Mended struct {
	Changes []string // in words, one a strip
	Missing []string // what nothing is left for, and why
	Edit    model.Edit
}

// Mend prepares to replace what lies on spoiled boards and over ends that were
// cut off.
func (s *Session) Mend() (*Mend, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	p := v.project
	m := &Mend{project: p, owners: ownersOf(p), words: map[string]words{}, spares: laidOnBoards(v.spares), slid: map[at]float64{}, ended: map[*face.Board]*face.Board{}}
	for _, b := range p.Boards {
		m.supply.Boards = append(m.supply.Boards, stock.Stock{Board: v.boards[b.ID]})
		if b.Spoiled {
			m.loss.Boards = append(m.loss.Boards, b.ID)
		}
	}
	spoiled := len(m.loss.Boards) > 0
	lost := false
	note := func(d stock.Demand, list []face.Strip) {
		m.now = append(m.now, stock.Made{Demand: d, Strips: list})
		lost = lost || slices.ContainsFunc(list, func(st face.Strip) bool { return v.lost(&st) })
	}
	for _, n := range p.Panels {
		fp := v.panels[n.ID]
		m.words[n.ID] = s.words(n.ID)
		m.panels = append(m.panels, fp)
		note(demandOf(n, fp), fp.Strips)
	}
	for _, n := range p.Parts {
		note(m.partDemand(v, n), cuttingsOfPart(v, n))
	}
	m.supply.Allowances, m.supply.Machines = AllowancesOf(p.Allowances), machinesOf(p)
	switch cut := m.ends(v); {
	case lost || cut:
	case spoiled:
		return nil, say.Errorf("nothing is still to be sawn from a spoiled board, neither a strip nor a part: nothing is lost")
	default:
		return nil, say.Errorf("no board is spoiled, and nothing lies over an end that was cut off: take a board in hand and say so first")
	}
	return m, nil
}

func cuttingsOfPart(v *view, n model.Part) []face.Strip {
	var out []face.Strip
	for i := range n.Places {
		for _, c := range v.cuttings {
			if c.ID == CuttingID(n.ID, i) {
				out = append(out, c)
			}
		}
	}
	return out
}

// partDemand is what another piece of a part must be: as thick as the part, or
// as the thinnest of its boards where it is glued up of layers.
func (m *Mend) partDemand(v *view, n model.Part) stock.Demand {
	d := stock.Demand{ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness, Count: max(1, len(n.Places)),
		Wanted: wantedOf(n.Wanted), Most: [2]float64{1, 1}, BothShow: n.Kind == model.Leg}
	for _, k := range n.Places {
		b := v.boards[k.Board]
		if b != nil && b.Thickness > 0 {
			d.Thickness = min(d.Thickness, b.Thickness)
		}
		if w := m.project.Board(k.Board); w != nil && n.Wanted == model.WantDefault {
			d.Wanted = wantedOf(w.Wanted)
		}
	}
	return d
}

// Run finds the least change.
func (m *Mend) Run(ctx context.Context) (Mended, error) {
	got, err := stock.Spoiled(ctx, m.supply, m.now, m.spares, m.loss, stock.Options{Seed: 1})
	if err != nil {
		return Mended{}, err
	}
	if ctx.Err() != nil {
		return Mended{}, ctx.Err()
	}
	m.putBack(&got)
	var out Mended
	known := map[string]model.Strip{}
	for _, st := range m.project.Spares {
		known[st.ID] = st
	}
	plan := model.SetPlan{Verb: say.T("Replace what is lost")}
	for i := range got.Made {
		if x := got.Short[i]; x != nil {
			out.Missing = append(out.Missing, m.missing(i, x))
		}
		slides := m.slides(i)
		if !m.touched(i, &got) && len(slides) == 0 {
			continue
		}
		out.Changes = append(out.Changes, slides...)
		if i >= len(m.panels) {
			part := m.project.Parts[i-len(m.panels)]
			out.Changes = append(out.Changes, m.changes(i, &got)...)
			plan.Parts = append(plan.Parts, model.PlanPart{Part: part.ID, Places: m.places(part, &got, i)})
			continue
		}
		m.lie(i, &got)
		out.Changes = append(out.Changes, m.changes(i, &got)...)
		for _, st := range m.project.Panels[i].Strips {
			known[st.ID] = st
		}
		plan.Panels = append(plan.Panels, model.PlanPanel{Panel: m.panels[i].ID, Strips: laid(known, got.Made[i].Strips)})
	}
	if got.Spares != nil {
		plan.Spares = []model.Strip{}
		for _, st := range m.project.Spares {
			if !slices.Contains(got.Spares, st.ID) {
				plan.Spares = append(plan.Spares, st)
			}
		}
	}
	if len(got.Strips) > 0 || len(m.slid) > 0 {
		out.Edit = plan
	}
	return out, nil
}

// touched reports whether a panel or part gets other wood.
func (m *Mend) touched(i int, got *stock.Changed) bool {
	return slices.ContainsFunc(got.Made[i].Strips, func(st face.Strip) bool { return st.Board != nil && slices.Contains(got.Strips, st.ID) })
}

// places are the pieces of a part after the change.
func (m *Mend) places(n model.Part, got *stock.Changed, i int) []model.PartPlace {
	var out []model.PartPlace
	for k, st := range got.Made[i].Strips {
		switch {
		case st.Board == nil:
		case !slices.Contains(got.Strips, st.ID):
			c := n.Places[k]
			c.X = st.X // slid along, where it is not as before
			out = append(out, c)
		default:
			p := model.PartPlace{Board: st.Board.ID, X: st.X, Y: st.Y, L: st.L, W: st.W, Angle: st.Angle, Stage: model.Planned}
			for _, x := range m.project.Spares {
				if x.ID == st.ID {
					p.Stage = x.Stage
				}
			}
			out = append(out, p)
		}
	}
	return out
}

// lie lays the strips that are new in a panel the way round that speaks least
// against it, one after the other; the others stay as they are.
func (m *Mend) lie(i int, got *stock.Changed) {
	p := *m.panels[i]
	p.Strips = got.Made[i].Strips
	judge, reader := looks.NewJudge(&p, looks.Name(m.project.Panels[i].Look), looks.DefaultRules), face.NewReader()
	reader.SkipCoverage(true)
	for k := range p.Strips {
		st := &p.Strips[k]
		if st.Board == nil || !slices.Contains(got.Strips, st.ID) || st.Stage >= face.Glued {
			continue
		}
		best, up, turned := judge.Points(&p, reader.Read(&p)), st.Up, st.Turned
		for f := 1; f <= 2; f++ {
			for _, t := range [2]bool{false, true} {
				st.Up, st.Turned = f, t
				if v := judge.Points(&p, reader.Read(&p)); v < best-1e-9 {
					best, up, turned = v, f, t
				}
			}
		}
		st.Up, st.Turned = up, turned
	}
}

// changes tells of every strip or piece that is new or lies elsewhere, and of
// those that are given up.
func (m *Mend) changes(i int, got *stock.Changed) []string {
	was := map[string]*face.Strip{}
	for k := range m.now[i].Strips {
		was[m.now[i].Strips[k].ID] = &m.now[i].Strips[k]
	}
	var out []string
	old := slices.Clone(got.Old[i]) // strips that are no more, the first first
	for k := range got.Made[i].Strips {
		st := &got.Made[i].Strips[k]
		if st.Board == nil || !slices.Contains(got.Strips, st.ID) {
			continue
		}
		before := was[st.ID]
		if before == nil && len(old) > 0 {
			before, old = was[old[0]], old[1:]
		}
		out = append(out, m.change(i, before, st, slices.Contains(got.Spares, st.ID), before != nil && slices.Contains(got.Freed, before.ID)))
	}
	for _, id := range old {
		if x := was[id]; x != nil && x.Board != nil {
			out = append(out, say.F("%s: falls away, as wider ones make up for it", m.on(i, x)))
		}
	}
	return out
}

// on names a strip or piece with the board it was to come from.
func (m *Mend) on(i int, st *face.Strip) string {
	if i >= len(m.panels) {
		name, _ := cuttingName(m.project, st.ID)
		return say.F("%s on board %s", name, strings.TrimPrefix(st.Board.ID, lostEnd))
	}
	id := m.panels[i].ID
	return say.F("%s, %s on board %s", id, m.words[id].strips([]string{st.ID}), strings.TrimPrefix(st.Board.ID, lostEnd))
}

func (m *Mend) change(i int, was, now *face.Strip, spare, freed bool) string {
	w := words{sys: m.project.Units}
	what := say.F("%s, one strip more", m.now[i].Demand.ID)
	if was != nil {
		what = m.on(i, was)
	}
	var how string
	if spare {
		how = say.F("take spare %s of board %s", now.ID, now.Board.ID)
	} else {
		how = say.F("saw it from board %s, %s from the marked end and %s from the marked edge", now.Board.ID, w.len(now.X), w.len(now.Y))
	}
	if was == nil || now.W < was.W-0.05 || now.W > was.W+0.05 {
		how += say.F(", %s wide", w.len(now.W))
	}
	var lie []string
	if i < len(m.panels) {
		if now.UpFace() == 2 {
			lie = append(lie, say.T("face 2 up"))
		}
		if now.Turned {
			lie = append(lie, say.T("turned end for end"))
		}
	}
	if len(lie) > 0 {
		how += ", " + strings.Join(lie, say.T(" and "))
	}
	if freed {
		how += say.T("; it is not lost, but the width is not to be had without it")
	}
	return what + ": " + how
}

// missing says what nothing is left for, and why.
func (m *Mend) missing(i int, x *stock.Short) string {
	w := words{sys: m.project.Units}
	d := &m.now[i].Demand
	text := say.F("%s: %s of %s by %s cannot be replaced", d.ID, howMany(x.Strips, pieceNoun()), w.len(x.L), w.len(x.W))
	if i < len(m.panels) {
		text = say.F("%s: %s of its width cannot be replaced, such as %s of %s by %s", d.ID, w.len(x.Width), howMany(x.Strips, stripNoun()), w.len(x.L), w.len(x.W))
	}
	if why := whyShort(x.Boards, m.owners, m.project.Units); why != "" {
		text += ": " + why
	}
	return text
}
