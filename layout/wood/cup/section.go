package cup

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// Section is a strip's section as it lies in the panel, show face up. Pith is
// Y from the strip's front edge and Z above its back face; it may lie far off,
// and one of its coordinates may be infinite (straight rings).
type Section struct {
	Width, Thickness float64
	Pith             geom.Point
}

// Check refuses sections that cannot be.
func (s Section) Check() error {
	if badNumber(s.Width, s.Thickness) || s.Width <= 0 || s.Thickness <= 0 {
		return fmt.Errorf("a section %g mm wide and %g mm thick: both must be above 0", s.Width, s.Thickness)
	}
	x, z := s.Pith.X, s.Pith.Y
	if math.IsNaN(x) || math.IsNaN(z) || math.IsInf(x, 0) && math.IsInf(z, 0) {
		return fmt.Errorf("pith at %g, %g mm: give both numbers, at most one of them infinite", x, z)
	}
	return nil
}

// RolledOver returns the section after rolling the strip about its long axis.
func (s Section) RolledOver() Section {
	s.Pith = geom.Pt(s.Width-s.Pith.X, s.Thickness-s.Pith.Y)
	return s
}

// Turned returns the section after turning the strip end for end.
func (s Section) Turned() Section {
	s.Pith.X = s.Width - s.Pith.X
	return s
}

// Inside reports whether the pith lies in the wood of the strip.
func (s Section) Inside() bool {
	return s.Pith.X > 0 && s.Pith.X < s.Width && s.Pith.Y > 0 && s.Pith.Y < s.Thickness
}

// beyond is the distance from which rings are as good as straight, mm; what is
// lost by taking a pith no farther off than this is under a millionth of 1 mm.
const beyond = 1e8

// near returns the section with a pith that can be reckoned with.
func (s Section) near() Section {
	c := s.centre()
	switch x, z := s.Pith.X, s.Pith.Y; {
	case math.IsInf(x, 0):
		s.Pith = geom.Pt(math.Copysign(beyond, x), c.Y)
	case math.IsInf(z, 0):
		s.Pith = geom.Pt(c.X, math.Copysign(beyond, z))
	default:
		if d := s.Pith.Sub(c); d.Len() > beyond {
			s.Pith = c.Add(d.Mul(beyond / d.Len()))
		}
	}
	return s
}

func (s Section) centre() geom.Point { return geom.Pt(s.Width/2, s.Thickness/2) }

// Angle returns the angle between the show face and the rings in the middle of
// the section, degrees: 0 flat-sawn, 90 quarter-sawn.
func (s Section) Angle() float64 {
	d := s.near().Pith.Sub(s.centre())
	return math.Atan2(math.Abs(d.X), math.Abs(d.Y)) * 180 / math.Pi
}

// Bark says which face of a strip, as it lies, was nearer the bark.
type Bark string

// Bark sides of a strip in the panel.
const (
	BarkUnknown Bark = ""
	BarkUp      Bark = "up"   // the show face is the bark side
	BarkDown    Bark = "down" // the back is: heart side up
	BarkBeside  Bark = "beside"
)

// rolledOver returns the side after rolling over.
func (b Bark) rolledOver() Bark {
	switch b {
	case BarkUp:
		return BarkDown
	case BarkDown:
		return BarkUp
	}
	return b
}

// quarterSawn is the steepness, depth against across from the middle to the
// pith, under which a strip is quarter-sawn: rings within 30 degrees of
// upright, common practice without a source.
const quarterSawn = 0.5

// Bark returns the bark side the pith tells of.
func (s Section) Bark() Bark {
	d := s.near().Pith.Sub(s.centre())
	switch {
	case math.Abs(d.Y) <= quarterSawn*math.Abs(d.X):
		return BarkBeside
	case d.Y < 0:
		return BarkUp
	}
	return BarkDown
}

// Cut says where a strip lies in its board and how it is laid, so that its
// section can be drawn.
type Cut struct {
	// Pith is across from the board's marked edge and deep below its sawn
	// face 1 (negative: beyond face 1).
	Pith geom.Point
	// From is where the strip begins, from the marked edge; Width its width.
	// A strip at an angle is taken as lying along the board at its middle.
	From, Width float64
	// Off is what is planed off face 1, Thickness what is left.
	Off, Thickness float64
	Up             int // the face that shows, 1 or 2
	Turned         bool
}

// Section returns the section as the strip lies in the panel.
func (c Cut) Section() (Section, error) {
	if c.Up != 1 && c.Up != 2 {
		return Section{}, fmt.Errorf("face %d up: a board has face 1 and face 2", c.Up)
	}
	if badNumber(c.From, c.Off) {
		return Section{}, fmt.Errorf("a strip from %g mm with %g mm off face 1: both must be numbers", c.From, c.Off)
	}
	s := Section{Width: c.Width, Thickness: c.Thickness, Pith: c.place(c.Pith)}
	return s, s.Check()
}

// Bounds returns where the pith may lie in the axes of the section, from
// bounds in those of the board (across, depth).
func (c Cut) Bounds(board geom.Rect) geom.Rect {
	a, b := c.place(board.Min), c.place(board.Max)
	return geom.R(a.X, a.Y, b.X, b.Y)
}

// place maps (across, depth) of the board to the section as the strip lies.
func (c Cut) place(p geom.Point) geom.Point {
	s := Section{Width: c.Width, Thickness: c.Thickness, Pith: geom.Pt(p.X-c.From, c.Thickness-(p.Y-c.Off))}
	if c.Up == 2 {
		s = s.RolledOver()
	}
	if c.Turned {
		s = s.Turned()
	}
	return s.Pith
}
