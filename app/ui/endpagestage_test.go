package ui

import (
	"context"
	"errors"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/layout/photo/rings"
	"heartside/model"
)

// endStage is a window with the page of an end of a board of 800 x 200 x 40
// mm. Its section lies in a picture of 400 x 300 pixels, one pixel a mm, upper
// left corner at (100, 120). What is read is what the test says.
type endStage struct {
	stage
	p    *endPage
	asks []endAsk
	said endAnswer
}

// seenCorners are the corners of the section as outline gives them: lower
// left, lower right, upper right, upper left.
func seenCorners() [4]geom.Point {
	return [4]geom.Point{{X: 100, Y: 160}, {X: 300, Y: 160}, {X: 300, Y: 120}, {X: 100, Y: 120}}
}

func endProject() *model.Project {
	p := model.NewProject()
	b := model.NewBoard("A", "walnut-black", 800, 200, 40)
	b.Ends = [2]model.End{{Photo: "a.png"}, {Photo: "b.png"}}
	p.Boards = []*model.Board{b}
	return p
}

func endAt(t *testing.T, project *model.Project, end int) *endStage {
	t.Helper()
	s := &endStage{stage: open(t, project, 100)}
	s.said = endAnswer{pith: &rings.Pith{At: geom.Pt(50, 60), Error: 3, Found: true, Sure: 0.9}, heart: &rings.Heart{Seen: true, Radius: 90, Least: 85, Most: 95, Error: 6}}
	s.show(t, end)
	return s
}

func (s *endStage) show(t *testing.T, end int) {
	t.Helper()
	img := boardPicture(400, 300, image.Rect(100, 120, 300, 160))
	means := endMeans{
		open: func(context.Context, string) (image.Image, error) { return img, nil },
		find: func(_ context.Context, _ image.Image, length, width float64) (*outline.Found, error) {
			if length != 200 || width != 40 {
				return nil, errors.New("the section is 200 x 40")
			}
			return &outline.Found{View: photo.View{Corners: seenCorners()}, Confidence: [4]float64{0.9, 0.8, 0.7, 0.3}, Residual: 0.4}, nil
		},
		read: func(_ context.Context, _ image.Image, a endAsk) (endAnswer, error) { return s.said, nil },
	}
	read := means.read
	means.read = func(ctx context.Context, img image.Image, a endAsk) (endAnswer, error) {
		got, err := read(ctx, img, a)
		s.post(func() { s.asks = append(s.asks, a) })
		return got, err
	}
	s.p = s.showEnd("A", end, means)
	s.p.pic.Resize(fyne.NewSize(800, 600)) // two units a pixel where all of it shows
	s.q.wait(t, "the corners", func() bool { return len(s.p.now.lie.at) == 4 && s.p.making == "" })
}

// rest waits until nothing is read.
func (s *endStage) rest(t *testing.T) {
	t.Helper()
	s.q.wait(t, "the reading", func() bool { return !s.p.reading })
	s.q.drain()
}

// clickAt clicks on a pixel of the picture.
func (s *endStage) clickAt(px geom.Point) {
	c := s.p.pic
	at := c.view.toRoom(px)
	c.MouseDown(s.mouse(at, desktop.MouseButtonPrimary))
	c.MouseUp(s.mouse(at, desktop.MouseButtonPrimary))
}

func (s *endStage) types(keys string) {
	for _, r := range keys {
		s.win.Canvas().Focused().TypedRune(r)
	}
}

func (s *endStage) pressed(k fyne.KeyName) {
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
}

func (s *endStage) line() string { return s.Window.said }
