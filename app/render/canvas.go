// Package render draws: one Canvas interface, with backends that paint pixels,
// write PDF or record the calls for tests. Nothing here knows of panels or
// boards.
package render

import (
	"image"
	"image/color"

	"heartside/layout/geom"
)

// Canvas takes drawing calls. Coordinates are in the unit the backend was made
// with (mm on paper, device pixels on screen), x to the right and y DOWN from
// the top left corner. Calls paint over earlier ones.
type Canvas interface {
	// Fill paints the inside of a path (even-odd).
	Fill(p Path, c color.NRGBA)
	// Hatch fills the inside of a path with a line pattern.
	Hatch(p Path, h Hatch)
	// Stroke draws along a path.
	Stroke(p Path, pen Pen)
	// Text writes one line; at is the baseline's start, middle or end by
	// Style.Align.
	Text(at geom.Point, s string, st Style)
	// Image paints img through m, which maps picture pixels (x right, y down,
	// pixel centres at +0.5) to canvas units, inside clip (nil: everywhere).
	Image(img *image.RGBA, m geom.Affine, clip Path)
	// Push clips everything until the matching Pop to the inside of p.
	Push(p Path)
	Pop()
}

// Path is a list of rings or lines.
type Path []Line

// Line is a run of points, closed or open.
type Line struct {
	Points []geom.Point
	Closed bool
}

// Pen is how a path is drawn.
type Pen struct {
	Width float64
	Color color.NRGBA
	Dash  []float64 // lengths of line and gap; nil: solid
	Round bool      // round ends and corners; otherwise ends are cut square
}

// Hatch is a family of parallel lines or dots.
type Hatch struct {
	Angle   float64 // degrees, anticlockwise as seen
	Spacing float64
	Pen     Pen
	Cross   bool // a second family at right angles
	Dots    bool // dots of Pen.Width instead of lines

	// Origin is a place a line or dot of the pattern falls on, so that a
	// pattern can move with what it fills.
	Origin geom.Point
}

// Align is where the given point lies on the line of text.
type Align uint8

// Alignments.
const (
	Left Align = iota
	Middle
	Right
)

// Style is how text is written.
type Style struct {
	Size   float64 // of the em, canvas units
	Bold   bool
	Narrow bool
	Color  color.NRGBA
	Align  Align
	Turn   float64 // degrees anticlockwise as seen, about the point
}
