package model

import (
	"slices"

	"heartside/model/say"
)

// PutSet puts a set of panels in the place of the one called Was, or of the
// one that has its name where Was is ""; where there is none it is new. Was is
// how a set gets another name.
type PutSet struct {
	Was string
	Set Set
}

// Label implements Edit.
func (e PutSet) Label() string {
	if e.Was != "" && e.Was != e.Set.Name {
		return say.F("Rename set %s to %s", e.Was, e.Set.Name)
	}
	return say.F("Change set %s", e.Set.Name)
}

func (e PutSet) apply(p *Project) (*Project, error) {
	i := p.setIndex(e.Set.Name)
	if e.Was != "" {
		if i = p.setIndex(e.Was); i < 0 {
			return nil, noSet(e.Was)
		}
	}
	return p.with(func(q *Project) {
		q.Sets = slices.Clone(q.Sets)
		if i < 0 {
			q.Sets = append(q.Sets, cloneSet(e.Set))
			return
		}
		q.Sets[i] = cloneSet(e.Set)
	}), nil
}

// DropSet forgets a set; its panels stay.
type DropSet struct{ Name string }

// Label implements Edit.
func (e DropSet) Label() string { return say.F("Forget set %s", e.Name) }

func (e DropSet) apply(p *Project) (*Project, error) {
	if p.setIndex(e.Name) < 0 {
		return nil, noSet(e.Name)
	}
	return p.with(func(q *Project) { q.Sets = without(q.Sets, func(s Set) bool { return s.Name == e.Name }) }), nil
}

// panelRenamed returns sets in which a panel has another id.
func panelRenamed(list []Set, from, to string) []Set {
	out := cloneSets(list)
	for _, s := range out {
		for i, id := range s.Panels {
			if id == from {
				s.Panels[i] = to
			}
		}
	}
	return out
}

// panelRemoved returns sets without a panel. A set of which one panel is left
// is none any more.
func panelRemoved(list []Set, id string) []Set {
	var out []Set
	for _, s := range list {
		if slices.Contains(s.Panels, id) {
			s.Panels = without(s.Panels, func(panel string) bool { return panel == id })
			if len(s.Panels) < 2 {
				continue
			}
		}
		out = append(out, s)
	}
	return out
}

func noSet(name string) error {
	return RuleError{Rule: RuleUnknownSet, Set: name, Detail: say.T("there is no such set")}
}
