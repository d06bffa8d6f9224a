package wane

import (
	"errors"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Fitted is a waney face as a board has it: in a rectangle of the board's
// length and its greatest width.
type Fitted struct {
	View     photo.View   // the rectangle's corners, pixels
	Width    float64      // of the rectangle, mm
	Ring     geom.Polygon // mm of the rectangle, none of it beyond
	Measured float64      // how wide the board looks at its widest, mm, by the perspective
}

// fullFace is how wide a face must look at least, as a share of the board's
// greatest width, to be the face that was measured; the other one of a board is
// narrower by the slope of its edges. An engineering choice.
const fullFace = 0.97

// Fit lays the rectangle of a board about an outline, in the middle across.
// width is the greatest width of the board, mm, as the maker measured it, by
// which what the perspective says is set right; 0: as the perspective has it,
// in whole mm. wide x high pixels are those of the picture.
func (f *Framed) Fit(wide, high int, length, width float64) (*Fitted, error) {
	m, lens, err := f.View.FromFace(wide, high, length, f.Width)
	if err != nil {
		return nil, err
	}
	low, top := Widest(f.Ring)
	out := &Fitted{View: photo.View{Bow: f.View.Bow}, Width: width, Measured: top - low}
	if !(out.Measured > 0) || math.IsInf(out.Measured, 0) {
		return nil, errors.New("fitting a waney board: it has no outline; trace it, or draw it by hand")
	}
	k := 1.0
	switch {
	case !(width > 0):
		out.Width = math.Ceil(out.Measured)
	case out.Measured > fullFace*width:
		k = width / out.Measured
	}
	mid, half := (low+top)/2, out.Width/2
	for i, c := range geom.R(0, mid-half/k, length, mid+half/k).Polygon() {
		out.View.Corners[i] = lens.Bowed(m.Apply(c))
	}
	for _, p := range f.Ring {
		out.Ring = append(out.Ring, geom.Pt(math.Min(math.Max(p.X, 0), length), math.Min(math.Max((p.Y-mid)*k+half, 0), out.Width)))
	}
	return out, nil
}
