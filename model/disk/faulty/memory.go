package faulty

import (
	"bytes"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"time"

	"heartside/model/disk"
)

// Memory is a file system in memory that a power cut can be tried on. What was
// written and not synced may be gone or torn after it, and what happened in a
// folder since it was synced may have come about in part. It is safe for
// several goroutines.
type Memory struct {
	mu      sync.Mutex
	dirs    map[string]*folder
	seconds int64 // of the last change: a clock that goes on by one with each
}

// folder is the names in it now, as on disk, and what happened in between.
type folder struct {
	now, synced map[string]*inode
	since       []change
	readOnly    bool
}

// change gives names another meaning, all at once; nil means gone.
type change map[string]*inode

type inode struct {
	data, synced []byte
	mode         fs.FileMode
	at           int64
}

// NewMemory returns an empty file system with the folder dir.
func NewMemory(dir string) *Memory {
	m := &Memory{dirs: map[string]*folder{}}
	m.dirs[dir] = newFolder()
	return m
}

func newFolder() *folder {
	return &folder{now: map[string]*inode{}, synced: map[string]*inode{}}
}

// ReadOnly makes a folder one that may not be written, or may again.
func (m *Memory) ReadOnly(dir string, on bool) { m.dirs[dir].readOnly = on }

// Vanish takes a folder away with all that is in it.
func (m *Memory) Vanish(dir string) { delete(m.dirs, dir) }

// PowerCut returns what is found when the power comes back: of each folder
// what was synced and any of the changes since, of each file what was synced or
// any beginning of what was written.
func (m *Memory) PowerCut(r *rand.Rand) *Memory {
	m.mu.Lock()
	defer m.mu.Unlock()
	out := &Memory{dirs: map[string]*folder{}, seconds: m.seconds}
	files := map[*inode]*inode{}
	for _, dir := range slices.Sorted(maps.Keys(m.dirs)) {
		f := m.dirs[dir]
		names := maps.Clone(f.synced)
		for _, c := range f.since {
			if r.IntN(2) == 0 {
				maps.Copy(names, c)
			}
		}
		g := newFolder()
		g.readOnly = f.readOnly
		for _, name := range slices.Sorted(maps.Keys(names)) {
			old := names[name]
			if old == nil {
				continue
			}
			if files[old] == nil {
				data := old.synced
				if !bytes.Equal(old.data, old.synced) {
					data = old.data[:r.IntN(len(old.data)+1)]
				}
				files[old] = &inode{data: data, synced: data, mode: old.mode, at: old.at}
			}
			g.now[name] = files[old]
		}
		g.synced = maps.Clone(g.now)
		out.dirs[dir] = g
	}
	return out
}

// set changes names of a folder.
func (m *Memory) set(dir string, c change) {
	f := m.dirs[dir]
	for name, n := range c {
		if n == nil {
			delete(f.now, name)
		} else {
			f.now[name] = n
		}
	}
	f.since = append(f.since, c)
	m.seconds++
}

// find returns the folder of a path and what the name in it means, nil for
// nothing.
func (m *Memory) find(op, path string) (dir, name string, n *inode, err error) {
	dir, name = filepath.Dir(path), filepath.Base(path)
	f := m.dirs[dir]
	if f == nil {
		return dir, name, nil, &fs.PathError{Op: op, Path: path, Err: syscall.ENOENT}
	}
	switch op {
	case "create", "link", "rename", "remove":
		if f.readOnly {
			return dir, name, nil, &fs.PathError{Op: op, Path: path, Err: syscall.EACCES}
		}
	}
	return dir, name, f.now[name], nil
}

// must is find for a name that has to be there.
func (m *Memory) must(op, path string) (dir, name string, n *inode, err error) {
	dir, name, n, err = m.find(op, path)
	if err == nil && n == nil {
		err = &fs.PathError{Op: op, Path: path, Err: syscall.ENOENT}
	}
	return
}

// Stat implements disk.Disk.
func (m *Memory) Stat(path string) (fs.FileInfo, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.dirs[path] != nil {
		return info{filepath.Base(path), &inode{mode: fs.ModeDir | 0o777}}, nil
	}
	_, name, n, err := m.must("stat", path)
	if err != nil {
		return nil, err
	}
	return info{name, n}, nil
}

// Names implements disk.Disk.
func (m *Memory) Names(dir string) ([]string, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	f := m.dirs[dir]
	if f == nil {
		return nil, &fs.PathError{Op: "open", Path: dir, Err: syscall.ENOENT}
	}
	return slices.Sorted(maps.Keys(f.now)), nil
}

// Open implements disk.Disk.
func (m *Memory) Open(path string) (io.ReadCloser, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	_, _, n, err := m.must("open", path)
	if err != nil {
		return nil, err
	}
	return io.NopCloser(bytes.NewReader(n.data)), nil
}

// Create implements disk.Disk.
func (m *Memory) Create(path string, perm fs.FileMode) (disk.File, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	dir, name, n, err := m.find("create", path)
	if err != nil {
		return nil, err
	}
	if n != nil {
		return nil, &fs.PathError{Op: "create", Path: path, Err: syscall.EEXIST}
	}
	n = &inode{mode: perm, at: m.seconds}
	m.set(dir, change{name: n})
	return &memoryFile{m, n}, nil
}

// MkdirAll implements disk.Disk.
func (m *Memory) MkdirAll(dir string, _ fs.FileMode) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.dirs[dir] == nil {
		m.dirs[dir] = newFolder()
	}
	return nil
}

// Link implements disk.Disk.
func (m *Memory) Link(old, new string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	_, _, n, err := m.must("open", old)
	if err != nil {
		return err
	}
	dir, name, there, err := m.find("link", new)
	if err == nil && there != nil {
		err = &fs.PathError{Op: "link", Path: new, Err: syscall.EEXIST}
	}
	if err == nil {
		m.set(dir, change{name: n})
	}
	return err
}

// Rename implements disk.Disk within a folder.
func (m *Memory) Rename(old, new string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	dir, from, n, err := m.must("rename", old)
	if err != nil {
		return err
	}
	toDir, to, there, err := m.find("rename", new)
	switch {
	case err != nil:
		return err
	case toDir != dir:
		return &fs.PathError{Op: "rename", Path: new, Err: syscall.EXDEV}
	case there != n: // two names of one file stay as they are
		m.set(dir, change{from: nil, to: n})
	}
	return nil
}

// Remove implements disk.Disk.
func (m *Memory) Remove(path string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	dir, name, _, err := m.must("remove", path)
	if err == nil {
		m.set(dir, change{name: nil})
	}
	return err
}

// SyncDir implements disk.Disk.
func (m *Memory) SyncDir(dir string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	f := m.dirs[dir]
	if f == nil {
		return &fs.PathError{Op: "open", Path: dir, Err: syscall.ENOENT}
	}
	f.synced, f.since = maps.Clone(f.now), nil
	return nil
}

type memoryFile struct {
	m *Memory
	n *inode
}

func (f *memoryFile) Write(b []byte) (int, error) {
	f.m.mu.Lock()
	defer f.m.mu.Unlock()
	f.n.data = append(bytes.Clone(f.n.data), b...)
	f.m.seconds++
	f.n.at = f.m.seconds
	return len(b), nil
}

func (f *memoryFile) Sync() error {
	f.m.mu.Lock()
	defer f.m.mu.Unlock()
	f.n.synced = f.n.data
	return nil
}

func (f *memoryFile) Chmod(m fs.FileMode) error { f.n.mode = m; return nil }

func (f *memoryFile) Close() error { return nil }

type info struct {
	name string
	n    *inode
}

func (i info) Name() string       { return i.name }
func (i info) Size() int64        { return int64(len(i.n.data)) }
func (i info) Mode() fs.FileMode  { return i.n.mode }
func (i info) ModTime() time.Time { return time.Unix(i.n.at, 0) }
func (i info) IsDir() bool        { return i.n.mode.IsDir() }
func (i info) Sys() any           { return nil }
