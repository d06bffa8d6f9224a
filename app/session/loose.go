package session

import (
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// BoardSpoiled is the warning that wood is still to be cut from a board of
// which nothing more can be cut.
const BoardSpoiled face.WarningKind = "board-spoiled"

// weightSpoiled puts it before everything else: there is no such wood.
const weightSpoiled = 200

// fitted is what the cutting rules say of one view.
type fitted struct {
	of   *view
	list []cutting.Finding
}

// fit returns what is wrong with the places of strips and of solid parts on
// their boards.
func (s *Session) fit() []cutting.Finding {
	v := s.view()
	if s.fitted.of == v {
		return s.fitted.list
	}
	panels := make([]*face.Panel, 0, len(v.project.Panels))
	for _, m := range v.project.Panels {
		panels = append(panels, v.panels[m.ID])
	}
	s.fitted = fitted{v, cutting.Check(panels, v.beside(), AllowancesOf(v.project.Allowances), machinesOf(v.project))}
	return s.fitted.list
}

// spoiledFor warns of the strips of a panel that are still to be cut from
// spoiled boards, one warning a board. What mends it is sought elsewhere: fixes
// for this kind would be told with it like those of any other.
func (v *view) spoiledFor(p *face.Panel) []face.Warning {
	var out []face.Warning
	for _, b := range v.project.Boards {
		if !b.Spoiled {
			continue
		}
		w := face.Warning{Kind: BoardSpoiled, Boards: []string{b.ID}, Weight: weightSpoiled}
		last := -1
		row := true // they lie beside one another, so that one place holds them
		for i := range p.Strips {
			st := &p.Strips[i]
			if st.Board == nil || st.Board.ID != b.ID || !v.lost(st) {
				continue
			}
			row = row && (last < 0 || last == i-1)
			last = i
			w.Strips = append(w.Strips, st.ID)
			x, y := p.Left(i), p.StripY(i)
			w.Place = w.Place.Union(geom.R(x, y, x+st.L, y+st.W))
		}
		if w.Place = w.Place.Intersect(geom.R(0, 0, p.Length, p.Width)); !row {
			w.Place = geom.Rect{}
		}
		if last >= 0 {
			out = append(out, w)
		}
	}
	return out
}

// LooseNotes returns the warnings that concern no panel, in words: solid parts
// that cannot be cut where they are planned, and parts and spares of spoiled
// boards.
func (s *Session) LooseNotes() []Note {
	v := s.view()
	w := words{sys: v.project.Units, number: numbersOf(v.project, ""), solid: solidNames(v.project)}
	var list []face.Warning
	for _, b := range v.project.Boards {
		x := face.Warning{Kind: BoardSpoiled, Boards: []string{b.ID}, Weight: weightSpoiled}
		all := v.beside()
		for i := range all {
			if st := &all[i]; b.Spoiled && st.Board != nil && st.Board.ID == b.ID && v.lost(st) {
				x.Strips = append(x.Strips, st.ID)
			}
		}
		if x.Strips != nil {
			list = append(list, x)
		}
	}
	for _, f := range s.fit() {
		if f.Panel == "" && slices.ContainsFunc(f.Strips, func(id string) bool { _, _, ok := CuttingOf(v.project, id); return ok }) {
			list = append(list, f.Warning)
		}
	}
	byWeight(list)
	var out []Note
	for i := range list {
		x := &list[i]
		n := Note{Kind: x.Kind, Strips: x.Strips, Boards: x.Boards, FixesKnown: true, Severe: severe(x.Kind), Warning: *x}
		n.Title, n.Text = w.say(x)
		out = append(out, n)
	}
	return out
}

// solidNames returns what cuttings of solid parts are called, by id.
func solidNames(p *model.Project) func(id string) (string, bool) {
	return func(id string) (string, bool) { return cuttingName(p, id) }
}

// saySpoiled puts a warning of a spoiled board into words.
func (w words) saySpoiled(x *face.Warning) (title, text string) {
	is := say.T("is")
	if len(x.Strips) > 1 {
		is = say.T("are")
	}
	return say.F("Board %s is spoiled: %s %s still to be cut from it", x.Boards[0], w.strips(x.Strips), is),
		say.T("Nothing more is cut from it. Take other wood, or say that the board is sound after all.")
}
