package ui

import (
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // pictures of boards
	_ "image/png"
	"os"
	"path/filepath"

	"golang.org/x/image/draw"

	"heartside/model/file"
)

// photoAsk chooses a picture of a face of the board in hand.
func (w *Window) photoAsk() {
	face := max(w.ses.Selected().Face, 1)
	w.choose(choosing{title: "Photograph of board " + w.board().ID, yes: "Use it", trace: "photo", kinds: []string{".jpg", ".jpeg", ".png"}, must: true,
		do: func(path string) error {
			w.post(func() { w.photoCorners(path, face) })
			return nil
		}})
}

// mostPhoto is the most pixels of a picture that is opened.
const mostPhoto = 100e6

// mostShown is the longest side of a picture as it is shown, pixels.
const mostShown = 3000

// photoCorners shows a picture and takes its four corners. face 0 asks for
// face 1.
func (w *Window) photoCorners(path string, face int) {
	b := w.board()
	w.background("Opening "+filepath.Base(path)+"…", func() func() {
		img, scale, err := openPhoto(path)
		return func() {
			if err != nil {
				w.fail("The photograph cannot be used", fmt.Errorf("%s: %w", filepath.Base(path), err))
				return
			}
			w.cornersAsk(b, max(face, 1), path, img, scale)
		}
	})
}

// openPhoto reads a picture and makes it small enough to show. scale is how
// many pixels of the picture one pixel shown has.
func openPhoto(path string) (*image.RGBA, float64, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, 0, fmt.Errorf("it cannot be read (%w); check the name and that it may be read", file.Cause(err))
	}
	defer f.Close()
	cfg, _, err := image.DecodeConfig(f)
	if err != nil {
		return nil, 0, errors.New("it is not a JPEG or PNG picture; save it as one")
	}
	if float64(cfg.Width)*float64(cfg.Height) > mostPhoto {
		return nil, 0, fmt.Errorf("%d × %d pixels are too many; make it smaller than %.0f million", cfg.Width, cfg.Height, mostPhoto/1e6)
	}
	if _, err := f.Seek(0, 0); err != nil {
		return nil, 0, err
	}
	src, _, err := image.Decode(f)
	if err != nil {
		return nil, 0, errors.New("it is damaged; copy it from the camera again")
	}
	scale := max(float64(cfg.Width)/mostShown, float64(cfg.Height)/mostShown, 1)
	out := image.NewRGBA(image.Rect(0, 0, max(int(float64(cfg.Width)/scale), 1), max(int(float64(cfg.Height)/scale), 1)))
	draw.ApproxBiLinear.Scale(out, out.Rect, src, src.Bounds(), draw.Src, nil)
	return out, float64(cfg.Width) / float64(out.Rect.Dx()), nil
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
