package ui

import (
	"context"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/layout/photo/split"
	"heartside/model"
)

// fakeEditor notes what reaches it. Its face is heartwood with sapwood over the
// lower third; each act paints one more column from the left.
type fakeEditor struct {
	states []*photo.Mask
	at     int
	calls  []fakeCall
	far    float64 // told of a stroke
	doubt  float64 // share of the face that had better be called not sure
	marked *photo.Mask
	doubts []split.Reason
	fails  error // of the next act
}

type fakeCall struct {
	act    string
	kind   photo.Label
	points []geom.Point
	size   float64
}

func newFakeEditor(length, width float64) *fakeEditor {
	m := photo.NewMask(length, width, 1)
	for k := range m.Pix {
		m.Pix[k] = photo.Heart
		if k/m.W >= m.H*2/3 {
			m.Pix[k] = photo.Sap
		}
	}
	return &fakeEditor{states: []*photo.Mask{m}}
}

func (e *fakeEditor) push(c fakeCall) error {
	e.calls = append(e.calls, c)
	if err := e.fails; err != nil {
		e.fails = nil
		return err
	}
	m := *e.Mask()
	m.Pix = slices.Clone(m.Pix)
	for j := range m.H {
		m.Pix[j*m.W+e.at] = photo.Sap
	}
	e.states = append(e.states[:e.at+1], &m)
	e.at++
	return nil
}

func (e *fakeEditor) Mask() *photo.Mask { return e.states[e.at] }
func (e *fakeEditor) Result() *split.Result {
	r := &split.Result{Mask: e.states[0], Confidence: 0.9, Doubts: e.doubts}
	if e.doubt > 0 {
		m := e.states[0]
		r.Suggest = []geom.Rect{geom.R(0, 0, e.doubt*m.Length, m.Width)}
	}
	return r
}
func (e *fakeEditor) Changed() intake.Change { return intake.Change{Share: 0.1, Far: e.far} }
func (e *fakeEditor) Touched() bool          { return e.at > 0 }
func (e *fakeEditor) CanRedo() bool          { return e.at+1 < len(e.states) }
func (e *fakeEditor) UndoLabel() string      { return "act" }
func (e *fakeEditor) Undo() bool {
	e.calls = append(e.calls, fakeCall{act: "undo"})
	e.at = max(e.at-1, 0)
	return true
}
func (e *fakeEditor) Redo() bool {
	e.calls = append(e.calls, fakeCall{act: "redo"})
	e.at = min(e.at+1, len(e.states)-1)
	return true
}
func (e *fakeEditor) Stroke(_ context.Context, k photo.Label, p []geom.Point, w float64) error {
	return e.push(fakeCall{"stroke", k, p, w})
}
func (e *fakeEditor) NearOnly() bool {
	e.far = 0
	return e.push(fakeCall{act: "near"}) == nil
}
func (e *fakeEditor) Brush(k photo.Label, p []geom.Point, w float64) error {
	return e.push(fakeCall{"brush", k, p, w})
}
func (e *fakeEditor) Fill(k photo.Label, r geom.Polygon) error {
	return e.push(fakeCall{"fill", k, r, 0})
}
func (e *fakeEditor) Straight(a, b geom.Point, r float64) error {
	return e.push(fakeCall{"straight", 0, []geom.Point{a, b}, r})
}
func (e *fakeEditor) Smooth(mm float64) error { return e.push(fakeCall{act: "smooth", size: mm}) }
func (e *fakeEditor) All(k photo.Label) error { return e.push(fakeCall{act: "all", kind: k}) }
func (e *fakeEditor) Suggested() float64 {
	if e.Mask() != e.marked {
		return e.doubt
	}
	return 0
}
func (e *fakeEditor) TakeSuggested() error {
	err := e.push(fakeCall{act: "suggested"})
	e.marked = e.Mask()
	return err
}
func (e *fakeEditor) Afresh(context.Context) error {
	return e.push(fakeCall{act: "afresh"})
}

// Outline makes what lies beyond the ring no wood.
func (e *fakeEditor) Outline(_ context.Context, ring geom.Polygon) error {
	if err := e.push(fakeCall{act: "outline", points: ring}); err != nil {
		return err
	}
	m := e.Mask()
	e.states[e.at] = fitted(m, ring)
	return nil
}
func (e *fakeEditor) Ring() (geom.Polygon, bool, error) {
	ring, err := intake.OutlineOf(e.Mask())
	return ring, false, err
}

// faceStage is a window with the page of a face of a board of 300 x 60 mm,
// which lies in a picture of 400 x 300 pixels, one pixel a mm, its lower left
// corner at (50, 200).
type faceStage struct {
	stage
	p     *facePage
	ed    *fakeEditor
	setUp func(*fakeEditor) // nil: as it is
}

func boardCorners() [4]geom.Point {
	return [4]geom.Point{{X: 50, Y: 200}, {X: 350, Y: 200}, {X: 350, Y: 140}, {X: 50, Y: 140}}
}

func boardPicture(wide, high int, at image.Rectangle) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	draw.Draw(img, img.Rect, image.NewUniform(color.Gray{Y: 40}), image.Point{}, draw.Src)
	draw.Draw(img, at, image.NewUniform(color.RGBA{R: 200, G: 160, B: 110, A: 255}), image.Point{}, draw.Src)
	return img
}

func faceProject() *model.Project {
	p := model.NewProject()
	b := model.NewBoard("A", "walnut-black", 300, 60, 25)
	c := boardCorners()
	b.Faces[0] = model.Face{Photo: "a1.png", Corners: &c, Known: true, Base: model.Heart, Split: &model.Split{By: model.SplitFound, Sure: 0.8}}
	b.Faces[1] = model.Face{Photo: "a2.png", Corners: &c, Known: true, Base: model.Heart, Split: &model.Split{By: model.SplitFound, Sure: 0.4}}
	p.Boards = []*model.Board{b}
	return p
}

func faceAt(t *testing.T, img image.Image, text int) *faceStage {
	t.Helper()
	s := &faceStage{stage: open(t, faceProject(), text)}
	s.show(t, img)
	return s
}

// faceOf is faceAt with an editor made as setUp wants it.
func faceOf(t *testing.T, setUp func(*fakeEditor)) *faceStage {
	t.Helper()
	s := &faceStage{stage: open(t, faceProject(), 100), setUp: setUp}
	s.show(t, smallBoard())
	return s
}

func (s *faceStage) show(t *testing.T, img image.Image) {
	t.Helper()
	means := faceMeans{
		open: func(context.Context, string) (image.Image, error) { return img, nil },
		find: func(context.Context, image.Image, float64, float64) (*outline.Found, error) {
			return nil, errors.New("nothing with four sides")
		},
		refine: func(_ context.Context, _ image.Image, v photo.View, _, _ float64) (*outline.Found, error) {
			v.Corners[0].X++
			return &outline.Found{View: v, Confidence: [4]float64{0.9, 0.9, 0.9, 0.2}, Residual: 0.3}, nil
		},
		editor: func(_ context.Context, sq *photo.Squared, m *photo.Mask, ring geom.Polygon) (faceEditor, error) {
			s.ed = newFakeEditor(sq.Length, sq.Width)
			if ring != nil {
				s.ed.states[0] = fitted(s.ed.states[0], ring)
			}
			if m != nil {
				s.ed.states[0] = m
			}
			if s.setUp != nil {
				s.setUp(s.ed)
			}
			return s.ed, nil
		},
	}
	s.p = s.showFace("A", 1, means)
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	s.p.zones.canvas.Resize(fyne.NewSize(900, 500))
}

// acts waits until all acts are done.
func (s *faceStage) acts(t *testing.T) {
	t.Helper()
	s.q.wait(t, "the acts", func() bool { return !s.p.zones.work.busy() })
	s.q.drain()
}

// at is the view put so that a mm is so many units and the middle of the
// widget's room is the middle of the board.
func (s *faceStage) at(scale float64) (middle geom.Point) {
	v := &s.p.zones.canvas.view
	v.scale, v.at = scale, geom.Pt(150, 30)
	return v.room.Centre()
}

func (s *faceStage) strokeBy(list ...geom.Point) {
	c := s.p.zones.canvas
	c.MouseDown(s.mouse(list[0], desktop.MouseButtonPrimary))
	for _, p := range list[1:] {
		c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: position(p)}})
	}
	c.MouseUp(s.mouse(list[len(list)-1], desktop.MouseButtonPrimary))
	c.DragEnd()
}

// type sends keys to the page as the toolkit does.
func (s *faceStage) types(keys string) {
	for _, r := range keys {
		s.win.Canvas().Focused().TypedRune(r)
	}
}

func (s *faceStage) press(k fyne.KeyName) {
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
}
