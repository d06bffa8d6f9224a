package model

import (
	"reflect"
	"slices"

	"heartside/model/unit"
)

// SetDetails names the project and says how its lengths are shown.
type SetDetails struct {
	Name  string
	Units unit.System
}

// Label implements Edit.
func (e SetDetails) Label() string { return "Change project details" }

func (e SetDetails) apply(p *Project) (*Project, error) {
	return p.with(func(q *Project) { q.Name, q.Units = e.Name, e.Units }), nil
}

// SetLimits changes the limits of the warnings.
type SetLimits struct{ Limits Limits }

// Label implements Edit.
func (e SetLimits) Label() string { return "Change limits" }

func (e SetLimits) apply(p *Project) (*Project, error) {
	return p.with(func(q *Project) { q.Limits = e.Limits }), nil
}

// SetAllowances changes the allowances for working the wood.
type SetAllowances struct{ Allowances Allowances }

// Label implements Edit.
func (e SetAllowances) Label() string { return "Change allowances" }

func (e SetAllowances) apply(p *Project) (*Project, error) {
	return p.with(func(q *Project) { q.Allowances = e.Allowances }), nil
}

// SetMachines changes the limits of the machines.
type SetMachines struct{ Machines Machines }

// Label implements Edit.
func (e SetMachines) Label() string { return "Change machine limits" }

func (e SetMachines) apply(p *Project) (*Project, error) {
	return p.with(func(q *Project) { q.Machines = e.Machines }), nil
}

// SetClimate changes the air the work stands in.
type SetClimate struct{ Climate Climate }

// Label implements Edit.
func (e SetClimate) Label() string { return "Change climate" }

func (e SetClimate) apply(p *Project) (*Project, error) {
	return p.with(func(q *Project) { q.Climate = e.Climate }), nil
}

// SetBehaviour changes how the wood is taken to behave.
type SetBehaviour struct{ Behaviour Behaviour }

// Label implements Edit.
func (e SetBehaviour) Label() string { return "Change how the wood behaves" }

func (e SetBehaviour) apply(p *Project) (*Project, error) {
	return p.with(func(q *Project) { q.Behaviour = e.Behaviour }), nil
}

// SetJoined says which panels are fixed to each other.
type SetJoined struct{ Joined []Joined }

// Label implements Edit.
func (e SetJoined) Label() string { return "Change joined panels" }

func (e SetJoined) apply(p *Project) (*Project, error) {
	if slices.Equal(p.Joined, e.Joined) {
		return p, nil
	}
	return p.with(func(q *Project) { q.Joined = cloneSlice(e.Joined) }), nil
}

// SetColours replaces the colours measured by the maker.
type SetColours struct{ Colours []Colours }

// Label implements Edit.
func (e SetColours) Label() string { return "Change measured colours" }

func (e SetColours) apply(p *Project) (*Project, error) {
	cs := cloneColours(e.Colours)
	if reflect.DeepEqual(p.Colours, cs) {
		return p, nil
	}
	return p.with(func(q *Project) { q.Colours = cs }), nil
}
