package ui

import (
	"fmt"
	"hash/fnv"
	"io"
	"runtime"
	"time"

	"fyne.io/fyne/v2"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/file"
)

// tracer tells on a stream what a script that drives the real window cannot
// see: where things are, in pixels of the window, and what is read. It is off
// unless HEARTSIDE_TRACE is set; nothing else depends on it.
type tracer struct {
	out    io.Writer // nil: off
	last   map[string]string
	loads  bool // tell what is held
	marked *model.Project
	of     string // its mark
}

func newTracer(st Start) *tracer {
	t := &tracer{last: map[string]string{}}
	if st.Env == nil {
		return t
	}
	if v := st.Env("HEARTSIDE_TRACE"); v != "" {
		t.out, t.loads = st.Stderr, v == "load"
	}
	return t
}

func (t *tracer) line(format string, args ...any) {
	if t != nil && t.out != nil {
		fmt.Fprintf(t.out, "trace: "+format+"\n", args...)
	}
}

func (t *tracer) ready()             { t.line("ready") }
func (t *tracer) asking(what string) { t.line("asks %s", what) }
func (t *tracer) saved(path string)  { t.line("saved %s", path) }
func (t *tracer) kept(path string, err error) {
	if err != nil {
		t.line("not kept: %v", err)
		return
	}
	t.line("kept %s", path)
}
func (t *tracer) wrote(path string) { t.line("exported %s", path) }

// page tells which page shows.
func (t *tracer) page(p page) {
	switch p.(type) {
	case nil:
		t.line("page panels")
	case *facePage:
		t.line("page face")
	case *arrangePage:
		t.line("page arrange")
	case *matchPage:
		t.line("page match")
	default:
		t.line("page other")
	}
}

// state tells what is read of the panel on screen.
func (t *tracer) state(w *Window) {
	if t == nil || t.out == nil {
		return
	}
	t.faces(w)
	id := w.ses.Selected().Panel
	r := w.ses.Reading(id)
	lone, light := 0, 0.0
	if r != nil { // else there is no panel, or it is of nothing yet
		light = r.Show.Light.Value
		for _, x := range r.Warnings {
			if x.Kind == face.LoneStreak {
				lone++
			}
		}
	}
	undo, redo := w.ses.Depth()
	t.line("state panel=%s light=%.4f lone=%d undo=%d redo=%d dirty=%v preview=%v mark=%s",
		id, light, lone, undo, redo, w.ses.Dirty(), w.ses.Previewing(), t.mark(w.ses.Committed()))
}

// mark is short for all that a project holds, but for what was printed: that is
// no change of the work.
func (t *tracer) mark(p *model.Project) string {
	if p != t.marked {
		q := *p
		q.Printed = nil
		h := fnv.New32a()
		h.Write(file.Exact(&q))
		t.marked, t.of = p, fmt.Sprintf("%08x", h.Sum32())
	}
	return t.of
}

// load tells what the program holds, every few seconds, with what is no longer
// used cleared away before.
func (t *tracer) load(w *Window) {
	if t.out == nil || !t.loads {
		return
	}
	time.AfterFunc(5*time.Second, func() {
		if w.work.Err() != nil {
			return
		}
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		n := runtime.NumGoroutine()
		w.post(func() { t.line("load goroutines=%d heap=%d", n, m.HeapAlloc) })
		t.load(w)
	})
}

// faces tells how far the photographs are, where there are any.
func (t *tracer) faces(w *Window) {
	n := map[model.SplitBy]int{}
	for _, b := range w.ses.Project().Boards {
		for i := range b.Faces {
			if f := b.Faces[i].Split; f != nil {
				n[f.By]++
			}
		}
	}
	if len(n) == 0 && t.last["faces"] == "" {
		return
	}
	_, left := w.ses.ReadingShare()
	v := fmt.Sprintf("open=%d found=%d checked=%d reading=%d", n[model.SplitOpen], n[model.SplitFound], n[model.SplitChecked], left)
	if t.last["faces"] != v {
		t.last["faces"] = v
		t.line("faces %s", v)
	}
}

// places tells where strips, warnings and fixes are, where they moved.
func (t *tracer) places(w *Window) {
	if t == nil || t.out == nil {
		return
	}
	scale := float64(w.win.Canvas().Scale())
	seen := map[string]bool{}
	at := func(kind, id string, x, y float64) {
		key, v := kind+" "+id, fmt.Sprintf("%.0f %.0f", x*scale, y*scale)
		seen[key] = true
		if t.last[key] != v {
			t.last[key] = v
			t.line("place %s %s", key, v)
		}
	}
	d := fyne.CurrentApp().Driver()
	base := d.AbsolutePositionForObject(w.surf)
	n := w.panel()
	if n != nil {
		for _, s := range n.Strips {
			if p, ok := w.surf.stripPlace(n.ID, s.ID); ok {
				at("panel-strip", s.ID, float64(base.X)+p.X, float64(base.Y)+p.Y)
			}
			if p, ok := w.surf.laidPlace(s); ok {
				at("board-strip", s.ID, float64(base.X)+p.X, float64(base.Y)+p.Y)
			}
		}
	}
	k := 0
	for i, c := range w.column.list {
		p := d.AbsolutePositionForObject(c)
		at("warning", itoa(i), float64(p.X+c.Size().Width/2), float64(p.Y)+12)
		for _, f := range c.fixes {
			if c.opened && f.Visible() {
				q := d.AbsolutePositionForObject(f)
				at("fix", itoa(k), float64(q.X+f.Size().Width/2), float64(q.Y+f.Size().Height/2))
			}
			k++
		}
	}
	for key := range t.last {
		if !seen[key] { // gone: a line without a place says so
			delete(t.last, key)
			t.line("place %s ", key)
		}
	}
}

// settled tells the places again once texts have found their lines.
func (t *tracer) settled(w *Window) {
	if t != nil && t.out != nil {
		time.AfterFunc(settle, func() { w.post(func() { t.places(w) }) })
	}
}

// stripPlace returns the middle of a strip of the panel on the surface.
func (s *surface) stripPlace(panel, id string) (geom.Point, bool) {
	p := s.w.ses.Panel(panel)
	if p == nil {
		return geom.Point{}, false
	}
	for i := range p.Strips {
		if st := &p.Strips[i]; st.ID == id {
			return s.scene().PanelPoint(geom.Pt(p.Left(i)+st.L/2, p.StripY(i)+st.W/2)), true
		}
	}
	return geom.Point{}, false
}

// laidPlace returns the middle of a strip on face 1 of the board in hand.
func (s *surface) laidPlace(st model.Strip) (geom.Point, bool) {
	if st.Empty() {
		return geom.Point{}, false
	}
	m := geom.Rotate(st.Angle).Then(geom.Translate(st.X, st.Y))
	return s.scene().FacePoint(st.Board, 1, m.Apply(geom.Pt(st.L/2, st.W/2)))
}
