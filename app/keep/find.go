package keep

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/file"
	"heartside/model/say"
)

// Finder looks for what was kept of windows that were closed unsaved.
type Finder struct {
	Disk    disk.Disk
	State   string // the user's state folder, "" none
	Machine Machine
}

// Find returns the journals of a project that no living window has, the newest
// first; path "" asks for those of projects without a file. A journal that
// holds no more than the project's file is removed. What cannot be trusted is
// put aside, and told of in odd, one message each.
func (f Finder) Find(path string) (found []*Journal, odd []string) {
	holder := f.holder(path)
	for _, at := range f.candidates(path) {
		data, err := disk.Read(f.Disk, at, maxJournal)
		if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrPermission) { // gone, or another user's
			continue
		}
		if err != nil {
			odd = append(odd, say.F("%s; it is left as it is, in %s", notUsed(path, err), at))
			continue
		}
		j, err := decode(data)
		switch {
		case err != nil:
			odd = append(odd, f.setAside(at, path, err))
		case !f.belongs(j, at, path) || f.Machine.Life(j.Owner) == Living || j.Owner == holder:
		case f.told(j, path):
			f.Disk.Remove(at)
		default:
			j.File = at
			found = append(found, j)
		}
	}
	slices.SortStableFunc(found, func(a, b *Journal) int {
		return cmp.Or(b.When.Compare(a.When), cmp.Compare(a.File, b.File))
	})
	return found, odd
}

// holder is who has the project's lock and is not known to be dead: on another
// machine, perhaps, where its journal is still being written.
func (f Finder) holder(path string) Owner {
	if path == "" {
		return Owner{}
	}
	h, err := (&Lock{f: f, file: lockFile(path)}).read()
	if err != nil || f.Machine.Life(h.Owner) == Dead || h.Owner == f.Machine.Self {
		return Owner{}
	}
	return h.Owner
}

// candidates are the files that are called like journals of the project.
func (f Finder) candidates(path string) []string {
	var out []string
	add := func(dir, begin string) {
		names, err := f.Disk.Names(dir)
		if err != nil {
			return // no folder, or not to be looked into: nothing was kept there
		}
		for _, name := range names {
			token, ok := strings.CutPrefix(name, begin)
			if token, end := strings.CutSuffix(token, journalEnd); ok && end && token != "" && !strings.Contains(token, ".") {
				out = append(out, filepath.Join(dir, name))
			}
		}
	}
	if path != "" {
		add(filepath.Dir(real(path)), hidden(real(path)))
	}
	if f.State != "" {
		add(f.State, hidden(path)[1:])
		if r := real(path); path != "" && filepath.Base(r) != filepath.Base(path) {
			add(f.State, hidden(r)[1:])
		}
	}
	return out
}

// belongs reports whether a journal is one of the project: beside it the name
// counts, so that a folder may be moved; in the state folder the whole path.
func (f Finder) belongs(j *Journal, at, path string) bool {
	if path == "" || j.Path == "" {
		return path == j.Path
	}
	if filepath.Dir(at) != f.State {
		return filepath.Base(real(j.Path)) == filepath.Base(real(path)) || filepath.Base(j.Path) == filepath.Base(path)
	}
	return real(j.Path) == real(path)
}

// told reports whether the project's file holds what the journal does.
func (f Finder) told(j *Journal, path string) bool {
	if path == "" {
		return false
	}
	data, err := disk.Read(f.Disk, path, maxText)
	if err != nil {
		return false
	}
	p, _, err := file.Read(data, filepath.Base(path))
	return err == nil && string(file.Marshal(model.Marked(p))) == string(file.Marshal(j.Project()))
}

// setAside gives what cannot be trusted another name, so that it is told of
// once and never lost, and returns what to say of it. What a newer program
// wrote stays where that program looks for it.
func (f Finder) setAside(at, project string, why error) string {
	what := notUsed(project, why)
	if errors.Is(why, ErrNewer) {
		return say.F("%s; it is in %s", what, at)
	}
	to, err := f.PutAside(at)
	if err != nil {
		return say.F("%s; it is left as it is, in %s", what, at)
	}
	return say.F("%s; nothing of it was deleted: it is in %s", what, to)
}

func notUsed(project string, why error) string {
	of := say.T("an unsaved project")
	if project != "" {
		of = filepath.Base(project)
	}
	return say.F("what was kept of %s when Heartside was closed cannot be used: %v", of, file.Cause(why))
}

// PutAside gives a journal a name under which it is not found again, and
// returns that. What is there already under such a name stays.
func (f Finder) PutAside(at string) (string, error) {
	stem := strings.TrimSuffix(at, journalEnd)
	for n := 1; ; n++ {
		to := stem + asideEnd
		if n > 1 {
			to = fmt.Sprintf("%s-%d%s", stem, n, asideEnd)
		}
		if _, err := f.Disk.Stat(to); err == nil && n < 1000 {
			continue
		}
		return to, f.Disk.Rename(at, to)
	}
}

// OpenAside reads a journal that was put aside.
func OpenAside(d disk.Disk, path string) (*Journal, error) {
	data, err := disk.Read(d, path, maxJournal)
	if err != nil {
		return nil, say.Errorf("open %s: %w; check the name and that it may be read", filepath.Base(path), file.Cause(err))
	}
	j, err := decode(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
	j.File = path
	return j, nil
}

// IsAside reports whether a path is called like a journal that was put aside.
func IsAside(path string) bool {
	return strings.HasSuffix(path, asideEnd) || strings.HasSuffix(path, journalEnd)
}
