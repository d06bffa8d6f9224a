package wood

import (
	"fmt"
	"math"
)

// Span is a stretch across a face, mm.
type Span struct{ From, To float64 }

// Station is what one line across a face shows, in the face's own y. What no
// span covers is not known.
type Station struct {
	X                float64 // mm from the marked end
	Heart, Sap, Flaw []Span  // mm, any order, apart from each other
}

// Face is one face of a board at stations along it, x rising.
type Face []Station

// Faces are the two faces of a board. A face without stations was not seen.
type Faces struct {
	Length, Width, Thickness float64 // mm
	Side                     [2]Face // face 1 and face 2, each in its own coordinates
}

// Check says what is wrong with a description.
func (f Faces) Check() error {
	for _, v := range []struct {
		name string
		v    float64
	}{{"length", f.Length}, {"width", f.Width}, {"thickness", f.Thickness}} {
		if !(v.v > 0) || v.v > 1e6 {
			return fmt.Errorf("reading the log: the board's %s is %g mm, want more than 0", v.name, v.v)
		}
	}
	for i, side := range f.Side {
		last := math.Inf(-1)
		for _, s := range side {
			if math.IsNaN(s.X) || math.IsInf(s.X, 0) || s.X <= last {
				return fmt.Errorf("reading the log: face %d: station at %g mm: stations rise along x", i+1, s.X)
			}
			last = s.X
			for _, spans := range [][]Span{s.Heart, s.Sap, s.Flaw} {
				for _, p := range spans {
					if !(p.From >= -1e6) || !(p.To <= 1e6) || p.To < p.From {
						return fmt.Errorf("reading the log: face %d at %g mm: a span from %g to %g", i+1, s.X, p.From, p.To)
					}
				}
			}
		}
	}
	return nil
}

// Variant is a way to lay the second photograph, of four.
type Variant uint8

// The second face as it was given, or changed so.
const (
	AsGiven      Variant = iota
	EndsSwapped          // x reversed: a mirror image
	EdgesSwapped         // y reversed: a mirror image, end for end
	Both                 // both reversed: the board was rolled end over end
)

// Turn returns a face of a board length x width mm laid another way.
func (f Face) Turn(v Variant, length, width float64) Face {
	flip := func(in []Span) []Span {
		out := append([]Span(nil), in...)
		if v == EdgesSwapped || v == Both {
			for i, s := range in {
				out[len(in)-1-i] = Span{width - s.To, width - s.From}
			}
		}
		return out
	}
	out := make(Face, len(f))
	for i, s := range f {
		at, x := i, s.X
		if v == EndsSwapped || v == Both {
			at, x = len(f)-1-i, length-s.X
		}
		out[at] = Station{X: x, Heart: flip(s.Heart), Sap: flip(s.Sap), Flaw: flip(s.Flaw)}
	}
	return out
}
