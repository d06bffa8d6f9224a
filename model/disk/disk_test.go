package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestReplaceOnTheRealDisk(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "sub", "t.txt")
	if err := (Real{}).MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"one", "another one"} {
		if err := Replace(Real{}, path, []byte(text), Mode{Perm: 0o600, Exact: true}); err != nil {
			t.Fatal(err)
		}
		got, err := Read(Real{}, path, 100)
		if err != nil || string(got) != text {
			t.Errorf("%q, %v", got, err)
		}
	}
	if info, err := (Real{}).Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v %v", info, err)
	}
	if names, err := (Real{}).Names(filepath.Dir(path)); err != nil || strings.Join(names, " ") != "t.txt" {
		t.Errorf("the folder holds %v, %v", names, err)
	}
	if _, err := Read(Real{}, path, 3); !errors.Is(err, ErrTooLarge) {
		t.Errorf("a file too large: %v", err)
	}
}

// What another program has begun, or a crash has left, is not written into.
func TestStageLeavesOthersAlone(t *testing.T) {
	dir := t.TempDir()
	path, others := filepath.Join(dir, "t"), filepath.Join(dir, ".t-0.tmp")
	if err := os.WriteFile(others, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	s, err := Stage(Real{}, path, []byte("new"), Mode{Perm: 0o666})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Error("it is in place before it is placed")
	}
	s.Drop()
	if got, err := os.ReadFile(others); err != nil || string(got) != "mine" {
		t.Errorf("%q, %v", got, err)
	}
	if names, _ := (Real{}).Names(dir); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
}

func TestCopyNeverOverwrites(t *testing.T) {
	dir := t.TempDir()
	from, to := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	for _, p := range []string{from, to} {
		if err := os.WriteFile(p, []byte(p), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := Copy(Real{}, from, to); !errors.Is(err, fs.ErrExist) {
		t.Errorf("%v", err)
	}
	if got, _ := os.ReadFile(to); string(got) != to {
		t.Errorf("%q", got)
	}
	if err := Copy(Real{}, from, to+"2"); err != nil {
		t.Error(err)
	}
	if got, _ := os.ReadFile(to + "2"); string(got) != from {
		t.Errorf("%q", got)
	}
}
