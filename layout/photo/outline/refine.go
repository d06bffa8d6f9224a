package outline

import (
	"context"
	"fmt"
	"image"
	"math"

	"heartside/layout/photo"
)

// Reach is how far Refine moves a corner at most, in parts of the picture's
// longer side.
const Reach = 0.015

// Refine lays the sides of a board on the edges of the picture that are near
// corners given roughly, and finds the bow anew. No corner moves farther than
// Reach: where no board is within that, the view comes back as it was, with
// no confidence. length and width are those of the board, mm.
func Refine(ctx context.Context, img image.Image, view photo.View, length, width float64) (*Found, error) {
	if err := check(img, length, width); err != nil {
		return nil, err
	}
	if _, _, err := view.FromFace(img.Bounds().Dx(), img.Bounds().Dy(), length, width); err != nil {
		return nil, fmt.Errorf("laying the corners on the board: %w", err)
	}
	src := sourceOf(img)
	base, err := planeOf(ctx, &src, baseLong)
	if err != nil {
		return nil, err
	}
	s := &seeker{src: &src, base: base, length: length, width: width}
	most := Reach * float64(max(src.w, src.h))
	lens := s.lens(view.Bow)
	rough := view.Corners
	for i := range rough {
		rough[i] = lens.Straight(rough[i])
	}
	reach := int(math.Ceil(most / base.factor))
	boards := s.variants(scaled{base}, rough, view.Bow, base.factor, reach, wideWindow, fineSpread)
	for i := range boards {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		boards[i] = s.bowed(scaled{base}, boards[i], base.factor, 3, wideWindow)
	}
	var within []candidate
	boards, err = s.choose(ctx, best(boards, mostFine, base.factor))
	if err != nil {
		return nil, err
	}
	for _, c := range boards {
		l := s.lens(c.bow)
		ok := true
		for i := range c.c {
			ok = ok && l.Bowed(c.c[i]).Dist(view.Corners[i]) <= most
		}
		if ok {
			within = append(within, c)
		}
	}
	if len(within) == 0 {
		return &Found{View: view}, nil
	}
	return s.found(within[0], within), nil
}
