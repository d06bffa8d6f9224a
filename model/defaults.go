package model

import (
	"heartside/model/unit"

	"heartside/model/say"
)

// NewProject returns an empty project with common starting values. The
// allowances, machine and warning limits are common practice or engineering
// choices with no published source; each is a setting.
func NewProject() *Project {
	return &Project{
		Name:       say.T("Untitled"),
		Units:      unit.MM,
		Climate:    DefaultClimate(),
		Limits:     DefaultLimits(),
		Allowances: DefaultAllowances(),
		Machines:   DefaultMachines(),
		Behaviour:  DefaultBehaviour(),
	}
}

// DefaultClimate returns the indoor air a new project starts with.
func DefaultClimate() Climate {
	return Climate{Now: Air{RH: 45, Temp: 20}, Dry: Air{RH: 30, Temp: 20}, Wet: Air{RH: 65, Temp: 22}}
}

// DefaultBehaviour returns what is taken of the wood where nothing is said.
func DefaultBehaviour() Behaviour { return Behaviour{SapFactor: 1, FaceDifference: 1} }

// DefaultLimits returns the warning limits a new project starts with.
func DefaultLimits() Limits { return Limits{Streak: 0.12, Mix: [2]float64{0.25, 0.60}} }

// DefaultAllowances returns the allowances a new project starts with, mm.
func DefaultAllowances() Allowances {
	return Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5, AfterGlue: 1.5, Snipe: 60, FlawMargin: 10}
}

// DefaultMachines returns the machine limits a new project starts with, mm.
func DefaultMachines() Machines {
	return Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50}
}

// NewBoard returns a board of a size in mm with nothing known of its faces.
func NewBoard(id, species string, length, width, thickness float64) *Board {
	return &Board{ID: id, Species: species, Length: length, Width: width, Thickness: thickness}
}

// NewPanel returns an empty rectangular panel of a finished size in mm, with
// no limit of unwanted wood.
func NewPanel(id string, role Role, length, width, thickness float64) *Panel {
	return &Panel{ID: id, Role: role, Length: length, Width: width, Thickness: thickness,
		Shape: Rectangle, Look: AsLaid, UnwantedLimit: [2]float64{1, 1}}
}

// NewPlace returns an empty place for a strip, length and width in mm as
// glued.
func NewPlace(id string, length, width float64) Strip {
	return Strip{ID: id, L: length, W: width, Up: 1, Stage: Planned}
}
