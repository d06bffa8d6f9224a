package keep

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"heartside/model/disk"
	"heartside/model/disk/faulty"
)

func TestTwoWindows(t *testing.T) {
	m := shop()
	first := Finder{Disk: m, State: "/state", Machine: machine(7, 8)}
	second := Finder{Disk: m, State: "/state", Machine: machine(8, 7)}
	a, err := first.Lock(table, noon)
	if err != nil || a == nil {
		t.Fatal(err)
	}
	_, err = second.Lock(table, noon)
	var held *HeldError
	if !errors.As(err, &held) || held.Life != Living || held.Owner.PID != 7 || !held.Since.Equal(noon) {
		t.Fatalf("the second is told %v", err)
	}
	for _, says := range []string{"another window", "anna", "shop", "process 7"} {
		if !strings.Contains(err.Error(), says) {
			t.Errorf("%q does not say %q", err, says)
		}
	}
	if _, err := first.Lock(table, noon); err == nil {
		t.Error("two windows of one program have it")
	}
	if l, err := second.Lock("/job/other.yaml", noon); err != nil || l == nil {
		t.Errorf("another project: %v", err)
	}
	a.Release()
	b, err := second.Lock(table, noon)
	if err != nil {
		t.Fatal(err)
	}
	a.Release() // not its own any more
	if _, err := first.Lock(table, noon); err == nil {
		t.Error("a window gave free what was another's")
	}
	c := first.Seize(table, noon)
	b.Release()
	if _, err := second.Lock(table, noon); err == nil {
		t.Error("what was taken over was given free by the one it was taken from")
	}
	c.Release()
	if names := namesIn(t, m, "/job"); len(names) != 1 { // that of the other project
		t.Errorf("left: %v", names)
	}
	(*Lock)(nil).Release()
}

// Which locks count as dead, case by case.
func TestLife(t *testing.T) {
	self := machine(9, 7)
	live := machine(7).Self
	with := func(f func(*Owner)) Owner { o := live; f(&o); return o }
	for what, c := range map[string]struct {
		o    Owner
		want Life
	}{
		"itself":                         {self.Self, Living},
		"a process that runs":            {live, Living},
		"a process that ended":           {with(func(o *Owner) { o.PID = 6 }), Dead},
		"its number given to another":    {with(func(o *Owner) { o.Start = "1" }), Dead},
		"before the machine was started": {with(func(o *Owner) { o.Boot = "a" }), Dead},
		"the machine renamed":            {with(func(o *Owner) { o.Host = "old" }), Living},
		"another machine":                {with(func(o *Owner) { o.Host, o.Boot = "mill", "c" }), Unknown},
		"another machine, boot unknown":  {with(func(o *Owner) { o.Host, o.Boot = "mill", "" }), Unknown},
		"numbers of another space":       {with(func(o *Owner) { o.PID, o.Space = 6, "t" }), Unknown},
		"nothing":                        {Owner{}, Unknown},
	} {
		if got := self.Life(c.o); got != c.want {
			t.Errorf("%s: %d, want %d", what, got, c.want)
		}
	}
}

func TestStaleLocks(t *testing.T) {
	m := shop()
	dead := Finder{Disk: m, State: "/state", Machine: machine(5)}
	if _, err := dead.Lock(table, noon); err != nil {
		t.Fatal(err)
	}
	l, err := finder(m).Lock(table, noon)
	if err != nil || l == nil {
		t.Fatalf("a dead lock is not taken over: %v", err)
	}
	l.Release()
	if names := namesIn(t, m, "/job"); len(names) != 0 {
		t.Errorf("left: %v", names)
	}
	// What cannot be read is taken for somebody's, and can be taken over by hand.
	put(t, m, lockFile(table), []byte("{half"))
	if _, err := finder(m).Lock(table, noon); err == nil || !strings.Contains(err.Error(), lockFile(table)) {
		t.Errorf("%v", err)
	}
	if finder(m).Seize(table, noon) == nil {
		t.Error("cannot be taken over")
	}
}

// In a folder that takes no file, windows of one user still see one another.
func TestLockWhereNothingCanBeWritten(t *testing.T) {
	m := shop()
	m.ReadOnly("/job", true)
	a, err := (Finder{Disk: m, State: "/state", Machine: machine(7, 8)}).Lock(table, noon)
	if err != nil || a == nil {
		t.Fatal(err)
	}
	second := Finder{Disk: m, State: "/state", Machine: machine(8, 7)}
	if _, err := second.Lock(table, noon); err == nil {
		t.Error("the second is not told")
	}
	m.ReadOnly("/state", true)
	if l, err := second.Lock("/job/other.yaml", noon); l != nil || err != nil {
		t.Errorf("where there is no place for a lock: %v, %v", l, err)
	}
	l, err := second.Lock("/job/other.yaml", noon)
	l.Release()
	if err != nil {
		t.Error(err)
	}
}

// Of many that come at once over a dead lock one gets it. On the real disk.
func TestOneOfManyGetsTheLock(t *testing.T) {
	path := filepath.Join(t.TempDir(), "table.yaml")
	for range 20 {
		if _, err := (Finder{Disk: disk.Real{}, Machine: machine(5)}).Lock(path, noon); err != nil {
			t.Fatal(err)
		}
		var got atomic.Int32
		var wg sync.WaitGroup
		for i := range 4 {
			wg.Add(1)
			go func() {
				defer wg.Done()
				l, err := (Finder{Disk: disk.Real{}, Machine: machine(10+i, 10, 11, 12, 13)}).Lock(path, noon)
				var held *HeldError
				if l != nil {
					got.Add(1)
				} else if err != nil && !errors.As(err, &held) {
					t.Error(err)
				}
			}()
		}
		wg.Wait()
		if got.Load() > 1 {
			t.Fatalf("%d have it", got.Load())
		}
		os.Remove(lockFile(path))
	}
}

// Whatever step fails, nobody has a lock that another has too.
func TestLockWithFaults(t *testing.T) {
	for step := range 14 {
		m := shop()
		d := &faulty.Disk{Under: m, Fail: func(s faulty.Step) error {
			if s.N == step {
				return errors.New("no")
			}
			return nil
		}}
		if _, err := (Finder{Disk: m, State: "/state", Machine: machine(5)}).Lock(table, noon); err != nil {
			t.Fatal(err)
		}
		l, _ := (Finder{Disk: d, State: "/state", Machine: machine(7, 8)}).Lock(table, noon)
		if l != nil && l.file == lockFile(table) {
			if _, err := (Finder{Disk: m, State: "/state", Machine: machine(8, 7)}).Lock(table, noon); err == nil {
				t.Errorf("step %d: both have it", step)
			}
		}
	}
}

func TestThisMachine(t *testing.T) {
	m := ThisMachine()
	if m.Life(m.Self) != Living || m.Self.PID != os.Getpid() {
		t.Error("this program does not live")
	}
	again := m.Self
	again.User = "another" // so that it is asked for by number
	if _, err := os.Stat("/proc/self/stat"); err == nil {
		if m.Life(again) != Living {
			t.Error("this process is not found in the table")
		}
		again.PID = 1 << 30 // beyond what a system gives
		if m.Life(again) != Dead {
			t.Error("a process that cannot be is found")
		}
	}
}
