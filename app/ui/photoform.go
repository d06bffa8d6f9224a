package ui

import (
	"context"
	"fmt"
	"image"
	"path/filepath"

	"heartside/app/picture"
	"heartside/model/say"
)

// photoAsk chooses a picture of a face of the board in hand.
func (w *Window) photoAsk() {
	face := max(w.ses.Selected().Face, 1)
	w.choose(choosing{title: say.F("Photograph of board %s", w.board().ID), yes: say.T("Use it"), trace: "photo", kinds: photoKinds(), must: true,
		do: func(path string) error {
			w.post(func() { w.photoCorners(path, face) })
			return nil
		}})
}

// mostShown is the longest side of a picture as it is shown, pixels.
const mostShown = 3000

// photoCorners shows a picture and takes its four corners. face 0 asks for
// face 1.
func (w *Window) photoCorners(path string, face int) {
	b := w.board()
	w.background(say.F("Opening %s…", filepath.Base(path)), func() func() {
		img, scale, err := openPhoto(w.work, path)
		return func() {
			if err != nil {
				w.fail(say.T("The photograph cannot be used"), fmt.Errorf("%s: %w", filepath.Base(path), err))
				return
			}
			w.cornersAsk(b, max(face, 1), path, img, scale)
		}
	})
}

// openPhoto reads a picture, upright and small enough to show. scale is how
// many pixels of the picture one pixel shown has.
func openPhoto(ctx context.Context, path string) (*image.RGBA, float64, error) {
	img, wide, err := openReduced(ctx, path, mostShown)
	if err != nil {
		return nil, 0, err
	}
	return img, float64(wide) / float64(img.Rect.Dx()), nil
}

// openReduced reads a picture, upright, with at most so many pixels along its
// longer side, and tells how wide it is itself.
func openReduced(ctx context.Context, path string, longest int) (*image.RGBA, int, error) {
	f, err := picture.Open(path)
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	img, info, err := picture.DecodeReduced(ctx, f, longest, picture.Limits{})
	return img, info.Width, err
}

// photoName is how the project knows a picture: from the project's folder
// where it has one.
func (w *Window) photoName(path string) string {
	if p := w.ses.Path(); p != "" {
		if rel, err := filepath.Rel(filepath.Dir(p), path); err == nil {
			return filepath.ToSlash(rel)
		}
	}
	return filepath.ToSlash(path)
}
