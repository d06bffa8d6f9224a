package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// disk is what saving needs of a file system, so that every step can be made
// to fail in a test.
type disk interface {
	Stat(path string) (fs.FileInfo, error)
	Create(dir, name string) (tempFile, error) // a new file beside the old one
	Link(old, new string) error
	Copy(from, to string) error
	Rename(old, new string) error
	Remove(path string) error
	SyncDir(dir string) error
}

type tempFile interface {
	io.WriteCloser
	Name() string
	Sync() error
	Chmod(fs.FileMode) error
}

// realDisk is the computer's own.
type realDisk struct{}

func (realDisk) Stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// Create makes a file with the permissions a new file gets here.
func (realDisk) Create(dir, name string) (tempFile, error) {
	for try := 0; ; try++ {
		f, err := os.OpenFile(filepath.Join(dir, fmt.Sprintf(".%s-%08x.tmp", name, rand.Uint32())), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) && try < 100 {
			continue
		}
		if err != nil {
			return nil, err
		}
		return f, nil
	}
}

func (realDisk) Link(old, new string) error { return os.Link(old, new) }

func (realDisk) Copy(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	// Never onto something that is there: it may be the same file.
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	defer func() {
		err = errors.Join(err, out.Close())
		if err != nil {
			os.Remove(to)
		}
	}()
	if _, err := io.Copy(out, in); err != nil {
		return err
	}
	return out.Sync()
}

func (realDisk) Rename(old, new string) error { return os.Rename(old, new) }

func (realDisk) Remove(path string) error { return os.Remove(path) }

func (realDisk) SyncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}
