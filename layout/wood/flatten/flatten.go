package flatten

import (
	"fmt"
	"math"
)

// Shape is how far wood is from flat and straight. Cup and Bow are rises over
// the width and over the length, positive where face 1 is hollow (where the
// sides are not known, both positive: that is never the better case but for
// twist); Crook is the rise of an edge over the length; Twist is how far one
// corner stands off the plane of the other three.
type Shape struct{ Cup, Bow, Crook, Twist float64 }

// Board is a board with its shape over the whole of it.
type Board struct {
	Length, Width, Thickness float64
	Shape                    Shape
}

// Check refuses boards that cannot be.
func (b Board) Check() error {
	s := b.Shape
	for _, v := range []float64{b.Length, b.Width, b.Thickness, s.Cup, s.Bow, s.Crook, s.Twist} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("a board with a size or shape of %g: give numbers", v)
		}
	}
	if b.Length <= 0 || b.Width <= 0 || b.Thickness <= 0 {
		return fmt.Errorf("a board %g x %g x %g mm: every size must be above 0", b.Length, b.Width, b.Thickness)
	}
	return nil
}

// Over returns the shape of a piece of the board, length by width.
func (b Board) Over(length, width float64) Shape {
	l, w := length/b.Length, width/b.Width
	return Shape{Cup: b.Shape.Cup * w * w, Bow: b.Shape.Bow * l * l, Crook: b.Shape.Crook * l * l, Twist: b.Shape.Twist * l * w}
}

// UsualSkim is what is taken off each face at least so that no rough spot is
// left; an engineering choice.
const UsualSkim = 0.5

// Left is what is left of a blank.
type Left struct {
	Length, Width float64 // of the blank as sawn
	Shape         Shape   // the blank's own
	// Likely is the thickness left if the blank has exactly the shape told:
	// one even surface, between the two planes that waste least. Sure is what
	// is left when cup, bow and twist all count in full. Neither is below 0.
	Likely, Sure float64
	// Straight is the width left when both edges are straight.
	Straight float64
	Working  []Step
}

// Of returns what is left of a blank, length by width, with skim taken off
// each face at least.
func Of(b Board, length, width, skim float64) (*Left, error) {
	if err := b.Check(); err != nil {
		return nil, err
	}
	if !(length > 0 && width > 0) || length > b.Length || width > b.Width {
		return nil, fmt.Errorf("a blank of %g x %g mm from a board of %g x %g mm: it does not fit", length, width, b.Length, b.Width)
	}
	if !(skim >= 0) || math.IsInf(skim, 0) {
		return nil, fmt.Errorf("%g mm off each face: want 0 or more", skim)
	}
	s := b.Over(length, width)
	likely, sure := s.Depth(), math.Abs(s.Cup)+math.Abs(s.Bow)+math.Abs(s.Twist)
	l := &Left{Length: length, Width: width, Shape: s,
		Likely:   math.Max(0, b.Thickness-likely-2*skim),
		Sure:     math.Max(0, b.Thickness-sure-2*skim),
		Straight: math.Max(0, width-math.Abs(s.Crook)),
	}
	l.Working = []Step{{
		Formula: "cup' = cup (w/W)^2, bow' = bow (l/L)^2, crook' = crook (l/L)^2, twist' = twist (l/L)(w/W)",
		Values: []Value{{Name: "board length L", Number: b.Length, Unit: mm}, {Name: "board width W", Number: b.Width, Unit: mm}, {Name: "blank length l", Number: length, Unit: mm}, {Name: "blank width w", Number: width, Unit: mm},
			{Name: "cup'", Number: s.Cup, Unit: mm}, {Name: "bow'", Number: s.Bow, Unit: mm}, {Name: "crook'", Number: s.Crook, Unit: mm}, {Name: "twist'", Number: s.Twist, Unit: mm}},
		Source: "Parabolas and a saddle, the shape taken as even over the board", Flag: "C",
	}, {
		Formula: "sure = thickness - |cup'| - |bow'| - |twist'| - 2 skim; likely = thickness - (highest - lowest of bow' u^2 + cup' v^2 + twist' u v / 4, u and v from -1 to 1) - 2 skim; straight = width - |crook'|",
		Values: []Value{{Name: "board thickness", Number: b.Thickness, Unit: mm}, {Name: "surface, highest to lowest", Number: likely, Unit: mm},
			{Name: "sure thickness", Number: l.Sure, Unit: mm}, {Name: "likely thickness", Number: l.Likely, Unit: mm}, {Name: "straight width", Number: l.Straight, Unit: mm}},
		Source: "Best plane through an even surface (symmetric about its middle, so the best plane is level)", Flag: "C",
	}, {
		Formula: "skim off each face at least",
		Values:  []Value{{Name: "skim", Number: skim, Unit: mm}},
		Source:  "Chosen for this program, yours to change", Flag: "E",
	}}
	return l, nil
}

// Depth returns the least distance between two parallel planes that hold the
// surface bow u^2 + cup v^2 + twist u v/4 (u along, v across, each -1 to 1)
// between them. A surface that is the same after a half turn lies best between
// level planes: of any two that lean, their mean with the half-turned pair is
// level and no farther apart. So it is the highest less the lowest point, and
// those lie in the middle, at a corner, or where the slope along an edge ends.
func (s Shape) Depth() float64 {
	a, b, c := s.Bow, s.Cup, math.Abs(s.Twist)/4
	lo, hi := 0.0, 0.0
	at := func(u, v float64) {
		z := a*u*u + b*v*v + c*u*v
		lo, hi = math.Min(lo, z), math.Max(hi, z)
	}
	at(1, 1)
	at(1, -1)
	if 2*math.Abs(b) > c {
		at(1, -c/(2*b))
	}
	if 2*math.Abs(a) > c {
		at(-c/(2*a), 1)
	}
	return hi - lo
}
