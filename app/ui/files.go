package ui

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/app/keep"
	"heartside/app/session"
	"heartside/model/say"
)

// kinds of project files.
func projectKinds() []string { return []string{".yaml", ".yml"} }

// guard asks about unsaved changes before going on.
func (w *Window) guard(what string, then func()) {
	w.nudge.settle()
	if !w.ses.Dirty() {
		then()
		return
	}
	name := w.ses.Committed().Name
	w.ask(question{
		title: say.T("Save the changes first?"),
		body:  wrapped(say.F("“%s” has changes that are not saved. What is to become of them before you %s?", name, what), widget.MediumImportance),
		yes:   say.T("Save"), no: say.T("Go back"), other: say.T("Throw away"),
		do: func() error {
			return w.saveThen(func() { w.post(then) })
		},
		also: then,
		size: fyne.NewSize(480, 210),
	})
	w.trace.asking("guard")
}

func (w *Window) newProject() {
	w.guard(say.T("begin another project"), func() {
		w.surf.forget()
		w.ses.Replace(session.Blank())
		w.opened()
	})
}

func (w *Window) openAsk() {
	w.guard(say.T("open another project"), func() {
		w.choose(choosing{title: say.T("Open a project"), yes: say.T("Open"), trace: "open", kinds: projectKinds(), must: true, do: w.openPath})
	})
}

func (w *Window) demoAsk() {
	w.guard(say.T("open the demo"), func() {
		if err := w.openDemo(); err != nil {
			w.fail(say.T("The demo could not be opened"), err)
		}
	})
}

// openPath shows the project in a file; on an error what is on screen stays.
func (w *Window) openPath(path string) error {
	if keep.IsAside(path) {
		return w.kept.openAside(path)
	}
	err := w.ses.Open(path)
	w.post(func() { w.kept.offer(path) })
	if err != nil {
		return err
	}
	w.surf.forget()
	w.set.opened(w.ses.Path())
	w.set.keepFolder(filepath.Dir(w.ses.Path()))
	w.opened()
	return nil
}

func (w *Window) openOrSay(path string) {
	if err := w.openPath(path); err != nil {
		w.fail(say.T("The project could not be opened"), err)
	}
}

// opened shows a project just read or begun.
func (w *Window) opened() {
	sel := w.ses.Selected()
	w.ses.Select(session.Selection{Panel: sel.Panel, Board: sel.Board, Zone: -1})
	if w.menus.recent != nil {
		w.fillRecent()
		w.menus.main.Refresh()
	}
	w.kept.opened()
	w.rack.forget()
	if w.page != nil && w.page != page(w.rack) {
		w.turnTo(nil)
	}
	w.changed()
	w.say("")
}

func (w *Window) save() {
	w.nudge.settle()
	if w.ses.Path() == "" || w.ses.LookOnly() {
		w.saveAs(nil)
		return
	}
	if err := w.saveThen(nil); err != nil {
		w.saveFailed(err)
	}
}

// saveThen saves the project to its file; then, where given, follows. Where
// there is no file to save to, or it was changed by another program, it asks.
func (w *Window) saveThen(then func()) error {
	err := w.ses.Save()
	var other *session.ChangedError
	switch {
	case errors.Is(err, session.ErrNoPath) || errors.Is(err, session.ErrLookOnly):
		w.post(func() { w.saveAs(then) })
		return nil
	case errors.As(err, &other):
		w.post(func() { w.changedAsk(other, then) })
		return nil
	case err != nil:
		return err
	}
	w.savedNow()
	if then != nil {
		then()
	}
	return nil
}

func (w *Window) savedNow() {
	w.say(say.F("Saved %s.", filepath.Base(w.ses.Path())))
	w.trace.saved(w.ses.Path())
}

// saveAs asks for a path and saves there; then, where given, follows.
func (w *Window) saveAs(then func()) {
	name := w.ses.Path()
	if name == "" {
		name = fileName(w.ses.Committed().Name) + ".yaml"
	}
	w.choose(choosing{title: say.T("Save the project under a name"), yes: say.T("Save"), trace: "save", name: filepath.Base(name), kinds: projectKinds(),
		do: func(path string) error {
			if filepath.Ext(path) == "" {
				path += ".yaml"
			}
			if err := w.kept.free(path); err != nil {
				return err
			}
			return w.overwrite(path, w.ses.Path(), func() error {
				if err := w.ses.SaveAs(path); err != nil {
					return err
				}
				w.set.opened(w.ses.Path())
				w.fillRecent()
				w.menus.main.Refresh()
				w.say(say.F("Saved %s.", filepath.Base(path)))
				w.trace.saved(w.ses.Path())
				if then != nil {
					w.post(then)
				}
				return nil
			})
		}})
}

// overwrite does the writing, after a question where another file than own
// would be lost.
func (w *Window) overwrite(path, own string, do func() error) error {
	if _, err := os.Stat(path); err != nil || path == own {
		return do()
	}
	w.post(func() {
		w.ask(question{
			title: say.T("Replace the file?"), yes: say.T("Replace"), no: say.T("Go back"),
			body: wrapped(say.F("%s is there already, in %s.", filepath.Base(path), filepath.Dir(path)), widget.MediumImportance),
			do:   do, size: fyne.NewSize(460, 190),
		})
	})
	return nil
}

// fileName makes a file name of a project's name.
func fileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case r == ' ', r == '-', r == '_':
			b.WriteByte('-')
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "project"
}

// close ends the program, after the question about unsaved changes.
func (w *Window) close() {
	if w.asks != nil {
		w.asks.cancel()
		return
	}
	w.guard("quit", func() {
		w.kept.over = true
		w.win.Close()
	})
}

// dropped opens a project file dropped on the window, or takes pictures to the
// rack.
func (w *Window) dropped(_ fyne.Position, uris []fyne.URI) {
	if w.asks != nil {
		return
	}
	var photos []string
	for _, u := range uris {
		path := u.Path()
		switch ext := strings.ToLower(filepath.Ext(path)); {
		case u.Scheme() != "file":
		case ext == ".yaml" || ext == ".yml" || keep.IsAside(path):
			w.pastDraft(func() { w.guard(say.F("open %s", filepath.Base(path)), func() { w.openOrSay(path) }) })
			return
		default:
			photos = append(photos, path)
		}
	}
	if len(photos) == 1 && !isPhoto(photos[0]) || len(photos) == 0 {
		w.say(say.T("Drop a project file (.yaml), or photographs of the boards."))
		return
	}
	w.pastDraft(func() { w.rackPictures(photos) })
}
