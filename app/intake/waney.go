package intake

import (
	"context"
	"image"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/wane"
	"heartside/model/say"
)

// Waney is the outline of a face whose long edges are as the tree grew.
type Waney struct {
	View    photo.View   // of the rectangle of the board, pixels
	Width   float64      // of that, mm: the greatest width of the board
	Ring    geom.Polygon // face mm
	Sure    float64      // 0 to 1
	Found   bool         // the rectangle was found by the program
	Off     float64      // how far the face measures wider than the board is said to be, as a share; negative: less wide
	Narrow  float64      // how much narrower the board looks at one end, as a share
	Vague   float64      // share of the length where an edge may lie elsewhere
	Unknown bool         // the width is by the perspective alone
}

// Engineering choices: by how much a face may measure more or less than the
// greatest width of its board, and how much narrower a board may look at one
// end, as shares, before that is told.
const (
	mostWider, mostNarrower = 0.06, 0.25
	mostTaper               = 0.10
	mostVague               = 0.05 // of the length, unsure
)

// LayWaney finds a waney face in a photograph, or traces it in the rectangle
// the maker laid about it. A width of 0 in ask is one to be measured.
func LayWaney(ctx context.Context, img image.Image, ask Ask) (*Waney, error) {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	cam := wane.CameraOf(w, h, ask.Focal35)
	var f *wane.Framed
	var err error
	if ask.Corners != nil {
		f, err = wane.Within(ctx, img, photo.View{Corners: *ask.Corners, Bow: ask.Bow}, ask.Length, 0, cam)
	} else if f, err = wane.Frame(ctx, img, ask.Length, ask.Width, cam); err != nil && ctx.Err() == nil {
		err = say.Errorf("the board cannot be found in the picture: %w; lay a rectangle about it by hand", err)
	}
	if err != nil {
		return nil, err
	}
	g, err := f.Fit(w, h, ask.Length, ask.Width)
	if err != nil {
		return nil, err
	}
	out := &Waney{View: g.View, Width: g.Width, Ring: g.Ring, Sure: f.Sure, Found: ask.Corners == nil, Narrow: f.Narrow, Unknown: ask.Width == 0}
	for _, v := range f.Vague {
		out.Vague += (v[1] - v[0]) / ask.Length
	}
	if ask.Width > 0 {
		out.Off = g.Measured/ask.Width - 1
	}
	return out, nil
}

// Doubts say what the maker should look at.
func (w *Waney) Doubts() []string {
	var out []string
	if w.Sure < SureEnough {
		out = append(out, say.T("the waney edges are hard to tell from the ground: look at the outline"))
	} else if w.Vague > mostVague {
		out = append(out, say.T("a waney edge is unsure in places: look at the outline"))
	}
	switch {
	case w.Off > mostWider:
		out = append(out, say.F("it looks %.0f %% wider than the board was measured: look at the length, the width and the corners", 100*w.Off))
	case w.Off < -mostNarrower:
		out = append(out, say.F("it looks %.0f %% less wide than the board was measured: look at the length, the width and the corners", -100*w.Off))
	}
	if w.Found && w.Unknown && w.Narrow > mostTaper {
		out = append(out, say.F("it looks %.0f %% narrower at one end, by its shape or because the picture was taken at a slant; half of it is taken for shape: measure the greatest width, or lay the rectangle about it by hand", 100*w.Narrow))
	}
	return out
}

// TraceFace traces the outline of a face whose rectangle is laid already, in mm
// of that; sure is 0 to 1.
func TraceFace(ctx context.Context, img image.Image, view photo.View, length, width float64) (ring geom.Polygon, sure float64, err error) {
	f, err := wane.Within(ctx, img, view, length, width, wane.Camera{})
	if err != nil {
		return nil, 0, err
	}
	for _, p := range f.Ring {
		ring = append(ring, geom.Pt(min(max(p.X, 0), length), min(max(p.Y, 0), width)))
	}
	return ring, f.Sure, nil
}
