package faulty

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"syscall"
	"testing"

	"heartside/model/disk"
)

func write(t *testing.T, d disk.Disk, path, text string, sync bool) {
	t.Helper()
	f, err := d.Create(path, 0o666)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if sync {
		if err := f.Sync(); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// What was synced outlasts every power cut; what was not comes about in all
// the ways it may.
func TestPowerCut(t *testing.T) {
	m := NewMemory("/d")
	write(t, m, "/d/kept", "whole", true)
	if err := m.SyncDir("/d"); err != nil {
		t.Fatal(err)
	}
	write(t, m, "/d/torn", "whole", false)
	write(t, m, "/d/new", "after", true)
	if err := m.Rename("/d/new", "/d/kept"); err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	r := rand.New(rand.NewPCG(1, 1))
	for range 400 {
		after := m.PowerCut(r)
		for _, name := range []string{"kept", "torn"} {
			got, err := disk.Read(after, "/d/"+name, 100)
			if errors.Is(err, fs.ErrNotExist) {
				got = []byte("nothing")
			}
			seen[name+" "+string(got)]++
		}
	}
	for _, want := range []string{"kept whole", "kept after", "torn nothing", "torn ", "torn w", "torn whole"} {
		if seen[want] == 0 {
			t.Errorf("never seen: %q", want)
		}
	}
	if len(seen) != 2+1+6 { // any beginning of five letters
		t.Errorf("seen %v", seen)
	}
	if got, err := disk.Read(m, "/d/kept", 100); err != nil || string(got) != "after" {
		t.Errorf("the disk itself changed: %q, %v", got, err)
	}
}

func TestMemoryRefuses(t *testing.T) {
	m := NewMemory("/d")
	write(t, m, "/d/a", "a", true)
	for what, err := range map[string]error{
		"create onto a file": func() error { _, err := m.Create("/d/a", 0o666); return err }(),
		"link onto a file":   m.Link("/d/a", "/d/a"),
	} {
		if !errors.Is(err, fs.ErrExist) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if err := m.Rename("/d/b", "/d/c"); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
	m.ReadOnly("/d", true)
	if err := m.Remove("/d/a"); !errors.Is(err, fs.ErrPermission) {
		t.Error(err)
	}
	m.Vanish("/d")
	if _, err := m.Stat("/d/a"); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
}

func TestDiskFailsWhereTold(t *testing.T) {
	m := NewMemory("/d")
	d := &Disk{Under: m, Fail: func(s Step) error {
		if s.Op == "write" {
			return syscall.ENOSPC
		}
		return nil
	}}
	f, err := d.Create("/d/a", 0o666)
	if err != nil {
		t.Fatal(err)
	}
	if n, err := f.Write([]byte("12345678")); n != 4 || !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("%d, %v", n, err)
	}
	if got, _ := disk.Read(m, "/d/a", 100); string(got) != "1234" || d.Steps() != 2 {
		t.Errorf("%q after %d steps", got, d.Steps())
	}
}
