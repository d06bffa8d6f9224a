package ui

import (
	"fmt"
	"image"
	_ "image/jpeg" // pictures of boards
	_ "image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"golang.org/x/image/draw"

	"heartside/layout/geom"
	"heartside/model"
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
		return nil, 0, err
	}
	defer f.Close()
	cfg, _, err := image.DecodeConfig(f)
	if err != nil {
		return nil, 0, fmt.Errorf("it is not a JPEG or PNG picture (%w); save it as one", err)
	}
	if float64(cfg.Width)*float64(cfg.Height) > mostPhoto {
		return nil, 0, fmt.Errorf("%d × %d pixels are too many; make it smaller than %.0f million", cfg.Width, cfg.Height, mostPhoto/1e6)
	}
	if _, err := f.Seek(0, 0); err != nil {
		return nil, 0, err
	}
	src, _, err := image.Decode(f)
	if err != nil {
		return nil, 0, fmt.Errorf("it is damaged (%w); copy it from the camera again", err)
	}
	scale := max(float64(cfg.Width)/2000, float64(cfg.Height)/2000, 1)
	out := image.NewRGBA(image.Rect(0, 0, max(int(float64(cfg.Width)/scale), 1), max(int(float64(cfg.Height)/scale), 1)))
	draw.ApproxBiLinear.Scale(out, out.Rect, src, src.Bounds(), draw.Src, nil)
	return out, float64(cfg.Width) / float64(out.Rect.Dx()), nil
}

// cornerNames are the corners of a face in the order of the file:
// anticlockwise as seen, from the lower left.
func cornerNames(face int) [4]string {
	if face == 2 {
		return [4]string{"marked end, other edge", "other end, other edge", "other end, marked edge", "marked end, marked edge"}
	}
	return [4]string{"marked end, marked edge", "other end, marked edge", "other end, other edge", "marked end, other edge"}
}

func (w *Window) cornersAsk(b *model.Board, face int, path string, img *image.RGBA, scale float64) {
	which := widget.NewRadioGroup([]string{"Face 1", "Face 2"}, nil)
	which.Horizontal = true
	which.Selected = "Face " + itoa(face)
	say := wrapped("", widget.MediumImportance)
	figures := w.newField("", "x,y, x,y, x,y, x,y in pixels of the picture")
	pic := newCornerPicker(img)
	now := func() int {
		if which.Selected == "Face 2" {
			return 2
		}
		return 1
	}
	tell := func() {
		names := cornerNames(now())
		if n := len(pic.corners); n < 4 {
			say.SetText(fmt.Sprintf("Click corner %d of 4: %s. Click near a corner set already to set it again.", n+1, names[n]))
		} else {
			say.SetText("All four corners are set. Drag one to move it.")
		}
	}
	which.OnChanged = func(string) { tell() }
	pic.changed = func() {
		var out []string
		for _, c := range pic.corners {
			out = append(out, fmt.Sprintf("%.0f,%.0f", c.X*scale, c.Y*scale))
		}
		figures.Text = strings.Join(out, ", ")
		figures.Refresh()
		tell()
	}
	tell()
	body := container.NewBorder(container.NewVBox(which, say), pairs(named("Corners"), figures), nil, nil, pic)
	w.ask(question{title: "Board " + b.ID + ": " + filepath.Base(path), yes: "Use it", size: fyne.NewSize(1000, 640), tall: true, focus: figures,
		body: container.New(roomLayout{fyne.NewSize(320, 440)}, body),
		do: func() error {
			corners, err := parseCorners(figures.Text)
			if err != nil {
				return err
			}
			f := b.Faces[now()-1]
			f.Photo, f.Corners, f.Known = w.photoName(path), corners, true
			return w.ses.Commit(model.SetFace{Board: b.ID, Face: now(), Value: f})
		}})
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

// parseCorners reads eight figures.
func parseCorners(s string) (*[4]geom.Point, error) {
	parts := strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == ' ' })
	if len(parts) != 8 {
		return nil, fmt.Errorf("corners: %d figures where there are 8, x and y of four corners; click the corners in the picture", len(parts))
	}
	var out [4]geom.Point
	for i, p := range parts {
		v, err := strconv.ParseFloat(p, 64)
		if err != nil || v != v || v < -1e6 || v > 1e6 {
			return nil, fmt.Errorf("corners: %q is no figure", p)
		}
		if i%2 == 0 {
			out[i/2].X = v
		} else {
			out[i/2].Y = v
		}
	}
	return &out, nil
}
