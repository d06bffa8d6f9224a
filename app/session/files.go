package session

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"heartside/model"
	"heartside/model/file"
)

// ErrNoPath is returned by Save where the project has no file yet.
var ErrNoPath = errors.New("the project has no file yet: save it under a name")

// Open puts the project in the file at path on screen. On an error the
// project on screen stays.
func (s *Session) Open(path string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("open %s: %w; check the name and that it may be read", filepath.Base(path), file.Cause(err))
	}
	p, notices, err := file.Read(data, filepath.Base(path))
	if err != nil {
		return err
	}
	abs, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("open %s: %w", filepath.Base(path), err)
	}
	s.begin(p, abs, Folder(filepath.Dir(abs)))
	for _, n := range notices {
		s.notices = append(s.notices, n.String())
	}
	return nil
}

// OpenFrom puts a project without a file of its own on screen; its pictures
// are read from src.
func (s *Session) OpenFrom(data []byte, name string, src Source) error {
	p, notices, err := file.Read(data, name)
	if err != nil {
		return err
	}
	s.begin(p, "", src)
	for _, n := range notices {
		s.notices = append(s.notices, n.String())
	}
	return nil
}

// Replace puts a new project without a file on screen. Its pictures are named
// by their whole paths until it is saved.
func (s *Session) Replace(p *model.Project) { s.begin(p, "", Folder("")) }

// Notices are remarks made when the file was read.
func (s *Session) Notices() []string { return s.notices }

// Path returns the project's file, "" where it has none.
func (s *Session) Path() string { return s.path }

// Title returns what the window is called.
func (s *Session) Title() string {
	name := s.Committed().Name
	if name == "" {
		name = "Unnamed project"
	}
	if s.path != "" {
		name += " — " + filepath.Base(s.path)
	}
	if s.Dirty() {
		name = "• " + name
	}
	return name
}

// Save writes the project to its file.
func (s *Session) Save() error {
	if s.path == "" {
		return ErrNoPath
	}
	if err := file.Save(s.path, s.Committed()); err != nil {
		return err
	}
	s.hist.MarkSaved()
	s.changed()
	return nil
}

// SaveAs writes the project to a new file. Pictures read from a folder keep
// their place and are named from the new one; pictures that came with the
// program are copied beside the new file.
func (s *Session) SaveAs(path string) error {
	abs, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("save %s: %w", filepath.Base(path), err)
	}
	if filepath.Ext(abs) == "" {
		abs += ".yaml"
	}
	dir := filepath.Dir(abs)
	p, err := s.movePhotos(s.Committed(), dir)
	if err != nil {
		return err
	}
	if err := file.Save(abs, p); err != nil {
		return err
	}
	if p != s.Committed() {
		s.hist.Rebase(p)
	}
	s.path, s.from = abs, Folder(dir)
	s.pics.from = s.from
	s.hist.MarkSaved()
	s.changed()
	return nil
}

// movePhotos returns p with its pictures named from dir.
func (s *Session) movePhotos(p *model.Project, dir string) (*model.Project, error) {
	if s.from == nil {
		return p, nil
	}
	if old, ok := s.from.(Folder); ok && string(old) == dir {
		return p, nil
	}
	out := p
	for _, b := range p.Boards {
		var changed *model.Board
		for i := range b.Faces {
			name := b.Faces[i].Photo
			if name == "" || filepath.IsAbs(filepath.FromSlash(name)) {
				continue
			}
			moved, err := s.movePhoto(name, dir)
			if err != nil {
				return nil, fmt.Errorf("board %s, face %d: %w", b.ID, i+1, err)
			}
			if moved == name {
				continue
			}
			if changed == nil {
				c := *b
				changed = &c
			}
			changed.Faces[i].Photo = moved
		}
		if changed == nil {
			continue
		}
		next, err := model.Apply(out, model.SetBoard{Board: changed})
		if err != nil {
			return nil, err
		}
		out = next
	}
	return out, nil
}

func (s *Session) movePhoto(name, dir string) (string, error) {
	if old, ok := s.from.(Folder); ok {
		rel, err := filepath.Rel(dir, filepath.Join(string(old), filepath.FromSlash(name)))
		if err != nil {
			return filepath.Join(string(old), filepath.FromSlash(name)), nil
		}
		return filepath.ToSlash(rel), nil
	}
	return name, copyOut(s.from, name, dir)
}

// copyOut writes a picture that came with the program beside the project; a
// file of that name already there is left alone.
func copyOut(src Source, name, dir string) error {
	to := filepath.Join(dir, filepath.FromSlash(name))
	if _, err := os.Stat(to); err == nil {
		return nil
	}
	if strings.Contains(name, "..") {
		return fmt.Errorf("photo %s lies outside the project", name)
	}
	in, err := src.Open(name)
	if err != nil {
		return fmt.Errorf("photo %s: %w", name, file.Cause(err))
	}
	defer in.Close()
	if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
		return fmt.Errorf("photo %s: %w; choose a folder that may be written", name, file.Cause(err))
	}
	f, err := os.Create(to)
	if err != nil {
		return fmt.Errorf("photo %s: %w; choose a folder that may be written", name, file.Cause(err))
	}
	_, err = io.Copy(f, in)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		os.Remove(to)
		return fmt.Errorf("photo %s: %w", name, file.Cause(err))
	}
	return nil
}
