package face

import "heartside/layout/geom"

// holdBy is how far a threshold must be passed while a strip is dragged for a
// warning to come or go. An engineering choice with no published source.
const holdBy = 0.10

// state is a warning that stood after the last reading.
type state struct {
	kind  WarningKind
	side  Side
	place geom.Rect // of the show face, for either side
}

// tight returns the factor by which what is found is held against the
// thresholds of a warning: 1, but during a drag more than that where the
// warning did not stand at that place before, and less where it did.
func (r *Reader) tight(kind WarningKind, side Side, place geom.Rect) float64 {
	if !r.holding || !r.primed {
		return 1
	}
	for i := range r.states {
		s := &r.states[i]
		if s.kind == kind && s.side == side && !s.place.Intersect(place).Empty() {
			return 1 - holdBy
		}
	}
	return 1 + holdBy
}
