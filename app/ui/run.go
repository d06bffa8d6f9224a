package ui

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"

	"heartside/app/keep"
	"heartside/app/phone"
	"heartside/app/render"
	"heartside/app/session"
	"heartside/assets"
	"heartside/model/disk"
	"heartside/model/say"
)

// ErrNoDisplay is given where no window can be opened.
var ErrNoDisplay = errors.New("there is no display to open a window on (DISPLAY and WAYLAND_DISPLAY are empty): start it from a desktop session, or use the commands check and sheet")

// HasDisplay reports whether the environment names a display.
func HasDisplay(env func(string) string) bool {
	return env("DISPLAY") != "" || env("WAYLAND_DISPLAY") != ""
}

// Start is what the window starts with.
type Start struct {
	Path   string              // project to open, "" the last one or the demo
	Env    func(string) string // os.Getenv
	Stderr io.Writer           // where the trace goes
}

// Run opens the window and returns when it is closed. A display that is named
// but cannot be opened, which the toolkit answers with a panic, is an error.
func Run(a fyne.App, st Start) (err error) {
	w, err := Open(a, st)
	if err != nil {
		return err
	}
	up := false
	defer func() {
		if !up {
			if r := recover(); r != nil {
				err = say.Errorf("the display %q cannot be opened (%v): check DISPLAY, or use the commands check and sheet", st.Env("DISPLAY"), r)
			}
		}
	}()
	defer w.kept.end()
	go phone.Sweep("") // what a killed program left of pictures on their way
	a.Lifecycle().SetOnStarted(func() { up = true; w.started() })
	w.win.ShowAndRun()
	w.stop()
	w.ses.Close()
	return nil
}

// Open builds the window without running it.
func Open(a fyne.App, st Start) (*Window, error) {
	faces, err := render.LoadFaces()
	if err != nil {
		return nil, err
	}
	set := settings{a.Preferences()}
	if err := speak(set.language(st.Env)); err != nil && st.Stderr != nil { // English, then
		fmt.Fprintln(st.Stderr, "heartside:", err)
	}
	look, text := set.look(st.Env)
	th, err := loadTheme(look, text)
	if err != nil {
		return nil, err
	}
	a.Settings().SetTheme(th)
	a.SetIcon(fyne.NewStaticResource("heartside.svg", assets.Icon))
	ses := session.New(session.Blank(), session.Options{Post: fyne.Do, Cache: session.CacheDir()})
	w := New(Parts{App: a, Session: ses, Look: th, Faces: faces, Post: fyne.Do, Start: st, Keep: keepOptions(st.Env)})
	w.post(func() { w.kept.offer("") })
	first := set.first()
	path := st.Path
	if recent := set.recent(); path == "" && !first && len(recent) > 0 {
		path = recent[0]
	}
	if path == "" {
		return w, w.openDemo()
	}
	if err := w.openPath(path); err != nil {
		if demo := w.openDemo(); demo != nil {
			return w, demo
		}
		w.post(func() { w.fail(say.T("The project could not be opened; the demo is shown instead"), err) })
	}
	return w, nil
}

// keepOptions are those of the computer's own disk.
func keepOptions(env func(string) string) keep.Options {
	return keep.Options{Disk: disk.Real{}, State: keep.StateDir(env), Machine: keep.ThisMachine(), Now: time.Now}
}

// loadTheme makes the theme with the typefaces built in.
func loadTheme(look Look, text int) (*Theme, error) {
	regular, err := assets.Fonts.ReadFile("fonts/DejaVuSans.ttf")
	if err != nil {
		return nil, say.Errorf("typeface: %w", err)
	}
	bold, err := assets.Fonts.ReadFile("fonts/DejaVuSans-Bold.ttf")
	if err != nil {
		return nil, say.Errorf("typeface: %w", err)
	}
	return NewTheme(look, text, regular, bold), nil
}

// demoSource reads the demo's pictures.
type demoSource struct{ files fs.FS }

// Open implements session.Source.
func (d demoSource) Open(name string) (io.ReadCloser, error) {
	if filepath.IsAbs(filepath.FromSlash(name)) { // a picture chosen since
		return os.Open(filepath.FromSlash(name))
	}
	return d.files.Open(name)
}

// demoFiles are the demo built into the program.
func demoFiles() (demoSource, error) {
	files, err := fs.Sub(assets.Demo, "demo")
	if err != nil {
		return demoSource{}, say.Errorf("demo: %w", err)
	}
	return demoSource{files}, nil
}

// openDemo shows the project built into the program. It has no file: saving it
// asks for a name.
func (w *Window) openDemo() error {
	src, err := demoFiles()
	if err != nil {
		return err
	}
	data, err := fs.ReadFile(src.files, "project.yaml")
	if err != nil {
		return say.Errorf("demo: %w", err)
	}
	w.surf.forget()
	if err := w.ses.OpenFrom(data, "demo", src); err != nil {
		return err
	}
	w.opened()
	w.hints.begin()
	return nil
}

// started is called once the window is on screen.
func (w *Window) started() {
	w.win.Canvas().Focus(w.surf)
	w.trace.ready()
	w.trace.load(w)
	w.trace.state(w)
}
