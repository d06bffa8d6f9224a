package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"syscall"

	"heartside/model/say"
)

// StepError says which step of writing a file failed.
type StepError struct {
	Step   string // "write", "bring it to disk", ...
	Placed bool   // the new file is in place, though a power cut may undo that
	Err    error
}

// Error implements error.
func (e *StepError) Error() string { return say.Of(e.Step) + ": " + say.Err(e.Err) }

// Unwrap returns the cause.
func (e *StepError) Unwrap() error { return e.Err }

// Mode is the permissions of a new file: Perm less what the user's own habit
// takes away, or Exact.
type Mode struct {
	Perm  fs.FileMode
	Exact bool
}

// Staged is a new file that is whole and on disk, beside the one it replaces.
type Staged struct {
	d          Disk
	temp, path string
}

// Stage writes data into a new file beside path and brings it to disk. On an
// error, a *StepError, nothing is left behind.
func Stage(d Disk, path string, data []byte, mode Mode) (*Staged, error) {
	f, temp, err := create(d, path, mode.Perm)
	if err != nil {
		return nil, &StepError{Step: say.Mark("make a file in the folder"), Err: err}
	}
	if err := fill(f, data, mode); err != nil {
		d.Remove(temp)
		return nil, err
	}
	return &Staged{d, temp, path}, nil
}

// create makes a file of a name nobody has.
func create(d Disk, path string, perm fs.FileMode) (File, string, error) {
	dir, name := filepath.Split(path)
	for try := 0; ; try++ {
		temp := filepath.Join(dir, fmt.Sprintf(".%s-%d.tmp", name, try))
		f, err := d.Create(temp, perm)
		if errors.Is(err, fs.ErrExist) && try < 10000 { // someone else's, or left by a crash
			continue
		}
		return f, temp, err
	}
}

func fill(f File, data []byte, mode Mode) error {
	n, err := f.Write(data)
	if err == nil && n < len(data) {
		err = io.ErrShortWrite
	}
	if err != nil {
		f.Close()
		return &StepError{Step: say.Mark("write"), Err: err}
	}
	if mode.Exact {
		if err := f.Chmod(mode.Perm); err != nil {
			f.Close()
			return &StepError{Step: say.Mark("set permissions"), Err: err}
		}
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return &StepError{Step: say.Mark("bring it to disk"), Err: err}
	}
	if err := f.Close(); err != nil {
		return &StepError{Step: say.Mark("close"), Err: err}
	}
	return nil
}

// Drop takes the new file away.
func (s *Staged) Drop() { s.d.Remove(s.temp) }

// Backup gives the file that is there a second name, whole at any moment: a
// backup of before is there until the new one is.
func (s *Staged) Backup(to string) error {
	if err := s.backup(to); err != nil {
		return &StepError{Step: say.Mark("keep the previous file"), Err: err}
	}
	return nil
}

func (s *Staged) backup(to string) error {
	second := s.temp + ".bak"
	if err := s.d.Link(s.path, second); err != nil {
		if err := Copy(s.d, s.path, second); err != nil {
			return err
		}
	}
	if err := s.d.Rename(second, to); err != nil {
		s.d.Remove(second)
		return err
	}
	// Two names of one file are not moved onto each other by a rename.
	s.d.Remove(second)
	return nil
}

// Place puts the new file in place of the old one. On an error the old one is
// there as it was, unless the *StepError says Placed.
func (s *Staged) Place() error {
	if err := s.d.Rename(s.temp, s.path); err != nil {
		s.Drop()
		return &StepError{Step: say.Mark("put the new file in place"), Err: err}
	}
	if err := s.d.SyncDir(filepath.Dir(s.path)); err != nil && !cannotSync(err) {
		return &StepError{Step: say.Mark("bring the folder to disk"), Placed: true, Err: err}
	}
	return nil
}

// PlaceNew puts the new file in place where there is none; else the error is
// fs.ErrExist. The new file is taken away on any error.
func (s *Staged) PlaceNew() error {
	err := s.d.Link(s.temp, s.path)
	if err != nil && !errors.Is(err, fs.ErrExist) { // a disk without links
		err = Copy(s.d, s.temp, s.path)
	}
	s.Drop()
	return err
}

// cannotSync reports whether a file system only says that it syncs no folders,
// as those of cameras and networks do.
func cannotSync(err error) bool {
	for _, e := range []error{syscall.EINVAL, syscall.ENOTSUP, syscall.ENOSYS, syscall.EBADF, fs.ErrPermission, errors.ErrUnsupported} {
		if errors.Is(err, e) {
			return true
		}
	}
	return false
}

// Replace writes data to path so that the file is the old or the new one at
// any moment. The error is a *StepError.
func Replace(d Disk, path string, data []byte, mode Mode) error {
	s, err := Stage(d, path, data, mode)
	if err != nil {
		return err
	}
	return s.Place()
}

// Copy makes a new file with the content of another; never onto one that is
// there, which may be the same file.
func Copy(d Disk, from, to string) (err error) {
	in, err := d.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := d.Create(to, 0o666)
	if err != nil {
		return err
	}
	defer func() {
		err = errors.Join(err, out.Close())
		if err != nil {
			d.Remove(to)
		}
	}()
	if _, err := io.Copy(out, in); err != nil {
		return err
	}
	return out.Sync()
}

// ErrTooLarge is given for a file of more bytes than asked for.
var ErrTooLarge = say.Later("the file is too large")

// Read returns the content of a file of at most limit bytes.
func Read(d Disk, path string, limit int64) ([]byte, error) {
	f, err := d.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err == nil && int64(len(data)) > limit {
		return nil, &fs.PathError{Op: "read", Path: path, Err: ErrTooLarge}
	}
	return data, err
}
