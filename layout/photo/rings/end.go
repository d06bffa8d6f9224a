package rings

import (
	"context"
	"fmt"
	"image"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// End is the end of a board, true to scale: cell (i, j) covers across from
// i*Step and depth from j*Step. It is not changed once made.
type End struct {
	Width, Thickness float64 // mm
	Step             float64 // mm, near enough along both; whole cells may make it slightly other
	NX, NY           int
	Lab              []colour.Lab // row j, column i at j*NX + i
}

// DefaultScale is the scale at which rings a millimetre apart still show, in
// pixels a mm. An engineering choice.
const DefaultScale = 4.0

// Square takes the end of a board out of a photograph. The corners of the
// section are pixels, in this order: other edge on the face-1 side, marked
// edge on the face-1 side, marked edge on the face-2 side, other edge on the
// face-2 side. Either end may be given, as a camera sees it or as seen through
// the board: the order round the section tells which.
func Square(ctx context.Context, src image.Image, corners [4]geom.Point, bow, width, thickness, pxPerMM float64) (*End, error) {
	c := corners
	view := photo.View{Corners: [4]geom.Point{c[3], c[2], c[1], c[0]}, Bow: bow}
	mirrored := true // the marked edge lies on the right of the squared picture
	if geom.Polygon(c[:]).SignedArea() < 0 {
		view.Corners, mirrored = [4]geom.Point{c[2], c[3], c[0], c[1]}, false
	}
	s, err := photo.Square(ctx, src, view, width, thickness, pxPerMM)
	if err != nil {
		return nil, fmt.Errorf("the end of the board: %w", err)
	}
	e := &End{Width: width, Thickness: thickness, Step: 1 / pxPerMM, NX: s.Pix.Rect.Dx(), NY: s.Pix.Rect.Dy()}
	e.Lab = make([]colour.Lab, e.NX*e.NY)
	for j := range e.NY {
		for i := range e.NX {
			from := i
			if mirrored {
				from = e.NX - 1 - i
			}
			e.Lab[j*e.NX+i] = colour.FromRGBA(s.Pix.RGBAAt(from, j))
		}
	}
	return e, nil
}

// place returns the middle of a cell, mm.
func (e *End) place(i, j int) geom.Point {
	return geom.Pt((float64(i)+0.5)*e.Width/float64(e.NX), (float64(j)+0.5)*e.Thickness/float64(e.NY))
}

// check says what is wrong with an end made by hand.
func (e *End) check() error {
	if e == nil || e.NX < 8 || e.NY < 8 || len(e.Lab) != e.NX*e.NY || !(e.Width > 0) || !(e.Thickness > 0) || !(e.Step > 0) {
		return fmt.Errorf("the end of the board: too small a picture to read rings from")
	}
	return nil
}
