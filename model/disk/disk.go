package disk

import (
	"io"
	"io/fs"
	"os"
)

// Disk is a file system. Paths are those of package os, errors too.
type Disk interface {
	Stat(path string) (fs.FileInfo, error)
	Names(dir string) ([]string, error) // of a folder, sorted
	Open(path string) (io.ReadCloser, error)
	// Create makes a new file; where one is already it fails.
	Create(path string, perm fs.FileMode) (File, error)
	MkdirAll(dir string, perm fs.FileMode) error
	Link(old, new string) error
	Rename(old, new string) error
	Remove(path string) error
	SyncDir(dir string) error
}

// File is a file being written.
type File interface {
	io.WriteCloser
	Sync() error
	Chmod(fs.FileMode) error
}

// Real is the computer's own file system.
type Real struct{}

// Stat implements Disk.
func (Real) Stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// Names implements Disk.
func (Real) Names(dir string) ([]string, error) {
	list, err := os.ReadDir(dir)
	names := make([]string, len(list))
	for i, e := range list {
		names[i] = e.Name()
	}
	return names, err
}

// Open implements Disk.
func (Real) Open(path string) (io.ReadCloser, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Create implements Disk.
func (Real) Create(path string, perm fs.FileMode) (File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, perm)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// MkdirAll implements Disk.
func (Real) MkdirAll(dir string, perm fs.FileMode) error { return os.MkdirAll(dir, perm) }

// Link implements Disk.
func (Real) Link(old, new string) error { return os.Link(old, new) }

// Rename implements Disk.
func (Real) Rename(old, new string) error { return os.Rename(old, new) }

// Remove implements Disk.
func (Real) Remove(path string) error { return os.Remove(path) }

// SyncDir implements Disk.
func (Real) SyncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}
