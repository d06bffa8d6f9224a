package ui

import (
	"io"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"heartside/app/keep"
	"heartside/app/render"
	"heartside/app/session"
	"heartside/assets"
	"heartside/layout/geom"
	"heartside/model"
)

// queue is the toolkit's goroutine of the tests: what is posted runs when the
// test drains it.
type queue struct{ jobs chan func() }

func (q *queue) post(f func()) { q.jobs <- f }

// drain runs what has been posted, and what that posts.
func (q *queue) drain() {
	for {
		select {
		case f := <-q.jobs:
			f()
		default:
			return
		}
	}
}

// wait runs posted work until ok holds.
func (q *queue) wait(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for !ok() {
		select {
		case f := <-q.jobs:
			f()
		case <-t.Context().Done():
			t.Fatalf("waited in vain for %s", what)
		}
	}
}

// stage is a window under the test driver.
type stage struct {
	*Window
	q *queue
}

// open shows a project in a window of the size a maker is sure to have.
func open(t testing.TB, p *model.Project, text int) stage {
	t.Helper()
	return openKept(t, p, text, keep.Options{})
}

// openKept is open with what is on screen kept.
func openKept(t testing.TB, p *model.Project, text int, kept keep.Options) stage {
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
	ses := session.New(p, session.Options{})
	w := New(Parts{App: a, Session: ses, Look: look, Faces: faces, Post: q.post, Start: Start{Env: func(string) string { return "" }, Stderr: io.Discard}, Keep: kept})
	w.surf.textures = nil // plain colours: no pictures are made beside the test
	w.win.Resize(windowSize())
	w.win.Show()
	w.win.Canvas().Focus(w.surf)
	t.Cleanup(func() { w.kept.end(); w.stop(); ses.Close() })
	return stage{w, q}
}

// demo shows the demo without its photographs.
func demo(t *testing.T, text int) stage {
	t.Helper()
	data, err := assets.Demo.ReadFile("demo/project.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s := open(t, session.Blank(), text)
	if err := s.ses.OpenFrom(data, "demo", nil); err != nil {
		t.Fatal(err)
	}
	s.opened()
	return s
}

// key types a named key on the surface, as the toolkit does.
func (s stage) key(k fyne.KeyName) {
	s.surf.KeyDown(&fyne.KeyEvent{Name: k})
	s.surf.TypedKey(&fyne.KeyEvent{Name: k})
	if f := s.win.Canvas().Focused(); len(k) == 1 && f != nil { // the sign goes to what has the focus by then
		f.TypedRune(unicode.ToLower(rune(k[0])))
	}
	s.surf.KeyUp(&fyne.KeyEvent{Name: k})
}

// hold types a key with Shift held.
func (s stage) shift(k fyne.KeyName) {
	s.surf.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	s.key(k)
	s.surf.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
}

func (s stage) mouse(p geom.Point, b desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(p.X), float32(p.Y))}, Button: b}
}

// press, drag and release follow the order of the real driver: the release
// comes before the end of the drag.
func (s stage) press(p geom.Point) { s.surf.MouseDown(s.mouse(p, desktop.MouseButtonPrimary)) }

func (s stage) drag(p geom.Point) {
	s.surf.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(p.X), float32(p.Y))}})
}

func (s stage) release(p geom.Point) {
	s.surf.MouseUp(s.mouse(p, desktop.MouseButtonPrimary))
	s.surf.DragEnd()
}

// steps is how many changes can be taken back.
func (s stage) steps() int { n, _ := s.ses.Depth(); return n }

// lie returns a strip of the panel on screen.
func (s stage) lie(t *testing.T, id string) model.Strip {
	t.Helper()
	return mustStrip(t, s.Window, id)
}

// take takes a strip in hand.
func (s stage) take(id string) {
	s.ses.Select(session.Selection{Panel: s.panel().ID, Strip: id, Zone: -1})
}

// windowSize is what a maker is sure to have.
func windowSize() fyne.Size { return fyne.NewSize(1280, 800) }

func mustStrip(t testing.TB, w *Window, id string) model.Strip {
	t.Helper()
	s, ok := w.panel().Strip(id)
	if !ok {
		t.Fatalf("there is no strip %s", id)
	}
	return s
}
