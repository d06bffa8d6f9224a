package ui

import (
	"errors"
	"path/filepath"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/app/keep"
	"heartside/app/session"
	"heartside/model/file"
	"heartside/model/say"
)

// keptAsk offers what was on screen when the program ended without saving;
// then follows, whatever is chosen.
func (w *Window) keptAsk(j *keep.Journal, path string, then func()) {
	next := func() { w.post(then) }
	other := say.T("Open the saved file")
	if j.Path == "" {
		other = say.T("Put it aside")
	}
	w.ask(question{
		title: say.T("Heartside was closed before this was saved"),
		body:  wrapped(keptWords(j, w.kept.changedSince(j, path), w.kept.opt.Now()), widget.MediumImportance),
		yes:   say.T("Open what was on screen"), no: say.T("Decide later"), other: other, plain: true,
		do: func() error {
			// Another window's question may have been answered first, or work begun
			// on what lies beneath.
			if w.ses.Dirty() {
				w.post(func() {
					w.guard(say.T("open what was on screen"), func() { w.kept.take(j, path); next() })
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
				w.fail(say.T("It could not be put aside"), say.Errorf("%s: %w; it is left where it is and will be offered again", j.File, file.Cause(err)))
			} else {
				w.say(say.F("What was on screen is put aside as %s.", to))
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
	text += say.F(" was on screen at %s with changes that are not in ", at(j.When, now))
	if j.Path != "" {
		text += say.T("the file.")
	} else {
		text += say.T("any file.")
	}
	switch n := len(j.States) - 1; {
	case n == 1:
		text += say.T(" The last change can still be undone.")
	case n > 1:
		text += say.F(" The last %s changes can still be undone.", itoa(n))
	}
	if j.Path != "" && changed {
		text += say.T(" The file itself was changed since, by another program or window.")
	}
	return say.F("%s Nothing is thrown away, whatever you choose.", text)
}

// at tells a time of the day, with the day where that is not today.
func at(when, now time.Time) string {
	when, now = when.Local(), now.Local()
	if when.YearDay() == now.YearDay() && when.Year() == now.Year() {
		return when.Format("15:04")
	}
	return say.Stamp(when)
}

// heldAsk says that another window has the project.
func (w *Window) heldAsk(held *keep.HeldError) {
	text := sentence(say.Err(held)) + ". "
	if held.Owner.PID != 0 {
		text = say.F("It is open %s. ", held.Who())
	}
	if held.Life == keep.Unknown {
		text += say.T("Whether that window is still open cannot be seen from here. ")
	}
	text += say.T("It is shown here to look at: saving asks for another name. A copy is a project of its own. If it is opened anyway, nobody's changes are replaced without a question.")
	path := w.ses.Path()
	w.ask(question{
		title: say.T("This project is open in another window"), body: wrapped(text, widget.MediumImportance),
		yes: say.T("Open a copy"), no: say.T("Only look at it"), other: say.T("Open anyway"), plain: true,
		do: func() error {
			if w.ses.Dirty() {
				return say.Error("what was changed here meanwhile would go: save it under another name, then that is the copy")
			}
			w.surf.forget()
			if err := w.ses.OpenCopy(path); err != nil {
				return err
			}
			w.opened()
			w.say(say.T("This is a copy. Saving asks for a name."))
			return nil
		},
		also: w.kept.seize,
		size: fyne.NewSize(620, 230),
	})
	w.trace.asking("held")
}

// saveFailed says that the project is still here, and what to do.
func (w *Window) saveFailed(err error) {
	text := say.F("%s. Nothing is lost: the window keeps your work", sentence(say.Err(err)))
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		text += say.T("; free some space, then save again")
	}
	if k := w.kept; k.journal != "" && k.said == "" {
		text += say.F(". What is on screen is also kept in %s, should the program end", filepath.Dir(k.journal))
	}
	w.ask(question{title: say.T("The project could not be saved"), body: wrapped(text+".", widget.MediumImportance), size: fyne.NewSize(560, 240)})
}

// changedAsk asks what to do where another program has written the file; then,
// where given, follows once it is saved.
func (w *Window) changedAsk(c *session.ChangedError, then func()) {
	name := filepath.Base(c.Path)
	w.ask(question{
		title: say.T("The file was changed by another program"),
		body:  wrapped(say.F("%s. If you replace it, what it holds now stays beside it as %s%s. Under another name both are kept.", sentence(say.Err(c)), name, file.BackupSuffix), widget.MediumImportance),
		yes:   say.T("Save under another name"), no: say.T("Go back"), other: say.T("Replace it"), plain: true,
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
