package intake

import (
	"context"
	"image"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/layout/photo/split"
	"heartside/model/say"
)

// Ask is what is known of a photograph of a face before it is looked at.
type Ask struct {
	Length, Width float64        // of the board, mm; the width of a waney one may be 0: to be measured
	Corners       *[4]geom.Point // pixels; nil: to be found
	Waney         bool           // its long edges are not sawn: Corners are of a rectangle about it
	Bow           float64        // of the lens, with Corners of a waney face, which do not tell it
	Focal35       float64        // focal length as of a 35 mm film camera; 0 not known
}

// Seen is a photograph of a face taken apart.
type Seen struct {
	View       photo.View
	Confidence [4]float64 // of each corner, 0 to 1; 1 where it was given
	Whole      float64    // that these are the corners of the face at all, 0 to 1
	Residual   float64    // mm of the face, see outline.Found
	Squared    *photo.Squared
	Split      *split.Result
	Waney      *Waney // nil: the edges are sawn
}

// pxPerMM is how finely faces are squared for the split; more buys nothing.
const pxPerMM = 1

// Look finds the face in a photograph, squares it and splits it.
func Look(ctx context.Context, img image.Image, ask Ask, tell func(Step)) (*Seen, error) {
	tell(Finding)
	s, err := lay(ctx, img, ask)
	if err != nil {
		return nil, err
	}
	width := ask.Width
	if s.Waney != nil {
		width = s.Waney.Width
	}
	tell(Squaring)
	if s.Squared, err = photo.Square(ctx, img, s.View, ask.Length, width, pxPerMM); err != nil {
		return nil, err
	}
	tell(Splitting)
	wood := s.Squared
	if s.Waney != nil { // what lies beside the board is not looked at
		wood = cut(wood, ringMask(s.Waney.Ring, photo.NewMask(ask.Length, width, pxPerMM)))
	}
	f, err := split.New(ctx, wood)
	if err != nil {
		return nil, err
	}
	if s.Split, err = f.Auto(ctx); err != nil {
		return nil, err
	}
	return s, nil
}

// lay finds the corners, or the bow of the lens where the corners are given.
func lay(ctx context.Context, img image.Image, ask Ask) (*Seen, error) {
	if ask.Waney {
		w, err := LayWaney(ctx, img, ask)
		if err != nil {
			return nil, err
		}
		return &Seen{View: w.View, Confidence: [4]float64{w.Sure, w.Sure, w.Sure, w.Sure}, Whole: w.Sure, Waney: w}, nil
	}
	if ask.Corners == nil {
		f, err := outline.Find(ctx, img, ask.Length, ask.Width)
		if err != nil {
			return nil, say.Errorf("the board cannot be found in the picture: %w; give its corners by hand", err)
		}
		return &Seen{View: f.View, Confidence: f.Confidence, Whole: f.Whole, Residual: f.Residual}, nil
	}
	s := &Seen{View: photo.View{Corners: *ask.Corners}, Confidence: [4]float64{1, 1, 1, 1}, Whole: 1}
	// The maker's corners stand; the edges between them tell the lens.
	f, err := outline.Refine(ctx, img, s.View, ask.Length, ask.Width)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err == nil:
		s.View.Bow, s.Residual = f.View.Bow, f.Residual
	}
	return s, nil
}
