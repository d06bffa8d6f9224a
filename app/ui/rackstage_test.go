package ui

import (
	"context"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"

	"heartside/app/intake"
	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// reader is a reading of photographs that the test leads step by step.
type reader struct {
	steps chan intake.Step // told on by the job under way
	out   chan error       // ends it; nil: found
}

func newReader() *reader { return &reader{steps: make(chan intake.Step), out: make(chan error)} }

func (r *reader) read(ctx context.Context, j intake.Job, tell func(intake.Step)) (*intake.Reading, error) {
	for {
		select {
		case s := <-r.steps:
			tell(s)
		case err := <-r.out:
			if err != nil {
				return nil, err
			}
			return foundReading(j), nil
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
}

// foundReading is what a reading gives in these tests: a strip of sapwood 20 mm
// wide.
func foundReading(j intake.Job) *intake.Reading {
	return &intake.Reading{
		View:       photo.View{Corners: [4]geom.Point{{X: 10, Y: 90}, {X: 190, Y: 92}, {X: 191, Y: 12}, {X: 11, Y: 10}}},
		Confidence: [4]float64{1, 1, 1, 1},
		Base:       model.Heart,
		Zones:      []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: j.Length, Y: 0}, {X: j.Length, Y: 20}, {X: 0, Y: 20}}}},
		Split:      model.Split{By: model.SplitFound, Sure: 0.96},
	}
}

// atOnce reads every photograph without waiting.
func atOnce(_ context.Context, j intake.Job, _ func(intake.Step)) (*intake.Reading, error) {
	return foundReading(j), nil
}

// openReading shows a project whose photographs are read by read.
func openReading(t *testing.T, p *model.Project, text int, read intake.ReadFunc) stage {
	t.Helper()
	a := test.NewTempApp(t)
	faces, err := render.LoadFaces()
	if err != nil {
		t.Fatal(err)
	}
	look, err := loadTheme(Light, text)
	if err != nil {
		t.Fatal(err)
	}
	a.Settings().SetTheme(look)
	q := &queue{jobs: make(chan func(), 1000)}
	ses := session.New(p, session.Options{Post: q.post, Read: read})
	w := New(Parts{App: a, Session: ses, Look: look, Faces: faces, Post: q.post, Start: Start{Env: func(string) string { return "" }, Stderr: io.Discard}})
	w.surf.textures = nil
	w.win.Resize(windowSize())
	w.win.Show()
	w.win.Canvas().Focus(w.surf)
	t.Cleanup(func() { w.stop(); ses.Close() })
	return stage{w, q}
}

// stack is a project with boards of these letters.
func stack(ids ...string) *model.Project {
	p := model.NewProject()
	for _, id := range ids {
		p.Boards = append(p.Boards, model.NewBoard(id, "walnut-black", 900, 150, 25))
	}
	return p
}

// pictureFiles writes small pictures of these names and returns their paths.
func pictureFiles(t *testing.T, names ...string) []string {
	t.Helper()
	dir := t.TempDir()
	var out []string
	for _, n := range names {
		path := filepath.Join(dir, n)
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, image.NewGray(image.Rect(0, 0, 200, 100))); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		out = append(out, path)
	}
	return out
}

// drop drops files on the window.
func (s stage) drop(paths ...string) {
	var uris []fyne.URI
	for _, p := range paths {
		uris = append(uris, storage.NewFileURI(p))
	}
	s.dropped(fyne.NewPos(100, 100), uris)
}

// pressed types a named key where the keys are.
func (s stage) pressed(k fyne.KeyName) { s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }

// write types a text where the keys are.
func (s stage) write(text string) {
	for _, r := range text {
		s.win.Canvas().Focused().TypedRune(r)
	}
}
