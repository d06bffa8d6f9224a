package session

import (
	"slices"
	"strings"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
)

// RowWish is a row of panels, drawer fronts mostly, to be cut from one board so
// that the grain runs through them.
type RowWish struct {
	Board  string
	Panels []string // in order: from the left, or from the lowest
	Across bool     // one above another, cut from the board's width; else side by side, from its length
	Gap    float64  // between two as they hang, mm
	Kerf   float64
	Trim   float64 // taken off each cut side afterwards
	Up     int     // the face that shows, 1 or 2
	Turned bool    // the marked end at the right
}

// RowPlan is how a row would be cut.
type RowPlan struct {
	Enough bool
	Need   string // in words: what the row takes of the board and what that has
	Places []string
	Lost   []string // what is lost between two neighbours, and by how much the picture jumps
	Flaws  []string // those that would show
	Told   []string // what the cutting rules say
	Note   string   // what is to be known of that, "" nothing
	Leaves []string // what becomes of the strips the panels have now
	Strips []face.Strip
	Edit   model.Edit // nil where the board is too small
}

// RowWishOf is what is asked at first for the panels of a set: its order, gap
// and way; false where there is none of drawer fronts or of panels whose grain
// is to run on.
func (s *Session) RowWishOf() (RowWish, bool) {
	p := s.Committed()
	w := RowWish{Gap: model.DefaultGap, Kerf: p.Allowances.Kerf, Up: 1}
	for _, set := range p.Sets {
		if set.Match == model.MatchInOrder {
			w.Panels, w.Gap, w.Across = slices.Clone(set.Panels), set.Gap, set.Way != model.Along
			return w, true
		}
	}
	for _, m := range p.Panels {
		if m.Role == model.RoleDrawerFront {
			w.Panels = append(w.Panels, m.ID)
		}
	}
	return w, false
}

// Row works out a row on a board. It may be asked at every key: it takes a few
// milliseconds.
func (s *Session) Row(w RowWish) (RowPlan, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	r := rowing{w: w, v: v, cut: AllowancesOf(v.project.Allowances), machines: machinesOf(v.project)}
	r.words = words{sys: v.project.Units}
	if err := r.check(); err != nil {
		return RowPlan{}, err
	}
	return r.plan()
}

type rowing struct {
	words
	w        RowWish
	v        *view
	cut      cutting.Allowances
	machines cutting.Machines
	over     float64 // excess at each long edge of a front
}

func (r *rowing) check() error {
	b := r.v.project.Board(r.w.Board)
	switch {
	case b == nil:
		return say.Error("choose the board that the row is cut from")
	case b.Spoiled:
		return say.Errorf("board %s is spoiled: nothing more is cut from it", b.ID)
	case len(r.w.Panels) == 0:
		return say.Error("choose the panels of the row")
	}
	seen := map[string]bool{}
	for _, id := range r.w.Panels {
		m := r.v.project.Panel(id)
		switch {
		case m == nil:
			return say.Errorf("there is no panel %q", id)
		case seen[id]:
			return say.Errorf("panel %s stands twice in the row", id)
		}
		seen[id] = true
		for i := range m.Strips {
			if st := &m.Strips[i]; st.Pinned || stageOf(st.Stage) >= face.Glued {
				return say.Errorf("panel %s: strip %s is %s; a row gives it one new strip", id, model.StripNumber(r.v.project, id, st.ID), heldWord(st))
			}
		}
	}
	return nil
}

func heldWord(st *model.Strip) string {
	if st.Pinned {
		return say.T("pinned")
	}
	return say.T("glued in already")
}

// fronts are the panels as they are cut: along the row to their finished size,
// so that no more is lost between them than has to be.
func (r *rowing) fronts() []match.Front {
	if !r.w.Across {
		r.over = r.v.project.Allowances.PanelEdge
	}
	var out []match.Front
	for _, id := range r.w.Panels {
		p := r.v.panels[id]
		out = append(out, match.Front{ID: id, Length: p.Length, Width: p.Width + 2*r.over})
	}
	return out
}

func (r *rowing) plan() (RowPlan, error) {
	fronts := r.fronts()
	b := r.v.boards[r.w.Board]
	o := match.RowOptions{Across: r.w.Across, Gap: r.w.Gap, Kerf: r.w.Kerf, Trim: r.w.Trim, Up: r.w.Up, Turned: r.w.Turned,
		Ends: r.cut.Ends, Edges: r.cut.Joint + r.cut.Rest, Clear: r.cut.FlawMargin}
	got, err := match.Row(r.aside(b), fronts, o)
	if err != nil {
		return RowPlan{}, err
	}
	out := RowPlan{Enough: got.Enough(), Need: r.need(&got)}
	for i, p := range got.Partings {
		out.Lost = append(out.Lost, r.parting(i, &p))
	}
	if !out.Enough {
		return out, nil
	}
	by := toTenth(got.Strips)
	for i := range got.Strips {
		st := got.Strips[i]
		st.Board = b
		st.X, st.Y = st.X+by.X, st.Y+by.Y
		out.Strips = append(out.Strips, st)
		out.Places = append(out.Places, say.F("%s: %s from the marked end, %s from the marked edge; %s by %s",
			st.ID, r.len(st.X), r.len(st.Y), r.len(st.L), r.len(st.W)))
	}
	if len(out.Strips) > 1 {
		row := inRow(model.FreeRow(r.v.project), out.Strips)
		for i := range row {
			out.Strips[i].Row = &row[i]
		}
	}
	r.lay(&out)
	return out, nil
}

// toTenth is by how much a row is moved so that it begins where a rule can
// measure. It moves as one: the cuts between its strips stay as wide as they
// are.
func toTenth(list []face.Strip) geom.Point {
	lo := geom.Pt(list[0].X, list[0].Y)
	for i := range list {
		lo.X, lo.Y = min(lo.X, list[i].X), min(lo.Y, list[i].Y)
	}
	return geom.Pt(tenth(lo.X)-lo.X, tenth(lo.Y)-lo.Y)
}

// aside is the board with what else is cut from it shut, so that the row is
// laid beside that where there is room.
func (r *rowing) aside(b *face.Board) *face.Board {
	out := *b
	gone := map[string]bool{}
	for _, id := range r.w.Panels {
		gone[id] = true
	}
	for _, st := range r.others(gone) {
		if st.Board == nil || st.Board.ID != b.ID {
			continue
		}
		x := r.cut.Kerf + r.cut.Ends
		y := r.cut.Kerf + r.cut.Joint + r.cut.Rest
		box := cutting.Blank(&st, r.cut).Bounds()
		box = geom.R(box.Min.X-x, box.Min.Y-y, box.Max.X+x, box.Max.Y+y).Intersect(geom.R(0, 0, b.Length, b.Width))
		if box.Empty() {
			continue
		}
		out.Faces[0].Zones = append(slices.Clone(out.Faces[0].Zones), face.Zone{Kind: face.Flaw, Polygon: box.Polygon()})
		out.Faces[1].Zones = append(slices.Clone(out.Faces[1].Zones), face.Zone{Kind: face.Flaw, Polygon: b.Other().ApplyTo(box.Polygon())})
	}
	return &out
}

// others is what is cut from the boards beside the panels of the row.
func (r *rowing) others(gone map[string]bool) []face.Strip {
	var out []face.Strip
	for _, m := range r.v.project.Panels {
		if !gone[m.ID] {
			out = append(out, r.v.panels[m.ID].Strips...)
			continue
		}
		for i, st := range m.Strips { // what is sawn goes to the spares
			if stageOf(st.Stage) >= face.Sawn {
				out = append(out, r.v.panels[m.ID].Strips[i])
			}
		}
	}
	return append(out, r.v.beside()...)
}

// lay makes the edit and says what the panels would be then.
func (r *rowing) lay(out *RowPlan) {
	p := r.v.project
	e := model.SetPlan{Verb: say.F("Cut %s in a row from board %s", strings.Join(r.w.Panels, ", "), r.w.Board)}
	spares, changed := slices.Clone(p.Spares), false
	taken := map[string]bool{}
	free := func() string {
		b := bench{project: p}
		id := b.freeID(taken)
		taken[id] = true
		return id
	}
	gone := map[string]bool{}
	dropped := 0
	for i, id := range r.w.Panels {
		gone[id] = true
		m := p.Panel(id)
		for _, st := range m.Strips {
			switch {
			case stageOf(st.Stage) >= face.Sawn:
				number := model.StripNumber(p, id, st.ID)
				if slices.ContainsFunc(spares, func(o model.Strip) bool { return o.ID == st.ID }) {
					st.ID = free()
				}
				spares, changed = append(spares, st), true
				out.Leaves = append(out.Leaves, say.F("Strip %s of %s is sawn already and goes to the spares.", number, id))
			case st.Board != "":
				dropped++
			}
		}
		f := &out.Strips[i]
		st := model.Strip{ID: free(), Board: r.w.Board, X: f.X, Y: f.Y, L: f.L, W: f.W, Up: f.Up, Turned: f.Turned}
		if f.Row != nil {
			st.Row = f.Row.Name
		}
		f.ID = st.ID
		e.Panels = append(e.Panels, model.PlanPanel{Panel: id, Strips: []model.Strip{st}})
	}
	if dropped > 0 {
		text := say.T("The strip planned for them so far is given up.")
		if dropped > 1 {
			text = say.F("The %d strips planned for them so far are given up.", dropped)
		}
		out.Leaves = append([]string{text}, out.Leaves...)
	}
	if changed {
		e.Spares = spares
	}
	out.Edit = e
	r.told(out, gone)
}
