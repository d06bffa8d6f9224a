package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/app/keep"
	"heartside/app/session"
	"heartside/model/file"
)

// keptAsk offers what was on screen when the program ended without saving;
// then follows, whatever is chosen.
func (w *Window) keptAsk(j *keep.Journal, path string, then func()) {
	next := func() { w.post(then) }
	other := "Open the saved file"
	if j.Path == "" {
		other = "Put it aside"
	}
	w.ask(question{
		title: "Heartside was closed before this was saved",
		body:  wrapped(keptWords(j, w.kept.changedSince(j, path), w.kept.opt.Now()), widget.MediumImportance),
		yes:   "Open what was on screen", no: "Decide later", other: other, plain: true,
		do: func() error {
			// Another window's question may have been answered first, or work begun
			// on what lies beneath.
			if w.ses.Dirty() {
				w.post(func() {
					w.guard("open what was on screen", func() { w.kept.take(j, path); next() })
				})
				return nil
			}
			w.kept.take(j, path)
			next()
			return nil
		},
		also: func() {
			to, err := w.kept.find.PutAside(j.File)
			if err != nil {
				w.fail("It could not be put aside", fmt.Errorf("%s: %w; it is left where it is and will be offered again", j.File, file.Cause(err)))
			} else {
				w.say("What was on screen is put aside as " + to + ".")
			}
			next()
		},
		undo: next,
		size: fyne.NewSize(620, 230),
	})
	w.trace.asking("kept")
}

// changedSince reports whether the project's file is not the one that the work
// was begun on.
func (k *keeping) changedSince(j *keep.Journal, path string) bool {
	if j.Path == "" {
		return false
	}
	now, err := file.PrintAt(k.opt.Disk, path)
	return err == nil && !now.Same(j.Base)
}

// keptWords says what is offered.
func keptWords(j *keep.Journal, changed bool, now time.Time) string {
	text := "“" + j.Name() + "”"
	if j.Path != "" {
		text += ", " + filepath.Base(j.Path) + ","
	}
	text += " was on screen at " + at(j.When, now) + " with changes that are not in "
	if j.Path != "" {
		text += "the file."
	} else {
		text += "any file."
	}
	switch n := len(j.States) - 1; {
	case n == 1:
		text += " The last change can still be undone."
	case n > 1:
		text += " The last " + itoa(n) + " changes can still be undone."
	}
	if j.Path != "" && changed {
		text += " The file itself was changed since, by another program or window."
	}
	return text + " Nothing is thrown away, whatever you choose."
}

// at tells a time of the day, with the day where that is not today.
func at(when, now time.Time) string {
	when, now = when.Local(), now.Local()
	if when.YearDay() == now.YearDay() && when.Year() == now.Year() {
		return when.Format("15:04")
	}
	return when.Format("15:04 on 2 January 2006")
}

// heldAsk says that another window has the project.
func (w *Window) heldAsk(held *keep.HeldError) {
	text := sentence(held.Error()) + ". "
	if held.Owner.PID != 0 {
		text = "It is open " + held.Who() + ". "
	}
	if held.Life == keep.Unknown {
		text += "Whether that window is still open cannot be seen from here. "
	}
	text += "It is shown here to look at: saving asks for another name. A copy is a project of its own. " +
		"If it is opened anyway, nobody's changes are replaced without a question."
	path := w.ses.Path()
	w.ask(question{
		title: "This project is open in another window", body: wrapped(text, widget.MediumImportance),
		yes: "Open a copy", no: "Only look at it", other: "Open anyway", plain: true,
		do: func() error {
			if w.ses.Dirty() {
				return errors.New("what was changed here meanwhile would go: save it under another name, then that is the copy")
			}
			w.surf.forget()
			if err := w.ses.OpenCopy(path); err != nil {
				return err
			}
			w.opened()
			w.say("This is a copy. Saving asks for a name.")
			return nil
		},
		also: w.kept.seize,
		size: fyne.NewSize(620, 230),
	})
	w.trace.asking("held")
}

// saveFailed says that the project is still here, and what to do.
func (w *Window) saveFailed(err error) {
	text := sentence(err.Error()) + ". Nothing is lost: the window keeps your work"
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		text += "; free some space, then save again"
	}
	if k := w.kept; k.journal != "" && k.said == "" {
		text += ". What is on screen is also kept in " + filepath.Dir(k.journal) + ", should the program end"
	}
	w.ask(question{title: "The project could not be saved", body: wrapped(text+".", widget.MediumImportance), size: fyne.NewSize(560, 240)})
}

// changedAsk asks what to do where another program has written the file; then,
// where given, follows once it is saved.
func (w *Window) changedAsk(c *session.ChangedError, then func()) {
	name := filepath.Base(c.Path)
	w.ask(question{
		title: "The file was changed by another program",
		body: wrapped(sentence(c.Error())+". If you replace it, what it holds now stays beside it as "+name+file.BackupSuffix+
			". Under another name both are kept.", widget.MediumImportance),
		yes: "Save under another name", no: "Go back", other: "Replace it", plain: true,
		do: func() error {
			w.post(func() { w.saveAs(then) })
			return nil
		},
		also: func() {
			if err := w.ses.SaveOver(); err != nil {
				w.saveFailed(err)
				return
			}
			w.savedNow()
			if then != nil {
				then()
			}
		},
		size: fyne.NewSize(560, 210),
	})
	w.trace.asking("changed")
}
