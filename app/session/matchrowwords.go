package session

import (
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
)

// told reads the panels as they would be.
func (r *rowing) told(out *RowPlan, gone map[string]bool) {
	var panels []*face.Panel
	name := map[string]string{}
	for i, id := range r.w.Panels {
		q := *r.v.panels[id]
		q.Strips = []face.Strip{out.Strips[i]}
		name[out.Strips[i].ID] = id
		panels = append(panels, &q)
		read := face.ReadFull(&q)
		sides := r.v.project.Panel(id).Role.Sides()
		for _, f := range read.Show.Flaws {
			out.Flaws = append(out.Flaws, say.F("%s: a flaw shows, %s from %s and %s from %s.", id,
				r.len(f.Place.Centre().X), sides[2].The, r.len(f.Place.Centre().Y), sides[0].The))
		}
	}
	said := map[string]bool{}
	for i, q := range panels {
		others := r.others(gone)
		for k := range panels {
			if k != i {
				others = append(others, panels[k].Strips...)
			}
		}
		w := words{sys: r.sys, role: r.v.project.Panel(q.ID).Role, wanted: q.Wanted, panel: q, solid: solidNames(r.v.project),
			number: func(id string) string {
				if n := name[id]; n != "" {
					return say.F("of %s", n)
				}
				return r.otherNumber(id)
			}}
		for _, x := range cutting.NewChecker(others, r.cut, r.machines).Panel(q) {
			title, text := w.say(&x)
			ids := slices.Clone(x.Strips)
			slices.Sort(ids)
			if k := string(x.Kind) + x.Why + fmtList(ids); !said[k] {
				said[k] = true
				out.Told = append(out.Told, title+". "+text)
				if x.Kind == face.PartsOverlap && !slices.ContainsFunc(x.Strips, func(id string) bool { return name[id] == "" }) {
					out.Note = r.closeNote()
				}
			}
		}
	}
}

// closeNote says why the strips of a row lie nearer than the saw allows.
func (r *rowing) closeNote() string {
	return say.F("The saw of the project cuts %s wide, which is more than there is between the fronts of this row. Take that kerf, or enter the saw that is used in the project's settings.", r.len(r.cut.Kerf))
}

// otherNumber is what is chalked on a strip of any panel, or a spare.
func (r *rowing) otherNumber(id string) string {
	for _, m := range r.v.project.Panels {
		if _, ok := m.Strip(id); ok {
			return say.F("%s of %s", model.StripNumber(r.v.project, m.ID, id), m.ID)
		}
	}
	return model.StripNumber(r.v.project, "", id)
}

// need says what the row takes of the board and what that has.
func (r *rowing) need(g *match.Run) string {
	along, across := say.T("length"), say.T("width")
	short, narrow := say.T(" too short"), say.T(" too narrow")
	if r.w.Across {
		along, across, short, narrow = across, along, narrow, short
	}
	text := say.F("The row takes %s of the board's %s of %s and %s of its %s of %s.", r.len(g.Need), along, r.len(g.Have), r.len(g.NeedAcross), across, r.len(g.HaveAcross))
	if !g.Enough() {
		var lacks []string
		if d := g.Need - g.Have; d > 1e-6 {
			lacks = append(lacks, r.some(d)+short)
		}
		if d := g.NeedAcross - g.HaveAcross; d > 1e-6 {
			lacks = append(lacks, r.some(d)+narrow)
		}
		text = say.F("Board %s is %s. %s", r.w.Board, say.List(lacks), text)
	}
	return text
}

// parting says what lies between two fronts.
func (r *rowing) parting(i int, p *match.Parting) string {
	text := say.F("%s and %s: %s lost to the cut for a gap of %s", r.w.Panels[i], r.w.Panels[i+1], r.len(p.Lost), r.len(p.Gap))
	switch {
	case p.Jump > 0.05:
		return say.F("%s; the picture jumps by %s.", text, r.some(p.Jump))
	case p.Waste > 0.05:
		return say.F("%s; %s more is cut away so that the grain runs on.", text, r.some(p.Waste))
	}
	return say.F("%s; the grain runs on.", text)
}
