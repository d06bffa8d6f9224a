package keep

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"time"

	"heartside/model/disk"
	"heartside/model/say"
)

// Held says who has a project open.
type Held struct {
	Owner Owner     `json:"owner"`
	Since time.Time `json:"since"`
	Token string    `json:"token"` // tells the windows of one program apart
}

// HeldError is given where another window has the project.
type HeldError struct {
	Held
	Life Life   // Living, or Unknown
	File string // the lock
}

// Error implements error.
func (e *HeldError) Error() string {
	if e.Owner.PID == 0 {
		return say.F("the project is locked by something that cannot be read: %s", e.File)
	}
	return say.F("the project is open in another window: %s", e.Who())
}

// Who says who has it, and since when.
func (e *HeldError) Who() string {
	return say.F("by %s on %s, process %d, since %s", e.Owner.User, e.Owner.Host, e.Owner.PID, say.Moment(e.Since.Local()))
}

// Lock is held by a window while it shows a project. A nil Lock is held by
// nobody.
type Lock struct {
	f    Finder
	held Held
	file string
}

// Locks are small.
const maxLock = 64 << 10

// lockFile is beside the project.
func lockFile(project string) string {
	project = real(project)
	return filepath.Join(filepath.Dir(project), hidden(project)[:len(hidden(project))-1]+lockEnd)
}

// lockInState is for a project whose folder takes no file.
func lockInState(state, project string) string {
	sum := sha256.Sum256([]byte(real(project)))
	return filepath.Join(state, fmt.Sprintf("%x", sum[:8])+lockEnd)
}

// leftAlone is how long a file that is being written is left alone before it is
// taken for one that a program left when it was ended. An engineering choice.
const leftAlone = time.Hour

// Lock takes the project at path for this window. A lock whose program is gone
// is taken over. The error is a *HeldError; a lock that can be written nowhere
// is no error: the result is then nil.
func (f Finder) Lock(path string, now time.Time) (*Lock, error) {
	l := &Lock{f: f, held: Held{Owner: f.Machine.Self, Since: now, Token: fmt.Sprintf("%d-%x", f.Machine.Self.PID, now.UnixNano())}}
	files := []string{lockFile(path)}
	if f.State != "" {
		files = append(files, lockInState(f.State, path))
	}
	for i, at := range files {
		if i > 0 {
			f.Disk.MkdirAll(f.State, 0o700)
		}
		l.file = at
		err := l.take(false)
		var held *HeldError
		switch {
		case err == nil:
			disk.Sweep(f.Disk, path, now.Add(-leftAlone))
			return l, nil
		case errors.As(err, &held):
			return nil, held
		}
	}
	return nil, nil
}

// Seize takes the project though another window has it.
func (f Finder) Seize(path string, now time.Time) *Lock {
	l := &Lock{f: f, file: lockFile(path), held: Held{Owner: f.Machine.Self, Since: now, Token: fmt.Sprintf("%d-%x", f.Machine.Self.PID, now.UnixNano())}}
	if l.take(true) != nil {
		return nil
	}
	return l
}

// take makes the lock file, over a dead one, or over any.
func (l *Lock) take(over bool) error {
	d := l.f.Disk
	data, err := json.Marshal(l.held)
	if err != nil {
		return err
	}
	for range 3 {
		s, err := disk.Stage(d, l.file, append(data, '\n'), disk.Mode{Perm: 0o644})
		if err != nil {
			// Where nothing can be written, another may still have been able to.
			if held := l.judge(); held != nil && !over {
				return held
			}
			return err
		}
		if over {
			return s.Place()
		}
		err = s.PlaceNew()
		if err == nil {
			return nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
		if held := l.judge(); held != nil {
			return held
		}
		if taken, err := l.takeOver(data); taken || err != nil {
			return err
		}
	}
	return say.Error("other windows take the lock again and again")
}

// judge reads the lock that is there: nil where there is none, or it is dead.
func (l *Lock) judge() *HeldError {
	h, err := l.read()
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return &HeldError{File: l.file}
	}
	life := l.f.Machine.Life(h.Owner)
	if life == Dead {
		return nil
	}
	return &HeldError{h, life, l.file}
}

func (l *Lock) read() (h Held, err error) {
	data, err := disk.Read(l.f.Disk, l.file, maxLock)
	if err == nil {
		err = json.Unmarshal(data, &h)
	}
	return h, err
}

// takeOver puts this lock in place of one that was found dead. Only who first
// makes a file named after the dead lock may do that, and looks again before:
// whoever is later finds the file, or a lock that is another one by now.
func (l *Lock) takeOver(data []byte) (taken bool, err error) {
	d := l.f.Disk
	was, err := l.read()
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%s %d", was.Token, was.Owner.PID))
	claim := &Lock{f: l.f, file: fmt.Sprintf("%s.%x", l.file, sum[:6])}
	s, err := disk.Stage(d, claim.file, append(data, '\n'), disk.Mode{Perm: 0o644})
	if err != nil {
		return false, err
	}
	if err := s.PlaceNew(); err != nil {
		if !errors.Is(err, fs.ErrExist) {
			return false, err
		}
		if held := claim.judge(); held != nil {
			return false, held
		}
		d.Remove(claim.file) // its program ended in the middle of this
		return false, nil
	}
	defer d.Remove(claim.file)
	if now, err := l.read(); err != nil || now.Token != was.Token || now.Owner != was.Owner {
		return false, nil
	}
	if held := l.judge(); held != nil {
		return false, held
	}
	if s, err = disk.Stage(d, l.file, append(data, '\n'), disk.Mode{Perm: 0o644}); err != nil {
		return false, err
	}
	err = s.Place()
	return err == nil, err
}

// Release gives the project free, where the lock is still this window's.
func (l *Lock) Release() {
	if l == nil {
		return
	}
	if h, err := l.read(); err == nil && h.Token == l.held.Token && h.Owner == l.held.Owner {
		l.f.Disk.Remove(l.file)
	}
}
