package file

import (
	"cmp"
	"strings"

	"heartside/model"
)

// Sets of panels and solid parts, read and written; a file without them says
// nothing of them.

func (v setV1) set() model.Set {
	return model.Set{Name: v.Name, Panels: v.Panels, Gap: v.Gap, Way: model.SetWay(v.Way), Match: model.SetMatch(v.Match)}
}

func (v *partV1) part() model.Part {
	n := model.Part{ID: v.ID, Kind: model.PartKind(v.Kind), Count: v.Count,
		Length: v.Length, Width: v.Width, Thickness: v.Thickness, Wanted: model.Wanted(v.Wanted)}
	for _, k := range v.Places {
		n.Places = append(n.Places, model.PartPlace{Board: k.Board, X: k.X, Y: k.Y, L: k.Length, W: k.Width,
			Angle: k.Angle, Stage: model.Stage(k.Stage)})
	}
	return n
}

func (e *emitter) sets(list []model.Set) {
	if len(list) == 0 {
		return
	}
	e.line(0, "sets:")
	for _, s := range list {
		panels := make([]string, len(s.Panels))
		for i, id := range s.Panels {
			panels[i] = word(id)
		}
		e.line(2, "- %s", flow("name", word(s.Name), "panels", "["+strings.Join(panels, ", ")+"]", "gap", e.mm(s.Gap),
			"way", word(cmp.Or(string(s.Way), string(model.Beside))), "match", word(cmp.Or(string(s.Match), string(model.MatchNone)))))
	}
}

func (e *emitter) parts(list []model.Part) {
	if len(list) == 0 {
		return
	}
	e.line(0, "parts:")
	for _, n := range list {
		e.line(2, "- id: %s", word(n.ID))
		e.line(4, "kind: %s", cmp.Or(string(n.Kind), string(model.OtherPart)))
		e.line(4, "count: %d", n.Count)
		e.line(4, "length: %s", e.mm(n.Length))
		e.line(4, "width: %s", e.mm(n.Width))
		e.line(4, "thickness: %s", e.mm(n.Thickness))
		if n.Wanted != model.WantDefault {
			e.line(4, "wanted: %s", n.Wanted)
		}
		if !e.head(4, "places", len(n.Places)) {
			continue
		}
		for _, k := range n.Places {
			e.line(6, "- %s", flow("board", word(k.Board), "x", e.mm(k.X), "y", e.mm(k.Y), "length", e.mm(k.L), "width", e.mm(k.W),
				"angle", e.fine(k.Angle), "stage", cmp.Or(string(k.Stage), string(model.Planned))))
		}
	}
}
