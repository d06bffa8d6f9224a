package file

import (
	"errors"
	"io/fs"
	"path/filepath"
	"syscall"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/say"
)

// BackupSuffix is added to the name of the file that a save replaced.
const BackupSuffix = ".bak"

// SaveError says which step of a save failed. The file that was there before
// is unchanged, unless the new one is in place, whole, and only not sure to
// outlast a power cut.
type SaveError struct {
	Path   string
	Step   string // "write", "keep the previous file", ...
	Placed bool   // the new file is in place
	Err    error
}

// Error implements error: what, where, and what to do.
func (e *SaveError) Error() string {
	if e.Placed {
		return say.F("%s was written, but is not sure to be there after a power cut: %s: %v; save again, or in another place", e.Path, e.Step, Cause(e.Err))
	}
	return say.F("%s was not saved: %s: %v; %s; the file that was there is as it was", e.Path, e.Step, Cause(e.Err), e.hint())
}

// Unwrap returns the cause.
func (e *SaveError) Unwrap() error { return e.Err }

func (e *SaveError) hint() string { return Hint(e.Err) }

// Hint says what to do where a file could not be written.
func Hint(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT):
		return say.T("the disk is full: free some space, or save in another place")
	case errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS):
		return say.T("the folder may not be written: save in another one, or change its permissions")
	case errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ESTALE):
		return say.T("the folder is not there any more: save in another one")
	case errors.Is(err, syscall.ENOTDIR) || errors.Is(err, syscall.EISDIR):
		return say.T("the path leads through something that is no folder, or to a folder: choose another name")
	case errors.Is(err, syscall.ENAMETOOLONG):
		return say.T("the name is too long: choose a shorter one")
	case errors.Is(err, syscall.EIO):
		return say.T("the disk does not take it: save on another one, and look after this one")
	}
	return say.T("try again, or save in another place")
}

// Save writes p to path so that the file is either the old or the new one,
// whatever happens. The file replaced stays beside it, its name ended by .bak.
// A project that breaks a rule is not written, since it could not be read. The
// error is a *SaveError.
func Save(path string, p *model.Project) error { return SaveOn(disk.Real{}, path, p) }

// SaveOn is Save on another file system than the computer's own.
func SaveOn(d disk.Disk, path string, p *model.Project) error {
	if err := model.Validate(p); err != nil {
		return &SaveError{Path: path, Step: say.T("check the project"), Err: err}
	}
	data := Marshal(p)
	// A link stays a link to the file it names.
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	old, err := d.Stat(path)
	mode := disk.Mode{Perm: 0o666}
	switch {
	case err == nil && old.IsDir():
		return &SaveError{Path: path, Step: "open", Err: syscall.EISDIR}
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return &SaveError{Path: path, Step: "open", Err: err}
	case err == nil:
		mode = disk.Mode{Perm: old.Mode().Perm(), Exact: true}
	}
	s, err := disk.Stage(d, path, data, mode)
	if err != nil {
		return saveError(path, err)
	}
	if old != nil {
		if err := s.Backup(path + BackupSuffix); err != nil {
			s.Drop()
			return saveError(path, err)
		}
	}
	if err := s.Place(); err != nil {
		return saveError(path, err)
	}
	return nil
}

// saveError names the file to an error of a step.
func saveError(path string, err error) error {
	var step *disk.StepError
	if errors.As(err, &step) {
		return &SaveError{Path: path, Step: step.Step, Placed: step.Placed, Err: step.Err}
	}
	return &SaveError{Path: path, Step: "write", Err: err}
}
