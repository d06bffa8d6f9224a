package tool

import "heartside/layout/geom"

// Kind says what happened.
type Kind uint8

// Kinds of event.
const (
	Hover   Kind = iota // the pointer moved, no button held
	Press               // a button went down
	Drag                // the pointer moved with the button held
	Release             // the button came up
	Double              // the second press of a double click
	Typed               // a key was typed
	Leave               // the pointer left the surface
)

// Button names a pointer button.
type Button uint8

// Buttons.
const (
	NoButton Button = iota
	Primary
	Middle
	Secondary
)

// Mods are the keys held beside a button. Alt is not among them: window
// managers take it.
type Mods struct {
	Shift   bool
	Control bool
}

// Key is a key that a tool listens to.
type Key uint8

// Keys.
const (
	NoKey Key = iota
	Escape
	Enter
	Delete
	Backspace
	Space
	Left
	Right
	Up
	Down
	Home
	End
)

// Event is one thing that happened on the surface.
type Event struct {
	Kind   Kind
	At     geom.Point // surface units, y down
	Button Button
	Mods   Mods
	Key    Key
}

// slack is how far the pointer may wander, in surface units, before a press
// becomes a drag.
const slack = 4
