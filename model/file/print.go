package file

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"time"

	"heartside/model/disk"
)

// Print is what a file is known again by: its content, and when it was
// written. The zero value is that of no file.
type Print struct {
	Size int64
	Time time.Time
	Sum  [sha256.Size]byte // SHA-256 of the content
}

// PrintOf returns the print of a file's content.
func PrintOf(data []byte) Print {
	return Print{Size: int64(len(data)), Sum: sha256.Sum256(data)}
}

// PrintAt reads the file at path for its print; where there is none it is the
// zero value.
func PrintAt(d disk.Disk, path string) (Print, error) {
	info, err := d.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Print{}, nil
	}
	if err != nil {
		return Print{}, err
	}
	f, err := d.Open(path)
	if err != nil {
		return Print{}, err
	}
	defer f.Close()
	h := sha256.New()
	n, err := io.Copy(h, f)
	if err != nil {
		return Print{}, err
	}
	return Print{n, info.ModTime(), [sha256.Size]byte(h.Sum(nil))}, nil
}

// None reports whether there was no file.
func (p Print) None() bool { return p == Print{} }

// Same reports whether two prints are of the same content. A file touched but
// not changed is the same.
func (p Print) Same(q Print) bool {
	return p.None() == q.None() && p.Size == q.Size && bytes.Equal(p.Sum[:], q.Sum[:])
}
