package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"syscall"
	"time"

	"heartside/app/keep"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/file"
	"heartside/model/say"
)

// keeping sees to it that what is on screen outlasts the program: it gives the
// keeper what is committed, and holds the lock of the project's file.
type keeping struct {
	w    *Window
	opt  keep.Options
	find keep.Finder
	k    *keep.Keeper // nil: nothing is kept

	held   *model.Project // what the keeper was given last
	clean  bool
	path   string // of the project that was given
	lock   *keep.Lock
	locked string // the path that the lock was asked for

	journal string   // where it is kept, "" nowhere
	said    string   // why it cannot be kept, "" it can
	odd     []string // what was found and cannot be used
	told    string   // the troubles that were dismissed
	queue   []offered
	asking  bool // the first of the queue is being asked about
	over    bool // all is saved, or thrown away
	written time.Time
}

func newKeeping(w *Window, opt keep.Options) *keeping {
	k := &keeping{w: w, opt: opt, clean: true}
	if opt.Disk == nil {
		return k
	}
	k.find = keep.Finder{Disk: opt.Disk, State: opt.State, Machine: opt.Machine}
	opt.Told = func(r keep.Report) { w.post(func() { k.report(r) }) }
	k.k = keep.New(opt)
	return k
}

// follow gives the keeper what was committed, where that is new, and takes the
// lock of another file.
func (k *keeping) follow() {
	if k.k == nil {
		return
	}
	ses := k.w.ses
	if ses.Path() != k.locked {
		k.relock()
	}
	p, clean := ses.Committed(), !ses.Dirty()
	if p == k.held && clean == k.clean && ses.Path() == k.path {
		return
	}
	k.held, k.clean, k.path = p, clean, ses.Path()
	k.k.Hold(k.work())
}

// work is what is on screen, as it is kept.
func (k *keeping) work() keep.Work {
	ses := k.w.ses
	st := ses.Standing(keep.HistoryKept)
	w := keep.Work{Path: st.Path, States: st.States, Saved: st.Saved, Base: st.Print, LookOnly: ses.LookOnly(), Panel: st.Panel, Board: st.Board}
	var own bool
	if w.Folder, own = ses.PictureFolder(); !own {
		w.Source = demoName
	}
	return w
}

// demoName says in a journal that the pictures are the demo's.
const demoName = "demo"

// opened is told that a project was opened or begun.
func (k *keeping) opened() {
	if k.k != nil {
		k.relock()
	}
}

// relock gives the lock that is held free, and takes that of the project on
// screen. Where another window has it the project is only looked at.
func (k *keeping) relock() {
	k.lock.Release()
	k.lock, k.locked = nil, k.w.ses.Path()
	if k.locked == "" {
		return
	}
	var err error
	k.lock, err = k.find.Lock(k.locked, k.opt.Now())
	var held *keep.HeldError
	if errors.As(err, &held) {
		k.w.ses.SetLookOnly(true)
		path := k.locked
		k.w.post(func() {
			if k.w.ses.Path() == path && k.w.ses.LookOnly() {
				k.w.heldAsk(held)
			}
		})
	}
}

// seize takes the lock from another window.
func (k *keeping) seize() {
	k.lock = k.find.Seize(k.locked, k.opt.Now())
	k.w.ses.SetLookOnly(false)
	k.offer(k.locked)
}

// free says why a project cannot be saved at path: another window has it.
func (k *keeping) free(path string) error {
	abs, err := filepath.Abs(path)
	if k.k == nil || err != nil || abs == k.locked && !k.w.ses.LookOnly() {
		return nil
	}
	l, err := k.find.Lock(abs, k.opt.Now())
	l.Release()
	if err != nil {
		return say.Errorf("%w; choose another name, or close that window", err)
	}
	return nil
}

// offer asks about what was kept of the project at path when the program ended.
func (k *keeping) offer(path string) {
	if k.k == nil {
		return
	}
	if path != "" {
		if abs, err := filepath.Abs(path); err == nil {
			path = abs
		}
	}
	found, odd := k.find.Find(path)
	if len(odd) > 0 {
		k.odd = append(k.odd, odd...)
		k.w.column.showNotes()
	}
	for _, j := range found {
		k.queue = append(k.queue, offered{j, path})
	}
	k.offerNext()
}

// offered is a journal to be asked about.
type offered struct {
	j    *keep.Journal
	path string // of the project it was found for, "" none
}

// offerNext asks about the first in the queue, one at a time.
func (k *keeping) offerNext() {
	if k.asking || len(k.queue) == 0 {
		return
	}
	k.asking = true
	o := k.queue[0]
	k.queue = k.queue[1:]
	k.w.keptAsk(o.j, o.path, func() {
		k.asking = false
		k.offerNext()
	})
}

// take puts on screen what a journal holds.
func (k *keeping) take(j *keep.Journal, path string) {
	w := k.w
	if j.Path == "" {
		path = ""
	}
	var src session.Source = session.Folder(j.Folder)
	switch {
	case j.Source == demoName:
		if demo, err := demoFiles(); err == nil {
			src = demo
		}
	case path != "":
		src = session.Folder(filepath.Dir(path))
	}
	w.surf.forget()
	w.ses.Resume(session.Standing{Path: path, States: j.States, Saved: j.Saved, Print: j.Base, Panel: j.Panel, Board: j.Board}, src)
	k.k.Adopt(j.File)
	w.opened()
	w.say(say.F("This is what was on screen at %s. It is not saved yet.", at(j.When, k.opt.Now())))
}

// openAside opens a journal that was put aside, as a project without a file.
func (k *keeping) openAside(path string) error {
	if k.k == nil {
		return say.Error("nothing is kept here")
	}
	j, err := keep.OpenAside(k.opt.Disk, path)
	if err != nil {
		return err
	}
	w := k.w
	w.surf.forget()
	var src session.Source = session.Folder(j.Folder)
	if demo, err := demoFiles(); err == nil && j.Source == demoName {
		src = demo
	}
	w.ses.Resume(session.Standing{States: j.States, Saved: -1, Panel: j.Panel, Board: j.Board}, src)
	w.opened()
	return nil
}

// report shows what became of the work.
func (k *keeping) report(r keep.Report) {
	was := k.said
	k.journal = r.Path
	switch {
	case r.Err != nil:
		k.said = failedWords(r.Err)
		k.w.status.keeping(say.T("not kept"), true)
	case r.Path == "":
		k.said = ""
		k.w.status.keeping("", false)
	default:
		k.said, k.written = "", r.When
		k.w.status.keeping(say.T("kept a moment ago"), false)
		k.later(r.When)
	}
	k.w.trace.kept(r.Path, r.Err)
	if k.said != was {
		k.w.column.showNotes()
	}
}

// later says when it was kept, once that is no longer a moment ago.
func (k *keeping) later(when time.Time) {
	after := k.opt.After
	if after == nil {
		after = time.After
	}
	go func() {
		select {
		case <-k.w.work.Done():
		case <-after(time.Minute):
			k.w.post(func() {
				if k.written.Equal(when) && k.w.status.kept.Text != "" && k.said == "" {
					k.w.status.keeping(say.F("kept %s", when.Local().Format("15:04")), false)
				}
			})
		}
	}()
}

// failedWords says calmly why what is on screen could not be kept.
func failedWords(err error) string {
	var e *keep.Error
	where := ""
	if errors.As(err, &e) && e.Path != "" {
		where = say.F(" in %s", filepath.Dir(e.Path))
	}
	what := say.F("What is on screen could not be kept%s in case the program ends: %s. Nothing is lost: the window keeps your work; ", where, say.Err(file.Cause(rootCause(err))))
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return say.F("%sfree some space, then save again.", what)
	}
	return say.F("%ssave it soon, where it can be written.", what)
}

// rootCause is the innermost error.
func rootCause(err error) error {
	for {
		next := errors.Unwrap(err)
		if next == nil {
			return err
		}
		err = next
	}
}

// trouble is what the column tells of keeping.
func (k *keeping) trouble() []string {
	list := k.odd
	if k.said != "" {
		list = append(list[:len(list):len(list)], k.said)
	}
	if fmt.Sprint(list) == k.told {
		return nil
	}
	return list
}

func (k *keeping) dismiss() {
	k.told = fmt.Sprint(k.trouble())
	k.w.column.showNotes()
}

// end keeps what is not saved, and gives the lock free.
func (k *keeping) end() {
	if k.k == nil {
		return
	}
	if k.over {
		k.k.Hold(keep.Work{})
	}
	k.k.Close()
	k.lock.Release()
}
