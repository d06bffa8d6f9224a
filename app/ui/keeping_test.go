package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"heartside/app/keep"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/disk"
	"heartside/model/disk/faulty"
)

// workshop is a folder with a project, and the windows on it.
type workshop struct {
	path, state string
	alive       map[int]bool
	d           disk.Disk
}

func newWorkshop(t *testing.T) *workshop {
	t.Helper()
	dir := t.TempDir()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "projects", "legs-and-doors.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	ws := &workshop{path: filepath.Join(dir, "table.yaml"), state: filepath.Join(dir, "state"), alive: map[int]bool{}, d: disk.Real{}}
	if err := os.WriteFile(ws.path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return ws
}

// window opens one in a process of its own, as far as keeping can tell.
func (ws *workshop) window(t *testing.T, pid int, p *model.Project) stage {
	t.Helper()
	ws.alive[pid] = true
	return openKept(t, p, 100, keep.Options{Disk: ws.d, State: ws.state, Now: func() time.Time { return time.Date(2020, 5, 4, 12, 41, 0, 0, time.Local).Add(time.Duration(pid)) },
		Machine: keep.Machine{
			Self: keep.Owner{PID: pid, Start: fmt.Sprint(pid), Space: "s", Boot: "b", Host: "shop", User: "anna"},
			Started: func(pid int) (string, bool) {
				if ws.alive[pid] {
					return fmt.Sprint(pid), true
				}
				return "", false
			},
		}})
}

// onTable opens the project in a window.
func (ws *workshop) onTable(t *testing.T, pid int) stage {
	t.Helper()
	s := ws.window(t, pid, session.Blank())
	if err := s.openPath(ws.path); err != nil {
		t.Fatal(err)
	}
	s.q.drain()
	return s
}

// rolled rolls strip A1 over and waits until that is kept.
func (s stage) rolled(t *testing.T) {
	t.Helper()
	s.take("A1")
	s.act("roll")
	s.q.wait(t, "the change to be kept", func() bool { return s.status.kept.Text == "kept a moment ago" })
}

// asksFor fails unless the dialog that is up has the title.
func (s stage) asksFor(t *testing.T, title string) *asked {
	t.Helper()
	if s.asks == nil || s.asks.q.title != title {
		t.Fatalf("the dialog is not %q", title)
	}
	return s.asks
}

// third presses the third button.
func (a *asked) third() {
	a.close()
	a.q.also()
}

const closedTitle = "Heartside was closed before this was saved"

func (ws *workshop) journals(t *testing.T) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(filepath.Dir(ws.path), ".*.heartside-journal"))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Killed with a change on screen, the next start offers that and shows it,
// with what can be undone.
func TestWhatWasOnScreenIsOffered(t *testing.T) {
	ws := newWorkshop(t)
	a := ws.onTable(t, 1)
	if a.asks != nil || a.status.kept.Visible() {
		t.Fatal("something is asked or kept before anything happened")
	}
	a.rolled(t)
	want := a.lie(t, "A1")
	ws.alive[1] = false

	b := ws.onTable(t, 2)
	ask := b.asksFor(t, closedTitle)
	if text := ask.q.body; text == nil || b.ses.Dirty() {
		t.Fatal("it is on screen before that was chosen")
	}
	ask.confirm()
	b.q.wait(t, "the work to be kept again", func() bool { return b.status.kept.Text == "kept a moment ago" })
	if got := b.lie(t, "A1"); got != want || !b.ses.Dirty() || b.ses.Path() != ws.path || b.ses.UndoLabel() != a.ses.UndoLabel() {
		t.Errorf("on screen %+v, want %+v; dirty %v, undo %q", got, want, b.ses.Dirty(), b.ses.UndoLabel())
	}
	b.q.wait(t, "the old journal to go", func() bool { return len(ws.journals(t)) == 1 })
	b.act("undo")
	if b.ses.Dirty() || b.lie(t, "A1") == want {
		t.Error("undone it is not what the file holds")
	}
	b.ses.Redo()
	b.save()
	b.q.wait(t, "nothing to be kept", func() bool { return !b.status.kept.Visible() })
	if n := ws.journals(t); len(n) != 0 {
		t.Errorf("saved, and there is %v", n)
	}
}

func TestDecideLaterAndPutAside(t *testing.T) {
	ws := newWorkshop(t)
	ws.onTable(t, 1).rolled(t)
	ws.alive[1] = false
	b := ws.onTable(t, 2)
	b.asksFor(t, closedTitle).cancel()
	if len(ws.journals(t)) != 1 || b.ses.Dirty() {
		t.Fatal("decided later, and it is gone or on screen")
	}
	// Changes made meanwhile are kept beside it, not over it.
	b.q.drain()
	b.rolled(t)
	if len(ws.journals(t)) != 2 {
		t.Errorf("journals %v", ws.journals(t))
	}
	ws.alive[2] = false
	c := ws.onTable(t, 3)
	c.asksFor(t, closedTitle).third()
	c.q.drain()
	c.asksFor(t, closedTitle).third()
	c.q.drain()
	if c.asks != nil || len(ws.journals(t)) != 0 {
		t.Error("put aside, and still offered")
	}
	aside, _ := filepath.Glob(filepath.Join(filepath.Dir(ws.path), ".*.heartside-aside"))
	if len(aside) != 2 || !strings.Contains(c.status.text.Text, "put aside as") {
		t.Fatalf("put aside: %v; said %q", aside, c.status.text.Text)
	}
	if err := c.openPath(aside[0]); err != nil || c.ses.Path() != "" || c.panel() == nil {
		t.Errorf("what was put aside cannot be opened: %v", err)
	}
}

// Quitting on purpose leaves nothing; being ended leaves the work.
func TestQuittingAndBeingEnded(t *testing.T) {
	for _, thrown := range []bool{true, false} {
		ws := newWorkshop(t)
		s := ws.onTable(t, 1)
		s.take("A1")
		s.act("roll")
		if thrown {
			s.Window.close()
			s.asksFor(t, "Save the changes first?").third()
		}
		s.kept.end()
		if got := len(ws.journals(t)) == 0; got != thrown {
			t.Errorf("thrown away %v: journals %v", thrown, ws.journals(t))
		}
		if locks, _ := filepath.Glob(filepath.Join(filepath.Dir(ws.path), ".*.heartside-lock")); len(locks) != 0 {
			t.Errorf("left %v", locks)
		}
	}
}

func TestSecondWindowOnlyLooks(t *testing.T) {
	const title = "This project is open in another window"
	ws := newWorkshop(t)
	a := ws.onTable(t, 1)
	b := ws.onTable(t, 2)
	b.asksFor(t, title).cancel()
	if !b.ses.LookOnly() || !strings.Contains(b.ses.Title(), "only looked at") || a.ses.LookOnly() {
		t.Fatal("the second window does not only look")
	}
	b.save()
	b.asksFor(t, "Save the project under a name")
	if err := b.kept.free(ws.path); err == nil || !strings.Contains(err.Error(), "choose another name") {
		t.Errorf("saving over the other window's project: %v", err)
	}
	b.asks.cancel()

	c := ws.onTable(t, 3)
	c.asksFor(t, title).confirm()
	if c.ses.Path() != "" || c.ses.LookOnly() || len(c.ses.Project().Boards) == 0 {
		t.Errorf("the copy has the path %q", c.ses.Path())
	}

	d := ws.onTable(t, 4)
	d.asksFor(t, title).third()
	if d.ses.LookOnly() {
		t.Error("opened anyway it still only looks")
	}
	d.take("A1")
	d.act("roll")
	d.save()
	if d.ses.Dirty() {
		t.Fatal("not saved")
	}
	// The first is asked before it replaces that.
	a.take("A1")
	a.act("turn")
	a.save()
	a.q.drain()
	a.asksFor(t, "The file was changed by another program").cancel()
	if !a.ses.Dirty() {
		t.Error("saved over the other's changes")
	}
}

func TestFileChangedByAnotherProgram(t *testing.T) {
	ws := newWorkshop(t)
	s := ws.onTable(t, 1)
	s.take("A1")
	s.act("roll")
	data, err := os.ReadFile(ws.path)
	if err != nil {
		t.Fatal(err)
	}
	theirs := append(data, "# by hand\n"...)
	if err := os.WriteFile(ws.path, theirs, 0o666); err != nil {
		t.Fatal(err)
	}
	s.save()
	s.q.drain()
	s.asksFor(t, "The file was changed by another program").third()
	if s.ses.Dirty() {
		t.Fatal("not saved")
	}
	if got, _ := os.ReadFile(ws.path + ".bak"); string(got) != string(theirs) {
		t.Error("what the other program wrote is not kept beside it")
	}
	s.act("undo")
	s.save()
	s.q.drain()
	if s.asks != nil || s.ses.Dirty() {
		t.Error("its own saving counts as another program's")
	}
}

// A disk that is full is told of once, calmly, and no more when it is not.
func TestFullDiskIsTold(t *testing.T) {
	ws := newWorkshop(t)
	var full atomic.Bool
	full.Store(true)
	ws.d = &faulty.Disk{Under: disk.Real{}, Fail: func(s faulty.Step) error {
		if full.Load() && s.Op == "write" {
			return syscall.ENOSPC
		}
		return nil
	}}
	s := ws.onTable(t, 1)
	s.take("A1")
	s.act("roll")
	s.q.wait(t, "the trouble", func() bool { return s.status.kept.Text == "not kept" })
	told := strings.Join(s.kept.trouble(), "\n")
	for _, says := range []string{"could not be kept in " + filepath.Dir(ws.path), "Nothing is lost", "free some space, then save again"} {
		if !strings.Contains(told, says) {
			t.Errorf("%q does not say %q", told, says)
		}
	}
	if s.asks != nil {
		t.Error("a dialog is in the way")
	}
	s.kept.dismiss()
	s.act("turn")
	s.kept.k.Flush()
	s.q.drain()
	if len(s.kept.trouble()) != 0 || s.status.kept.Text != "not kept" {
		t.Error("told again, or no longer shown")
	}
	full.Store(false)
	s.act("roll")
	s.q.wait(t, "the work to be kept", func() bool { return s.status.kept.Text == "kept a moment ago" })
	if s.kept.said != "" || len(ws.journals(t)) != 1 {
		t.Errorf("said %q", s.kept.said)
	}
}

// A project without a file is kept in the state folder, and found there.
func TestUnsavedProjectIsOffered(t *testing.T) {
	ws := newWorkshop(t)
	a := ws.window(t, 1, session.Blank())
	if err := a.openDemo(); err != nil {
		t.Fatal(err)
	}
	a.ses.Select(session.Selection{Panel: a.panel().ID, Strip: a.panel().Strips[0].ID, Zone: -1})
	a.act("roll")
	a.q.wait(t, "the change to be kept", func() bool { return a.status.kept.Text == "kept a moment ago" })
	ws.alive[1] = false
	b := ws.window(t, 2, session.Blank())
	b.kept.offer("")
	ask := b.asksFor(t, closedTitle)
	if ask.q.other != "Put it aside" {
		t.Errorf("the third way is %q", ask.q.other)
	}
	ask.confirm()
	if b.ses.Path() != "" || b.panel().Strips[0].Up == 0 || b.panel().Strips[0].Up != a.panel().Strips[0].Up || len(b.ses.PhotoTrouble()) != 0 {
		t.Error("on screen is not what was")
	}
}

// A torn journal is told of in the column, and kept.
func TestTornJournalIsTold(t *testing.T) {
	ws := newWorkshop(t)
	torn := filepath.Join(filepath.Dir(ws.path), ".table.yaml.1-a.heartside-journal")
	if err := os.WriteFile(torn, []byte("heartside-journal 1\nab"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := ws.onTable(t, 1)
	if told := strings.Join(s.kept.trouble(), "\n"); s.asks != nil || !strings.Contains(told, "nothing of it was deleted") {
		t.Errorf("told %q", told)
	}
	s.kept.dismiss()
	if len(s.kept.trouble()) != 0 {
		t.Error("dismissed and still told")
	}
}
