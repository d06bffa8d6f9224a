package ui

import (
	"fmt"
	"image"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// cornerForm is the dialog that takes the four corners of a face in a picture.
type cornerForm struct {
	w       *Window
	board   *model.Board
	path    string
	face    *pick
	say     *widget.Label
	figures *field
	pic     *cornerPicker
	scale   float64 // pixels of the picture to one shown
	writing bool    // the figures follow the picture just now
}

func faceNumbers() []int { return []int{1, 2} }

func (w *Window) cornersAsk(b *model.Board, face int, path string, img *image.RGBA, scale float64) {
	f := newCornerForm(w, b, face, path, img, scale)
	over := widget.NewButton(say.T("Start over"), f.pic.startOver)
	top := container.NewBorder(nil, nil, f.face, over, f.say)
	if w.large() {
		top = container.NewVBox(container.NewHBox(f.face, layout.NewSpacer(), over), f.say)
	}
	foot := container.NewVBox(pairs(named(say.T("Corners")), f.figures),
		wrapped(say.T("Wheel: zoom at the pointer. Right button: move the picture. Keys in the picture: 1 to 4 takes a corner, arrows move it, + and - zoom, 0 shows all."), widget.LowImportance))
	w.ask(question{title: say.F("Board %s: %s", b.ID, filepath.Base(path)), yes: say.T("Use it"), size: fyne.NewSize(1100, 720), tall: true, focus: f.pic,
		body: container.New(roomLayout{fyne.NewSize(320, 440)}, container.NewBorder(top, foot, nil, nil, f.pic)), do: f.keep})
}

func newCornerForm(w *Window, b *model.Board, face int, path string, img *image.RGBA, scale float64) *cornerForm {
	f := &cornerForm{w: w, board: b, path: path, scale: scale}
	f.face = choice(w, faceNumbers(), func(n int) string { return say.F("Face %s", itoa(n)) }, face)
	f.face.changed = f.tell
	f.say = wrapped("", widget.MediumImportance)
	f.figures = w.newField("", say.T("x,y, x,y, x,y, x,y in pixels of the picture"))
	f.pic = newCornerPicker(w, img)
	f.pic.changed = f.write
	f.figures.follow(f.read)
	f.tell()
	return f
}

// write brings the figures in step with the picture.
func (f *cornerForm) write() {
	var out []string
	for _, c := range f.pic.corners {
		out = append(out, fmt.Sprintf("%.0f,%.0f", c.X*f.scale, c.Y*f.scale))
	}
	f.writing = true
	f.figures.SetText(strings.Join(out, ", "))
	f.writing = false
	f.tell()
}

// read brings the picture in step with the figures, as far as they go.
func (f *cornerForm) read() {
	if f.writing {
		return
	}
	var list []geom.Point
	figures, _ := cornerFigures(f.figures.Text)
	for i := 0; i+1 < len(figures) && i < 8; i += 2 {
		list = append(list, geom.Pt(figures[i], figures[i+1]).Mul(1/f.scale))
	}
	f.pic.put(list)
	f.tell()
}

// tell says what to click next.
func (f *cornerForm) tell() {
	f.pic.names = cornerNames(chosen(f.face, faceNumbers()))
	f.pic.Refresh()
	if n := len(f.pic.corners); n < 4 {
		f.say.SetText(say.F("Click corner %d of 4: %s.", n+1, f.pic.names[n]))
		return
	}
	f.say.SetText(say.T("All four corners are set. Drag one to move it; zoom in for the last millimetre."))
}

func (f *cornerForm) keep() error {
	n := chosen(f.face, faceNumbers())
	corners, err := parseCorners(f.figures.Text, cornerNames(n))
	if err != nil {
		return err
	}
	face := f.board.Faces[n-1]
	face.Photo, face.Corners, face.Known = f.w.photoName(f.path), corners, true
	return f.w.ses.Commit(model.SetFace{Board: f.board.ID, Face: n, Value: face})
}

// cornerNames are the corners of a face in the order of the file:
// anticlockwise as seen, from the lower left.
func cornerNames(face int) [4]string {
	if face == 2 {
		return [4]string{say.T("marked end, other edge"), say.T("other end, other edge"), say.T("other end, marked edge"), say.T("marked end, marked edge")}
	}
	return [4]string{say.T("marked end, marked edge"), say.T("other end, marked edge"), say.T("other end, other edge"), say.T("marked end, other edge")}
}

// cornerFigures reads figures apart from one another by blanks or commas, up
// to the first that is none; the rest is what stands there.
func cornerFigures(s string) (out []float64, rest string) {
	for _, p := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == ' ' }) {
		v, err := strconv.ParseFloat(p, 64)
		if err != nil || v != v || v < -1e6 || v > 1e6 {
			return out, p
		}
		out = append(out, v)
	}
	return out, ""
}

// parseCorners reads the eight figures of four corners of these names.
func parseCorners(s string, names [4]string) (*[4]geom.Point, error) {
	figures, rest := cornerFigures(s)
	switch {
	case rest != "":
		return nil, say.Errorf("corners: “%s” is no figure; write x and y of each corner, or click the corners in the picture", rest)
	case len(figures) < 8:
		i := len(figures) / 2
		return nil, say.Errorf("corners: %d of 4 set; click corner %d next: %s", i, i+1, names[i])
	case len(figures) > 8:
		return nil, say.Errorf("corners: %d figures where there are 8, x and y of four corners", len(figures))
	}
	var out [4]geom.Point
	for i := range out {
		out[i] = geom.Pt(figures[2*i], figures[2*i+1])
	}
	// The picture's y runs down: anticlockwise as seen is the other sense there.
	for i := range out {
		a, b := out[(i+1)%4].Sub(out[i]), out[(i+2)%4].Sub(out[(i+1)%4])
		if a.X*b.Y-a.Y*b.X >= 0 {
			return nil, say.Errorf("corners: they do not go round the face in the order wanted; begin at the corner of %s, then %s, %s, %s", names[0], names[1], names[2], names[3])
		}
	}
	return &out, nil
}
