package session

import (
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/together"
	"heartside/model"
)

// seenWith returns the set that a panel is seen together with, its panels one
// behind another; false where it is seen alone.
func seenWith(p *model.Project, panel string) (model.Set, bool) {
	for _, set := range p.Sets {
		if set.Way == model.Beside && slices.Contains(set.Panels, panel) {
			return set, true
		}
	}
	return model.Set{}, false
}

// besides lays the panels of a set as one face, with now in the place of the
// panel of its id; nil where they cannot be one.
func besides(v *view, set model.Set, now *face.Panel) *together.Face {
	var list []*face.Panel
	for _, id := range set.Panels {
		p := v.panels[id]
		if now != nil && id == now.ID {
			p = now
		}
		if p == nil {
			return nil
		}
		list = append(list, p)
	}
	f, err := together.Beside(list, set.Gap)
	if err != nil {
		return nil
	}
	return f
}

// setReader keeps the live reading of a set.
type setReader struct {
	of   []*face.Panel
	gap  float64
	face *together.Face
	read panelReader
}

// setFace returns the face of a set as it is on screen, with its reading; nil
// where there is none.
func (s *Session) setFace(set model.Set) (*together.Face, *face.Reading) {
	v := s.view()
	var list []*face.Panel
	for _, id := range set.Panels {
		list = append(list, v.panels[id])
	}
	r := s.sets[set.Name]
	if r == nil || r.gap != set.Gap || !slices.Equal(r.of, list) {
		held := s.preview != nil
		if r == nil {
			r = &setReader{}
			if s.sets == nil {
				s.sets = map[string]*setReader{}
			}
			s.sets[set.Name] = r
			r.read.reader.Hold(held)
		}
		r.of, r.gap, r.face = list, set.Gap, besides(v, set, nil)
	}
	if r.face == nil {
		return nil, nil
	}
	return r.face, r.read.of(r.face.Panel)
}

// lookKind reports whether a warning is about a face as it is seen.
func lookKind(k face.WarningKind) bool {
	return k == face.LoneStreak || k == face.Lopsided || k == face.OneSidedEdge
}

// asSeen replaces what is said of the looks of a panel by itself by what is
// said of all that it is seen together with.
func (s *Session) asSeen(panel string, own []face.Warning) []face.Warning {
	set, ok := seenWith(s.Project(), panel)
	if !ok {
		return own
	}
	f, r := s.setFace(set)
	if r == nil {
		return own
	}
	out := own[:0:0]
	for _, w := range own {
		if w.Side != face.Show || !lookKind(w.Kind) {
			out = append(out, w)
		}
	}
	at := s.placeIn(set, panel, f.Panel)
	for _, w := range r.Warnings {
		if w.Side != face.Show || !lookKind(w.Kind) {
			continue
		}
		if x, ok := ofPanel(w, panel, at); ok {
			out = append(out, x)
		}
	}
	byWeight(out)
	return out
}

// placeIn is where a panel of a set lies on the face of all.
func (s *Session) placeIn(set model.Set, panel string, all *face.Panel) geom.Rect {
	y := 0.0
	for _, id := range set.Panels {
		p := s.Panel(id)
		if id == panel {
			x := (all.Length - p.Length) / 2
			return geom.R(x, y, x+p.Length, y+p.Width)
		}
		y += p.Width + set.Gap
	}
	return geom.Rect{}
}

// others names the panels that one is seen together with.
func others(set model.Set, panel string) string {
	var out []string
	for _, id := range set.Panels {
		if id != panel {
			out = append(out, id)
		}
	}
	if n := len(out); n > 1 {
		return strings.Join(out[:n-1], ", ") + " and " + out[n-1]
	}
	return strings.Join(out, "")
}

// ofPanel turns a warning of a set into one of a panel, false where it does not
// concern it.
func ofPanel(w face.Warning, panel string, at geom.Rect) (face.Warning, bool) {
	mine := func(id string) (string, bool) { return strings.CutPrefix(id, panel+"/") }
	var ids []string
	concerns := len(w.Strips) == 0 || w.Kind == face.Lopsided
	for _, id := range w.Strips {
		if own, ok := mine(id); ok {
			ids, concerns = append(ids, own), true
		} else {
			ids = append(ids, id)
		}
	}
	if !concerns {
		return w, false
	}
	w.Strips, w.Band = ids, ""
	if !w.Place.Empty() {
		p := w.Place.Intersect(at)
		if p.Empty() {
			return w, false
		}
		w.Place = geom.Rect{Min: p.Min.Sub(at.Min), Max: p.Max.Sub(at.Min)}
	}
	var under []face.Warning
	for _, u := range w.Under {
		if x, ok := ofPanel(u, panel, at); ok {
			under = append(under, x)
		}
	}
	w.Under = under
	return w, true
}
