package file

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"syscall"

	"heartside/model"
)

// BackupSuffix is added to the name of the file that a save replaced.
const BackupSuffix = ".bak"

// SaveError says which step of a save failed. The file that was there before
// is unchanged.
type SaveError struct {
	Path string
	Step string // "write", "keep the previous file", ...
	Err  error
}

// Error implements error: what, where, and what to do.
func (e *SaveError) Error() string {
	return fmt.Sprintf("%s was not saved: %s: %v; %s; the file that was there is as it was", e.Path, e.Step, Cause(e.Err), e.hint())
}

// Unwrap returns the cause.
func (e *SaveError) Unwrap() error { return e.Err }

func (e *SaveError) hint() string {
	switch {
	case errors.Is(e.Err, syscall.ENOSPC) || errors.Is(e.Err, syscall.EDQUOT):
		return "the disk is full: free some space, or save in another place"
	case errors.Is(e.Err, fs.ErrPermission) || errors.Is(e.Err, syscall.EROFS):
		return "the folder may not be written: save in another one, or change its permissions"
	case errors.Is(e.Err, fs.ErrNotExist):
		return "the folder is not there any more: save in another one"
	case errors.Is(e.Err, syscall.ENOTDIR) || errors.Is(e.Err, syscall.EISDIR):
		return "the path leads through something that is no folder, or to a folder: choose another name"
	}
	return "try again, or save in another place"
}

// Save writes p to path so that the file is either the old or the new one,
// whatever happens. The file replaced stays beside it, its name ended by .bak.
// A project that breaks a rule is not written, since it could not be read.
func Save(path string, p *model.Project) error { return save(realDisk{}, path, p) }

func save(d disk, path string, p *model.Project) error {
	if err := model.Validate(p); err != nil {
		return &SaveError{path, "check the project", err}
	}
	data := Marshal(p)
	// A link stays a link to the file it names.
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	dir := filepath.Dir(path)
	old, err := d.Stat(path)
	switch {
	case err == nil && old.IsDir():
		return &SaveError{path, "open", syscall.EISDIR}
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return &SaveError{path, "open", err}
	case err != nil:
		old = nil
	}
	temp, err := d.Create(dir, filepath.Base(path))
	if err != nil {
		return &SaveError{path, "make a file in the folder", err}
	}
	name := temp.Name()
	if step, err := fill(temp, data, old); err != nil {
		d.Remove(name)
		return &SaveError{path, step, err}
	}
	if old != nil {
		if err := backup(d, path, name+BackupSuffix); err != nil {
			d.Remove(name)
			return &SaveError{path, "keep the previous file", err}
		}
	}
	if err := d.Rename(name, path); err != nil {
		d.Remove(name)
		return &SaveError{path, "put the new file in place", err}
	}
	// The new file is in place and whole. Some file systems cannot sync a
	// folder; at worst a power cut in this second brings the old file back.
	_ = d.SyncDir(dir)
	return nil
}

// fill writes the temporary file, brings it to disk and closes it; on an
// error it says at which step.
func fill(f tempFile, data []byte, old fs.FileInfo) (step string, err error) {
	if _, err := f.Write(data); err != nil {
		f.Close()
		return "write", err
	}
	if old != nil {
		if err := f.Chmod(old.Mode().Perm()); err != nil {
			f.Close()
			return "set permissions", err
		}
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return "bring it to disk", err
	}
	return "close", f.Close()
}

// backup gives the file at path a second name, by way of temp so that a
// backup of before is there until the new one is.
func backup(d disk, path, temp string) error {
	if err := d.Link(path, temp); err != nil {
		if err := d.Copy(path, temp); err != nil {
			return err
		}
	}
	if err := d.Rename(temp, path+BackupSuffix); err != nil {
		d.Remove(temp)
		return err
	}
	// Two names of one file are not moved onto each other by a rename.
	d.Remove(temp)
	return nil
}
