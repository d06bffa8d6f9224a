package session

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"heartside/model"
	"heartside/model/file"
	"heartside/model/say"
)

// ErrNoPath is returned by Save where the project has no file yet.
var ErrNoPath = say.Later("the project has no file yet: save it under a name")

// Open puts the project in the file at path on screen. On an error the
// project on screen stays.
func (s *Session) Open(path string) error {
	p, notices, print, err := readProject(path)
	if err != nil {
		return err
	}
	abs, err := filepath.Abs(path)
	if err != nil {
		return say.Errorf("open %s: %w", filepath.Base(path), err)
	}
	s.begin(p, abs, Folder(filepath.Dir(abs)))
	s.disk.print = print
	s.remark(notices)
	return nil
}

func readProject(path string) (*model.Project, []file.Notice, file.Print, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, nil, file.Print{}, say.Errorf("open %s: %w; check the name and that it may be read", filepath.Base(path), file.Cause(err))
	}
	p, notices, err := file.Read(data, filepath.Base(path))
	if err != nil {
		return nil, nil, file.Print{}, err
	}
	return p, notices, file.PrintOf(data), nil
}

// OpenFrom puts a project without a file of its own on screen; its pictures
// are read from src.
func (s *Session) OpenFrom(data []byte, name string, src Source) error {
	p, notices, err := file.Read(data, name)
	if err != nil {
		return err
	}
	s.begin(p, "", src)
	s.remark(notices)
	return nil
}

// Replace puts a new project without a file on screen. Its pictures are named
// by their whole paths until it is saved.
func (s *Session) Replace(p *model.Project) { s.begin(p, "", Folder("")) }

// remark keeps what was remarked on in a file, but for what is told as long as
// it is so.
func (s *Session) remark(list []file.Notice) {
	for _, n := range list {
		if n.Rule != model.RuleSpoiled {
			s.notices = append(s.notices, n.String())
		}
	}
}

// Notices are remarks made when the file was read.
func (s *Session) Notices() []string { return s.notices }

// Path returns the project's file, "" where it has none.
func (s *Session) Path() string { return s.path }

// Title returns what the window is called.
func (s *Session) Title() string {
	name := s.Committed().Name
	if name == "" {
		name = say.T("Unnamed project")
	}
	if s.path != "" {
		name += " — " + filepath.Base(s.path)
	}
	if s.disk.lookOnly {
		name += say.T(" (only looked at)")
	}
	if s.Dirty() {
		name = "• " + name
	}
	return name
}

// Save writes the project to its file. The error is a *ChangedError where the
// file is not as this session left it, ErrLookOnly where it is another
// window's.
func (s *Session) Save() error {
	switch {
	case s.path == "":
		return ErrNoPath
	case s.disk.lookOnly:
		return ErrLookOnly
	}
	if err := s.unchanged(); err != nil {
		return err
	}
	return s.write(s.path)
}

// SaveOver is Save though the file was changed by another program.
func (s *Session) SaveOver() error {
	s.disk.print = file.Print{}
	return s.Save()
}

// SaveAs writes the project to a new file. Pictures read from a folder keep
// their place and are named from the new one; pictures that came with the
// program are copied beside the new file.
func (s *Session) SaveAs(path string) error {
	abs, err := filepath.Abs(path)
	if err != nil {
		return say.Errorf("save %s: %w", filepath.Base(path), err)
	}
	if filepath.Ext(abs) == "" {
		abs += ".yaml"
	}
	if abs == s.path {
		if err := s.unchanged(); err != nil {
			return err
		}
	}
	return s.write(abs)
}

// write saves the project at an absolute path and makes that its file.
func (s *Session) write(abs string) error {
	dir := filepath.Dir(abs)
	names, err := s.movePhotos(dir)
	if err != nil {
		return err
	}
	retell := model.RenamePhotos(func(name string) string { return names[name] })
	if err := file.Save(abs, retell(s.Committed())); err != nil {
		var placed *file.SaveError
		if errors.As(err, &placed) && placed.Placed && abs == s.path {
			s.look(abs)
		}
		return err
	}
	s.look(abs)
	s.disk.lookOnly = false
	s.hist.Retell(retell)
	if s.preview != nil {
		s.preview = nil
		s.hold(false)
	}
	s.path, s.from = abs, Folder(dir)
	s.pics.rename(s.from, names)
	s.hist.MarkSaved()
	s.renew()
	s.changed()
	return nil
}

// movePhotos sees to it that the pictures of every state can be read from dir,
// and returns their names from there.
func (s *Session) movePhotos(dir string) (map[string]string, error) {
	names := map[string]string{}
	for _, p := range s.hist.States() {
		for _, name := range p.Photos() {
			if _, ok := names[name]; ok {
				continue
			}
			to, err := s.movePhoto(name, dir)
			if err != nil && p == s.hist.Current() {
				return nil, err
			}
			names[name] = to
		}
	}
	return names, nil
}

// movePhoto returns the name of a picture from dir.
func (s *Session) movePhoto(name, dir string) (string, error) {
	at := filepath.FromSlash(name)
	if !filepath.IsAbs(at) {
		switch from := s.from.(type) {
		case nil:
			return name, nil
		case Folder:
			at = filepath.Join(string(from), at)
		default:
			return name, copyOut(from, name, dir)
		}
	}
	rel, err := filepath.Rel(dir, at)
	if err != nil {
		return filepath.ToSlash(at), nil // on another drive: named in full
	}
	return filepath.ToSlash(rel), nil
}

// copyOut writes a picture that came with the program beside the project; a
// file of that name already there is left alone.
func copyOut(src Source, name, dir string) error {
	to := filepath.Join(dir, filepath.FromSlash(name))
	if _, err := os.Stat(to); err == nil {
		return nil
	}
	if strings.Contains(name, "..") {
		return say.Errorf("photo %s lies outside the project", name)
	}
	in, err := src.Open(name)
	if err != nil {
		return say.Errorf("photo %s: %w", name, file.Cause(err))
	}
	defer in.Close()
	if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
		return say.Errorf("photo %s: %w; choose a folder that may be written", name, file.Cause(err))
	}
	f, err := os.Create(to)
	if err != nil {
		return say.Errorf("photo %s: %w; choose a folder that may be written", name, file.Cause(err))
	}
	_, err = io.Copy(f, in)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		os.Remove(to)
		return say.Errorf("photo %s: %w", name, file.Cause(err))
	}
	return nil
}
