package session

import (
	"slices"

	"heartside/layout/face"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
)

// SetReading is what is read of panels that are seen together.
type SetReading struct {
	Set    model.Set
	Placed int    // strips of theirs that lie on a board; nothing is read of 0
	Apart  string // why they are not judged as one face, "" they are

	// Of the show faces of all.
	Light, Unwanted face.Share
	Coverage        float64 // contrast coverage, 0 to 1
	// Balance is the balance point of the unwanted wood less the middle of all,
	// as a share of the whole width across the grain, -0.5 to 0.5: towards the
	// first panel of a set that stands beside, towards the front edges of one
	// that stands along, where it is less than 0.
	Balance float64
	Lone    int // streaks that stand alone on the face of all
	Gaps    []GapReading
}

// GapReading tells how two neighbours of a set go on over the gap.
type GapReading struct {
	First, Second string // ids
	match.Levels
}

// SetReading returns what is read of the set that a panel is seen together
// with, false where it is in none. Of several the one that it is judged with
// comes first. It holds until the next change.
func (s *Session) SetReading(panel string) (SetReading, bool) {
	if set, ok := seenWith(s.Project(), panel); ok {
		return s.ReadSet(set), true
	}
	return SetReading{}, false
}

// ReadSet returns what is read of a set of the project.
func (s *Session) ReadSet(set model.Set) SetReading {
	out := SetReading{Set: set}
	for _, id := range set.Panels {
		if r := s.Reading(id); r != nil {
			out.Placed += r.Placed
		}
	}
	out.Gaps = s.gaps(set)
	if _, r := s.setFace(set); r != nil {
		out.Light, out.Unwanted, out.Coverage, out.Balance = r.Show.Light, r.Show.Unwanted, r.Show.Coverage, r.Show.Balance
		for i := range r.Warnings {
			if r.Warnings[i].Kind == face.LoneStreak {
				out.Lone++
			}
		}
		return out
	}
	out.Apart = say.T("they want different wood")
	s.mean(&out)
	return out
}

// mean takes the figures of a set from those of its panels.
func (s *Session) mean(out *SetReading) {
	var area, unwanted, at, from, wide float64
	add := func(to *face.Share, v face.Share, a float64) {
		to.Value, to.Lo, to.Hi = to.Value+v.Value*a, to.Lo+v.Lo*a, to.Hi+v.Hi*a
	}
	for _, id := range out.Set.Panels {
		p, r := s.Panel(id), s.Reading(id)
		if p == nil || r == nil {
			continue
		}
		a := r.Show.Area
		add(&out.Light, r.Show.Light, a)
		add(&out.Unwanted, r.Show.Unwanted, a)
		out.Coverage += r.Show.Coverage * a
		area += a
		bad := r.Show.Unwanted.Value * a
		unwanted += bad
		at += bad * (from + p.Width*(0.5+r.Show.Balance))
		if out.Set.Way == model.Beside {
			wide = from + p.Width
			from = wide + out.Set.Gap
		} else {
			wide = max(wide, p.Width)
		}
	}
	if area > 0 {
		for _, f := range []*face.Share{&out.Light, &out.Unwanted} {
			f.Value, f.Lo, f.Hi = f.Value/area, f.Lo/area, f.Hi/area
		}
		out.Coverage /= area
	}
	if unwanted > 0 && wide > 0 {
		out.Balance = (at/unwanted - wide/2) / wide
	}
}

// gapBook keeps how the panels of a set go on, while they stay as they are.
type gapBook struct {
	of   []*face.Panel
	way  model.SetWay
	list []GapReading
}

// gaps compares every panel of a set with the next one, where both hold wood.
func (s *Session) gaps(set model.Set) []GapReading {
	v := s.view()
	var of []*face.Panel
	for _, id := range set.Panels {
		of = append(of, v.panels[id])
	}
	if b := s.levels[set.Name]; b != nil && b.way == set.Way && slices.Equal(b.of, of) {
		return b.list
	}
	b := &gapBook{of: of, way: set.Way}
	for i := 0; i+1 < len(of); i++ {
		if laidOut(of[i]) && laidOut(of[i+1]) {
			b.list = append(b.list, GapReading{of[i].ID, of[i+1].ID, match.Level(of[i], of[i+1], match.Way(set.Way))})
		}
	}
	s.levels[set.Name] = b
	return b.list
}

// laidOut reports whether a strip of a panel lies on a board.
func laidOut(p *face.Panel) bool {
	return p != nil && slices.ContainsFunc(p.Strips, func(st face.Strip) bool { return st.Board != nil })
}
