package flatten

// Step is one step of a working: a formula with the numbers that went in and
// came out.
type Step struct {
	Formula string
	Values  []Value
	// Source says where the formula comes from; Flag how it was obtained:
	// C derived and checked, E engineering choice.
	Source, Flag string
}

// Value is a named number.
type Value struct {
	Name   string
	Number float64
	Unit   string
}

const mm = "mm"
