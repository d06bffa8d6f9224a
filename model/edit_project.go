package model

import (
	"reflect"
	"slices"

	"heartside/model/say"
	"heartside/model/unit"
)

// Settings are what holds of all of a project.
type Settings struct {
	Name       string
	Units      unit.System
	Currency   string
	Climate    Climate
	Limits     Limits
	Allowances Allowances
	Machines   Machines
	Behaviour  Behaviour
}

// Settings returns the project's.
func (p *Project) Settings() Settings {
	return Settings{p.Name, p.Units, p.Currency, p.Climate, p.Limits, p.Allowances, p.Machines, p.Behaviour}
}

// SetSettings changes what holds of all of a project.
type SetSettings struct{ Settings Settings }

// Label implements Edit.
func (e SetSettings) Label() string { return say.T("Change project settings") }

func (e SetSettings) apply(p *Project) (*Project, error) {
	s := e.Settings
	return p.with(func(q *Project) {
		q.Name, q.Units, q.Currency, q.Climate = s.Name, s.Units, s.Currency, s.Climate
		q.Limits, q.Allowances, q.Machines, q.Behaviour = s.Limits, s.Allowances, s.Machines, s.Behaviour
	}), nil
}

// SetJoined says which panels are fixed to each other.
type SetJoined struct{ Joined []Joined }

// Label implements Edit.
func (e SetJoined) Label() string { return say.T("Change joined panels") }

func (e SetJoined) apply(p *Project) (*Project, error) {
	if slices.Equal(p.Joined, e.Joined) {
		return p, nil
	}
	return p.with(func(q *Project) { q.Joined = cloneSlice(e.Joined) }), nil
}

// SetColours replaces the colours measured by the maker.
type SetColours struct{ Colours []Colours }

// Label implements Edit.
func (e SetColours) Label() string { return say.T("Change measured colours") }

func (e SetColours) apply(p *Project) (*Project, error) {
	cs := cloneColours(e.Colours)
	if reflect.DeepEqual(p.Colours, cs) {
		return p, nil
	}
	return p.with(func(q *Project) { q.Colours = cs }), nil
}
