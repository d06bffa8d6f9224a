package faulty

import (
	"errors"
	"io"
	"io/fs"
	"sync"

	"heartside/model/disk"
)

// Step is one thing asked of a file system.
type Step struct {
	N    int    // counted from 0
	Op   string // stat, names, open, read, create, mkdir, write, sync, chmod, close, link, rename, remove, sync-dir
	Path string // the new one of two
}

// ErrShort makes a write take half of the bytes and say so without an error.
var ErrShort = errors.New("short write")

// Disk passes on to another file system and fails where it is told to. It is
// safe for several goroutines.
type Disk struct {
	Under disk.Disk
	// Fail says whether a step fails; nil lets all pass. A write that fails
	// has written half of its bytes; a close that fails has closed.
	Fail func(Step) error
	// After is called when a step has been done, nil for nothing.
	After func(Step)

	mu sync.Mutex
	n  int
}

// Steps returns how many steps have been asked for.
func (d *Disk) Steps() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.n
}

func (d *Disk) step(op, path string) (Step, error) {
	d.mu.Lock()
	s := Step{d.n, op, path}
	d.n++
	d.mu.Unlock()
	if d.Fail == nil {
		return s, nil
	}
	err := d.Fail(s)
	if err == nil || err == ErrShort {
		return s, err
	}
	return s, &fs.PathError{Op: op, Path: path, Err: err}
}

func (d *Disk) done(s Step) {
	if d.After != nil {
		d.After(s)
	}
}

// do does a step that has no result.
func (d *Disk) do(op, path string, f func() error) error {
	s, err := d.step(op, path)
	if err != nil {
		return err
	}
	err = f()
	d.done(s)
	return err
}

// Stat implements disk.Disk.
func (d *Disk) Stat(path string) (info fs.FileInfo, err error) {
	err = d.do("stat", path, func() (err error) { info, err = d.Under.Stat(path); return })
	return
}

// Names implements disk.Disk.
func (d *Disk) Names(dir string) (names []string, err error) {
	err = d.do("names", dir, func() (err error) { names, err = d.Under.Names(dir); return })
	return
}

// Open implements disk.Disk.
func (d *Disk) Open(path string) (r io.ReadCloser, err error) {
	err = d.do("open", path, func() (err error) { r, err = d.Under.Open(path); return })
	if err != nil {
		return nil, err
	}
	return &reading{r, d, path}, nil
}

// Create implements disk.Disk.
func (d *Disk) Create(path string, perm fs.FileMode) (f disk.File, err error) {
	err = d.do("create", path, func() (err error) { f, err = d.Under.Create(path, perm); return })
	if err != nil {
		return nil, err
	}
	return &writing{f, d, path}, nil
}

// MkdirAll implements disk.Disk.
func (d *Disk) MkdirAll(dir string, perm fs.FileMode) error {
	return d.do("mkdir", dir, func() error { return d.Under.MkdirAll(dir, perm) })
}

// Link implements disk.Disk.
func (d *Disk) Link(old, new string) error {
	return d.do("link", new, func() error { return d.Under.Link(old, new) })
}

// Rename implements disk.Disk.
func (d *Disk) Rename(old, new string) error {
	return d.do("rename", new, func() error { return d.Under.Rename(old, new) })
}

// Remove implements disk.Disk.
func (d *Disk) Remove(path string) error {
	return d.do("remove", path, func() error { return d.Under.Remove(path) })
}

// SyncDir implements disk.Disk.
func (d *Disk) SyncDir(dir string) error {
	return d.do("sync-dir", dir, func() error { return d.Under.SyncDir(dir) })
}

type reading struct {
	io.ReadCloser
	d    *Disk
	path string
}

func (r *reading) Read(b []byte) (n int, err error) {
	err = r.d.do("read", r.path, func() (err error) { n, err = r.ReadCloser.Read(b); return })
	return
}

type writing struct {
	disk.File
	d    *Disk
	path string
}

func (w *writing) Write(b []byte) (int, error) {
	s, err := w.d.step("write", w.path)
	if err != nil {
		n, _ := w.File.Write(b[:len(b)/2])
		if err == ErrShort {
			err = nil
		}
		return n, err
	}
	n, err := w.File.Write(b)
	w.d.done(s)
	return n, err
}

func (w *writing) Sync() error { return w.d.do("sync", w.path, w.File.Sync) }

func (w *writing) Chmod(m fs.FileMode) error {
	return w.d.do("chmod", w.path, func() error { return w.File.Chmod(m) })
}

func (w *writing) Close() error {
	s, err := w.d.step("close", w.path)
	err = errors.Join(err, w.File.Close())
	if err == nil {
		w.d.done(s)
	}
	return err
}
