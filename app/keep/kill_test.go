//go:build unix

package keep

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/disk/faulty"
	"heartside/model/file"
)

// The test program itself, started with these, is the program that is killed.
const (
	killFolder = "HEARTSIDE_TEST_KEEP_FOLDER"
	killStep   = "HEARTSIDE_TEST_KEEP_STEP" // at which it kills itself, -1 never
	killHow    = "HEARTSIDE_TEST_KEEP_HOW"  // before, after, or half: in the middle of a write
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(killFolder); dir != "" {
		if err := edit(dir); err != nil {
			fmt.Println("failed", err)
		}
		return
	}
	os.Exit(m.Run())
}

func die() { syscall.Kill(os.Getpid(), syscall.SIGKILL) }

// edit is a window without one: it takes up what was left, then changes, keeps
// and saves, telling each on its output, until it is killed.
func edit(dir string) error {
	step, _ := strconv.Atoi(os.Getenv(killStep))
	how := os.Getenv(killHow)
	dying := false
	d := &faulty.Disk{Under: disk.Real{}}
	d.Fail = func(s faulty.Step) error {
		switch {
		case dying || s.N == step && how == "before":
			die()
		case s.N == step && how == "half":
			if s.Op != "write" {
				die()
			}
			dying = true
			return syscall.EIO // half is written
		}
		return nil
	}
	d.After = func(s faulty.Step) {
		if s.N == step && how == "after" {
			die()
		}
	}
	path := filepath.Join(dir, "table.yaml")
	f := Finder{Disk: d, State: filepath.Join(dir, "state"), Machine: ThisMachine()}
	l, err := f.Lock(path, time.Now())
	if err != nil {
		return err
	}
	defer l.Release()
	k := New(Options{Disk: d, State: f.State, Machine: f.Machine, Now: time.Now, After: func(time.Duration) <-chan time.Time {
		c := make(chan time.Time, 1)
		c <- time.Now()
		return c
	}})
	n := 0
	var states []model.State
	if p, err := projectIn(d, path); err != nil {
		return err
	} else if p != nil {
		n = numberOf(p)
		states = append(states, model.State{Project: p})
	}
	found, odd := f.Find(path)
	if len(odd) > 0 {
		return fmt.Errorf("%v", odd)
	}
	if len(found) > 0 {
		n = numberOf(found[0].Project())
		states = found[0].States
		k.Hold(Work{Path: path, States: states, Saved: -1})
		for _, j := range found {
			k.Adopt(j.File)
		}
		if err := k.Flush(); err != nil {
			return err
		}
	}
	for {
		n++
		fmt.Println("began", n)
		p := numbered(n)
		states = append(states, model.State{Label: "Change", Project: p})
		states = states[max(0, len(states)-6):]
		w := Work{Path: path, States: states, Saved: -1}
		k.Hold(w)
		if err := k.Flush(); err != nil {
			return err
		}
		fmt.Println("kept", n)
		if n%3 == 0 {
			if err := file.SaveOn(d, path, p); err != nil {
				return err
			}
			fmt.Println("saved", n)
			w.Saved = len(states) - 1
			k.Hold(w)
			if err := k.Flush(); err != nil {
				return err
			}
		}
	}
}

// Killed at two hundred points, at steps of writing and at any moment, the
// next start finds a whole project: the last state, or the one before it.
func TestKilledAnywhere(t *testing.T) {
	points := 200
	if testing.Short() {
		points = 24
	}
	r := rand.New(rand.NewPCG(20, 26))
	var dir string
	fromJournal, fromFile := 0, 0
	for i := range points {
		if i%8 == 0 { // what is left behind gathers for a while
			dir = t.TempDir()
		}
		step, how := r.IntN(110), []string{"before", "after", "half"}[r.IntN(3)]
		lines := -1
		if r.IntN(4) == 0 { // from outside, at any moment after some line
			step, lines = -1, 1+r.IntN(30)
		}
		began, kept, saved := killed(t, dir, step, how, lines)
		what := fmt.Sprintf("point %d, step %d %s, line %d", i, step, how, lines)
		inFile, inJournal := restartIn(t, dir, what)
		last := max(inFile, inJournal)
		if last < began-1 || last > began || last < kept || inFile < saved {
			t.Fatalf("%s: began %d, kept %d, saved %d; found %d in the file and %d in a journal", what, began, kept, saved, inFile, inJournal)
		}
		if inJournal > inFile {
			fromJournal++
		} else {
			fromFile++
		}
	}
	if fromJournal < points/8 || fromFile < points/20 {
		t.Errorf("only %d times a journal was needed and %d times the file: the points are badly chosen", fromJournal, fromFile)
	}
}

// killed runs the program in the folder until it is dead, and returns the
// numbers told last.
func killed(t *testing.T, dir string, step int, how string, lines int) (began, kept, saved int) {
	t.Helper()
	before, journal := restartIn(t, dir, "before the start")
	began, kept, saved = max(before, journal, 0), max(before, journal), before
	c := exec.CommandContext(t.Context(), os.Args[0])
	c.Env = append(os.Environ(), killFolder+"="+dir, killStep+"="+strconv.Itoa(step), killHow+"="+how)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	for scan := bufio.NewScanner(out); scan.Scan(); {
		word, number, _ := strings.Cut(scan.Text(), " ")
		n, _ := strconv.Atoi(number)
		switch word {
		case "began":
			began = n
		case "kept":
			kept = n
		case "saved":
			saved = n
		default:
			t.Fatalf("the program says %q", scan.Text())
		}
		if lines--; lines == 0 {
			c.Process.Kill()
		}
	}
	c.Wait()
	if s, ok := c.ProcessState.Sys().(syscall.WaitStatus); !ok || s.Signal() != syscall.SIGKILL {
		t.Fatalf("the program ended by itself: %v", c.ProcessState)
	}
	return began, kept, saved
}

func restartIn(t *testing.T, dir, what string) (inFile, inJournal int) {
	t.Helper()
	inFile, inJournal = -1, -1
	path := filepath.Join(dir, "table.yaml")
	p, err := projectIn(disk.Real{}, path)
	if err != nil {
		t.Fatalf("%s: the file is no whole project: %v", what, err)
	}
	if p != nil {
		inFile = numberOf(p)
	}
	found, odd := (Finder{Disk: disk.Real{}, State: filepath.Join(dir, "state"), Machine: ThisMachine()}).Find(path)
	if len(odd) > 0 {
		t.Fatalf("%s: %v", what, odd)
	}
	for _, j := range found {
		inJournal = max(inJournal, numberOf(j.Project()))
	}
	return
}
