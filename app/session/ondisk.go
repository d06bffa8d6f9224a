package session

import (
	"path/filepath"
	"time"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/file"
	"heartside/model/say"
)

// ErrLookOnly is returned by Save where the project is another window's.
var ErrLookOnly = say.Later("the project is open in another window and is only looked at here: save it under another name")

// ChangedError is returned by Save where another program has written the file.
type ChangedError struct {
	Path string
	When time.Time // it was written
}

// Error implements error.
func (e *ChangedError) Error() string {
	return say.F("%s was changed by another program at %s, since it was opened or saved here",
		filepath.Base(e.Path), say.Moment(e.When.Local()))
}

// onDisk is what is known of the project's file.
type onDisk struct {
	print    file.Print // zero: not known, or never there
	lookOnly bool
}

// look remembers the file as it is now.
func (s *Session) look(path string) {
	s.disk.print, _ = file.PrintAt(disk.Real{}, path)
}

// unchanged returns a *ChangedError where another program wrote the file since
// it was opened or saved here. A file that is gone, or cannot be read, is left
// to the saving.
func (s *Session) unchanged() error {
	now, err := file.PrintAt(disk.Real{}, s.path)
	if err != nil || now.None() || s.disk.print.None() || now.Same(s.disk.print) {
		return nil
	}
	return &ChangedError{s.path, now.Time}
}

// LookOnly reports whether the project is another window's, so that it cannot
// be saved to its own file.
func (s *Session) LookOnly() bool { return s.disk.lookOnly }

// SetLookOnly says whether it is.
func (s *Session) SetLookOnly(on bool) {
	if s.disk.lookOnly != on {
		s.disk.lookOnly = on
		s.changed()
	}
}

// OpenCopy puts the project in the file at path on screen as one that has no
// file yet; its pictures stay where they are.
func (s *Session) OpenCopy(path string) error {
	p, notices, _, err := readProject(path)
	if err != nil {
		return err
	}
	abs, err := filepath.Abs(path)
	if err != nil {
		return say.Errorf("open %s: %w", filepath.Base(path), err)
	}
	s.begin(p, "", Folder(filepath.Dir(abs)))
	s.remark(notices)
	return nil
}

// Standing is the project with what belongs to it beside its pictures, such as
// is kept in case the program ends.
type Standing struct {
	Path   string        // "" no file yet
	States []model.State // oldest first; the last is on screen
	Saved  int           // which of them is in the file, -1 none
	Print  file.Print    // of the file as it was opened or saved
	Panel  string        // on screen
	Board  string        // in hand
}

// Standing returns the project as committed, with at most n states before it.
func (s *Session) Standing(n int) Standing {
	sel := s.Selected()
	out := Standing{Path: s.path, States: s.hist.Recent(n), Saved: -1, Print: s.disk.print, Panel: sel.Panel, Board: sel.Board}
	for i := range out.States {
		if out.States[i].Project == s.hist.Saved() {
			out.Saved = i
		}
	}
	return out
}

// Resume puts on screen what Standing told; pictures are read from src.
func (s *Session) Resume(st Standing, src Source) {
	s.begin(st.States[len(st.States)-1].Project, st.Path, src)
	var saved *model.Project
	if st.Saved >= 0 && s.inFile(st) {
		saved = st.States[st.Saved].Project
	}
	s.hist = model.ResumeHistory(st.States, saved)
	s.disk.print = st.Print
	s.sel = Selection{Panel: st.Panel, Board: st.Board, Zone: -1}
	s.changed()
}

// inFile reports whether the file is still as it was told; a project without
// one counts as saved where it began.
func (s *Session) inFile(st Standing) bool {
	if st.Path == "" {
		return true
	}
	now, err := file.PrintAt(disk.Real{}, st.Path)
	return err == nil && now.Same(st.Print)
}

// PictureFolder returns the folder that pictures are named from; false where
// they come from elsewhere.
func (s *Session) PictureFolder() (string, bool) {
	f, ok := s.from.(Folder)
	return string(f), ok || s.from == nil
}
