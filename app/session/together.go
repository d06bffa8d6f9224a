package session

import (
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/together"
	"heartside/model"
	"heartside/model/say"
)

// seenWith returns the set that a panel is seen together with; false where it
// is seen alone.
func seenWith(p *model.Project, panel string) (model.Set, bool) {
	for _, set := range p.Sets {
		if slices.Contains(set.Panels, panel) {
			return set, true
		}
	}
	return model.Set{}, false
}

// layoutOf is how the panels of a set are laid to one face.
func layoutOf(set model.Set) together.Layout {
	l := together.Layout{Way: together.Across, Gap: set.Gap}
	if set.Way == model.Along {
		l.Way = together.Along
	}
	return l
}

// besides lays the panels of a set as one face; nil where they cannot be one.
func besides(v *view, set model.Set) *together.Face {
	var list []*face.Panel
	for _, id := range set.Panels {
		p := v.panels[id]
		if p == nil {
			return nil
		}
		list = append(list, p)
	}
	f, err := together.Of(list, layoutOf(set))
	if err != nil {
		return nil
	}
	return f
}

// setReader keeps the live reading of a set.
type setReader struct {
	of   []*face.Panel
	set  together.Layout
	face *together.Face
	read setLive
}

// setLive is the reading of a face of several panels, made once a face.
type setLive struct {
	reader  together.Reader
	read    *together.Face
	reading *face.Reading
}

func (r *setLive) of(f *together.Face) *face.Reading {
	if r.read != f || r.reading == nil {
		r.reading = r.reader.Read(f)
		r.read = f
	}
	return r.reading
}

func (r *setLive) hold(on bool) {
	r.reader.Hold(on)
	if !on {
		r.reading = nil
	}
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
	if l := layoutOf(set); r == nil || r.set != l || !slices.Equal(r.of, list) {
		held := s.preview != nil
		if r == nil {
			r = &setReader{}
			if s.sets == nil {
				s.sets = map[string]*setReader{}
			}
			s.sets[set.Name] = r
			r.read.reader.Hold(held)
		}
		r.of, r.set, r.face = list, l, besides(v, set)
	}
	if r.face == nil {
		return nil, nil
	}
	return r.face, r.read.of(r.face)
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
	at := f.Places[slices.Index(set.Panels, panel)]
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

// others names the panels that one is seen together with.
func others(set model.Set, panel string) string {
	var out []string
	for _, id := range set.Panels {
		if id != panel {
			out = append(out, id)
		}
	}
	if n := len(out); n > 1 {
		return say.F("%s and %s", strings.Join(out[:n-1], ", "), out[n-1])
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
