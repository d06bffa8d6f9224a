package keep

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"pgregory.net/rapid"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/disk/faulty"
)

// What is on screen is found at the next start; saved, nothing is left of it.
func TestKeptUntilSaved(t *testing.T) {
	m, projects := shop(), several(6)
	mustSave(t, m, table, projects[2])
	k := keeperOn(t, m, 7, nil)
	k.Hold(workAt(table, projects, 2))
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	found, odd := finder(m).Find(table)
	if len(found) != 1 || len(odd) != 0 || numberOf(found[0].Project()) != 5 || found[0].Saved != 0 || len(found[0].States) != 4 {
		t.Fatalf("found %+v, odd %v", found, odd)
	}
	if name := filepath.Base(found[0].File); !strings.HasPrefix(name, ".table.yaml.") || filepath.Dir(found[0].File) != "/job" {
		t.Errorf("it is in %s", found[0].File)
	}
	// While the window lives nobody else is offered it.
	if found, _ := (Finder{Disk: m, State: "/state", Machine: machine(8, 7)}).Find(table); len(found) != 0 {
		t.Error("another window is offered the work of a living one")
	}
	mustSave(t, m, table, projects[5])
	k.Hold(workAt(table, projects, 5))
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	if names := strings.Join(namesIn(t, m, "/job"), " "); names != "table.yaml table.yaml.bak" {
		t.Errorf("left behind: %s", names)
	}
	if err := k.Close(); err != nil { // twice is not wrong
		t.Error(err)
	}
}

// Many changes in a moment are written once, when it is calm, and at the
// latest after a while.
func TestManyChangesAreWrittenOnce(t *testing.T) {
	m, h, projects := shop(), newHands(), several(30)
	told := make(chan Report, 100)
	k := New(Options{Disk: m, State: "/state", Machine: machine(7), Now: func() time.Time { return noon }, After: h.after, Told: func(r Report) { told <- r }})
	defer k.Close()
	k.Hold(workAt("", projects[:2], -1))
	quiet := <-h.asked
	<-h.asked
	for i := 3; i <= 20; i++ {
		k.Hold(workAt("", projects[:i], -1))
		quiet = <-h.asked // the wait for calm begins anew
	}
	if len(namesIn(t, m, "/state")) != 0 || len(told) != 0 {
		t.Error("written before it is calm")
	}
	quiet <- noon
	r := <-told
	found, _ := finder(m).Find("")
	if len(found) != 1 || numberOf(found[0].Project()) != 19 || r.Path != found[0].File || !r.When.Equal(noon) {
		t.Fatalf("found %v, told %+v", found, r)
	}
	k.Hold(workAt("", projects[:25], -1))
	<-h.asked
	last := <-h.asked
	last <- noon
	<-told
	if found, _ := finder(m).Find(""); len(found) != 1 || numberOf(found[0].Project()) != 24 {
		t.Error("not written though it is never calm")
	}
}

// Where the folder takes nothing the journal goes to the state folder, and
// comes back beside the project once it can.
func TestFolderThatTakesNothing(t *testing.T) {
	m, projects := shop(), several(6)
	mustSave(t, m, table, projects[0])
	m.ReadOnly("/job", true)
	k := keeperOn(t, m, 7, nil)
	k.Hold(workAt(table, projects[:3], 0))
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	found, _ := finder(m).Find(table)
	if len(found) != 1 || filepath.Dir(found[0].File) != "/state" || numberOf(found[0].Project()) != 2 {
		t.Fatalf("found %+v", found)
	}
	if found, _ := finder(m).Find("/elsewhere/table.yaml"); len(found) != 0 {
		t.Error("offered for a file of the same name elsewhere")
	}
	m.ReadOnly("/job", false)
	k.Hold(workAt(table, projects[:4], 0))
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	if found, _ := finder(m).Find(table); len(found) != 1 || filepath.Dir(found[0].File) != "/job" || len(namesIn(t, m, "/state")) != 0 {
		t.Errorf("found %+v", found)
	}
	// The project gets another name: the journal follows.
	mustSave(t, m, "/job/other.yaml", projects[4])
	k.Hold(workAt("/job/other.yaml", projects[:6], 4))
	k.Flush()
	if found, _ := finder(m).Find(table); len(found) != 0 {
		t.Error("the journal of the old name is left")
	}
	if found, _ := finder(m).Find("/job/other.yaml"); len(found) != 1 {
		t.Error("there is none for the new name")
	}
}

// A full disk is told of, and tried again without being asked.
func TestFullDiskIsToldAndTriedAgain(t *testing.T) {
	m, h, projects := shop(), newHands(), several(6)
	full := make(chan bool, 1)
	full <- true
	d := &faulty.Disk{Under: m, Fail: func(s faulty.Step) error {
		is := <-full
		full <- is
		if is && s.Op == "write" {
			return syscall.ENOSPC
		}
		return nil
	}}
	told := make(chan Report, 100)
	k := New(Options{Disk: d, State: "/state", Machine: machine(7), Now: func() time.Time { return noon }, After: h.after, Told: func(r Report) { told <- r }})
	defer k.Close()
	k.Hold(workAt(table, projects, -1))
	quiet := <-h.asked
	<-h.asked
	quiet <- noon
	r := <-told
	var e *Error
	if !errors.As(r.Err, &e) || !errors.Is(r.Err, syscall.ENOSPC) {
		t.Fatalf("told %+v", r)
	}
	for _, says := range []string{"what is on screen", "/job", "no space", "free some space"} {
		if !strings.Contains(e.Error(), says) {
			t.Errorf("%q does not say %q", e, says)
		}
	}
	retry := <-h.asked
	<-full
	full <- false
	retry <- noon
	if r := <-told; r.Err != nil || r.Path == "" {
		t.Errorf("tried again: %+v", r)
	}
}

func TestNoFolderAtAll(t *testing.T) {
	k := New(Options{Disk: shop(), Machine: machine(7), Now: func() time.Time { return noon }})
	defer k.Close()
	k.Hold(workAt("", several(2), -1))
	if err := k.Flush(); err == nil || !strings.Contains(err.Error(), "save the project") {
		t.Errorf("%v", err)
	}
}

// The journal that was taken up goes only when its work is kept again.
func TestAdopted(t *testing.T) {
	m, projects := shop(), several(6)
	mustSave(t, m, table, projects[0])
	dead := keeperOn(t, m, 5, nil)
	dead.Hold(workAt(table, projects[:4], 0))
	dead.Close()
	found, _ := finder(m).Find(table)
	if len(found) != 1 {
		t.Fatal("nothing to adopt")
	}
	var fails error
	d := &faulty.Disk{Under: m, Fail: func(s faulty.Step) error {
		if s.Op == "sync" {
			return fails
		}
		return nil
	}}
	fails = syscall.EIO
	k := keeperOn(t, d, 7, nil)
	k.Hold(found[0].Work)
	k.Adopt(found[0].File)
	if err := k.Flush(); err == nil {
		t.Fatal("the disk fails and nothing is said")
	}
	if again, _ := finder(m).Find(table); len(again) != 1 || again[0].File != found[0].File {
		t.Fatal("the old journal is gone before the new one is there")
	}
	k.Close()
	fails = nil
	k = keeperOn(t, d, 8, nil)
	k.Hold(found[0].Work)
	k.Adopt(found[0].File)
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	if again, _ := finder(m).Find(table); len(again) != 1 || again[0].File == found[0].File || numberOf(again[0].Project()) != 3 {
		t.Error("there is not the one new journal")
	}
}

// Whatever fails and whenever the power goes: what was told to be kept is
// found, or something later.
func TestWhatWasKeptIsFound(t *testing.T) {
	projects := several(40)
	rapid.Check(t, func(rt *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 2))
		faults := rapid.SampledFrom([]float64{0, 0.05, 0.3}).Draw(rt, "faults")
		cut := rapid.IntRange(0, 120).Draw(rt, "steps until the power goes")
		m := shop()
		var mu sync.Mutex // the keeper's goroutine comes by too
		var now, then struct{ began, kept, saved int }
		var after *faulty.Memory
		d := &faulty.Disk{Under: m}
		d.Fail = func(s faulty.Step) error {
			mu.Lock()
			defer mu.Unlock()
			if s.N == cut {
				after, then = m.PowerCut(r), now
			}
			if r.Float64() >= faults {
				return nil
			}
			if s.Op == "sync-dir" || r.IntN(2) == 0 {
				return syscall.EIO
			}
			return syscall.ENOSPC
		}
		on := func() bool { mu.Lock(); defer mu.Unlock(); return after == nil }
		note := func(at *int, n int) { mu.Lock(); defer mu.Unlock(); *at = n }
		mustSave(t, m, table, projects[0])
		k := keeperOn(t, d, 7, nil)
		saved := 0
		for n := 1; n < len(projects) && on(); n++ {
			note(&now.began, n)
			k.Hold(workAt(table, projects[:n+1], saved))
			if k.Flush() == nil {
				note(&now.kept, n)
			}
			if n%5 == 0 {
				if err := saveOn(d, projects[n]); err == nil {
					saved = n
					note(&now.saved, n)
					k.Hold(workAt(table, projects[:n+1], saved))
					k.Flush()
				}
			}
		}
		k.Close()
		if on() {
			after, then = m.PowerCut(r), now
		}
		inFile, inJournal := restart(rt, after)
		if last := max(inFile, inJournal); inFile < then.saved || last < then.kept || last > then.began {
			rt.Fatalf("file %d, journal %d; began, kept, saved %v", inFile, inJournal, then)
		}
	})
}

type fataler interface{ Fatalf(string, ...any) }

// restart returns the numbers of what is found in the file and in the newest
// journal, -1 for none.
func restart(t fataler, d disk.Disk) (inFile, inJournal int) {
	inFile, inJournal = -1, -1
	p, err := projectIn(d, table)
	if err != nil {
		t.Fatalf("the file is no whole project: %v", err)
	}
	if p != nil {
		inFile = numberOf(p)
	}
	found, odd := finder(d).Find(table)
	if len(odd) > 0 {
		t.Fatalf("a journal is torn: %v", odd)
	}
	for _, j := range found {
		inJournal = max(inJournal, numberOf(j.Project()))
	}
	return
}

func TestStateDir(t *testing.T) {
	for want, env := range map[string]map[string]string{
		"":                             {},
		"/h/.local/state/heartside":    {"HOME": "/h"},
		"/x/heartside":                 {"HOME": "/h", "XDG_STATE_HOME": "/x"},
		"/home/.local/state/heartside": {"HOME": "/home", "XDG_STATE_HOME": "relative"}, // as the base directory specification says
	} {
		if got := StateDir(func(k string) string { return env[k] }); got != want {
			t.Errorf("%v: %q, want %q", env, got, want)
		}
	}
}

// Names too long for a file system are shortened.
func TestLongNames(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, strings.Repeat("ü", 120)+".yaml")
	if err := os.WriteFile(path, nil, 0o666); err != nil {
		t.Skip("no such names here:", err)
	}
	k := New(Options{Disk: disk.Real{}, Machine: machine(7), Now: func() time.Time { return noon }})
	defer k.Close()
	k.Hold(Work{Path: path, Saved: -1, States: []model.State{{Project: numbered(1)}}})
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	if found, odd := (Finder{Disk: disk.Real{}, Machine: machine(8)}).Find(path); len(found) != 1 {
		t.Errorf("found %v, %v", found, odd)
	}
}
