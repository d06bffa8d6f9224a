package picture

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"hash/crc32"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"sync"
	"time"

	"heartside/model/say"
)

// storeEnding ends the names of a store's files; others in its folder are left
// alone.
const storeEnding = ".kept"

// newEnding ends the names of files that are being written. One that is old was
// left behind when a program ended in the middle.
const newEnding = ".new"

// storeMark begins every file of a store; after it comes a checksum.
const storeMark = "HSK1"

// Store keeps small things in a folder, each under a key, so that they need
// not be made again. It may forget anything at any time: what is damaged,
// gone, or too old is simply not found. Several goroutines, and several
// programs, may use one folder.
type Store struct {
	dir  string
	most int64
	now  func() time.Time

	mu    sync.Mutex
	known bool  // size was counted
	size  int64 // of all files, as far as known
}

// NewStore returns a store in a folder, which is made when it is needed, of up
// to most bytes in all. The folder should be the store's own.
func NewStore(dir string, most int64) *Store {
	return &Store{dir: dir, most: most, now: time.Now}
}

func (s *Store) path(key string) string {
	h := sha256.Sum256([]byte(key))
	return filepath.Join(s.dir, hex.EncodeToString(h[:16])+storeEnding)
}

// Get returns what was put under a key; false where it is not there, or not
// whole.
func (s *Store) Get(key string) ([]byte, bool) {
	path := s.path(key)
	fi, err := os.Lstat(path)
	if err != nil || !fi.Mode().IsRegular() || fi.Size() > s.most {
		return nil, false
	}
	p, err := os.ReadFile(path)
	if err != nil {
		return nil, false
	}
	const head = len(storeMark) + 4
	if len(p) < head || string(p[:4]) != storeMark || be.Uint32(p[4:]) != crc32.ChecksumIEEE(p[head:]) {
		_ = os.Remove(path)
		return nil, false
	}
	// What is used stays: the oldest go first.
	if now := s.now(); now.Sub(fi.ModTime()) > time.Hour {
		_ = os.Chtimes(path, now, now)
	}
	return p[head:], true
}

// Put keeps data under a key. An error means that it is not kept, which needs
// no more than a note: the folder may be full, gone or not to be written.
func (s *Store) Put(key string, data []byte) error {
	p := make([]byte, 0, len(data)+8)
	p = append(p, storeMark...)
	p = be.AppendUint32(p, crc32.ChecksumIEEE(data))
	p = append(p, data...)
	if int64(len(p)) > s.most {
		return say.Error("larger than all that may be kept")
	}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return err
	}
	path := s.path(key)
	var before int64
	if fi, err := os.Lstat(path); err == nil {
		before = fi.Size()
	}
	if err := replace(path, p); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.size += int64(len(p)) - before
	if !s.known || s.size > s.most {
		s.trim()
	}
	return nil
}

// replace writes a file so that it is there whole or not at all.
func replace(path string, p []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), "*"+newEnding)
	if err != nil {
		return err
	}
	_, err = f.Write(p)
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		_ = os.Remove(f.Name())
	}
	return err
}

// trim counts the files and, where they are too many, removes the oldest until
// a tenth is free. The lock is held.
func (s *Store) trim() {
	entries, err := os.ReadDir(s.dir)
	if err != nil {
		return
	}
	var all []fs.FileInfo
	s.size, s.known = 0, true
	for _, e := range entries {
		fi, err := e.Info()
		if err != nil || !fi.Mode().IsRegular() {
			continue
		}
		switch filepath.Ext(e.Name()) {
		case storeEnding:
			all = append(all, fi)
			s.size += fi.Size()
		case newEnding:
			if s.now().Sub(fi.ModTime()) > time.Hour {
				_ = os.Remove(filepath.Join(s.dir, fi.Name()))
			}
		}
	}
	if s.size <= s.most {
		return
	}
	sort.Slice(all, func(i, j int) bool {
		if a, b := all[i].ModTime(), all[j].ModTime(); !a.Equal(b) {
			return a.Before(b)
		}
		return all[i].Name() < all[j].Name()
	})
	for _, fi := range all {
		if s.size <= s.most-s.most/10 {
			return
		}
		err := os.Remove(filepath.Join(s.dir, fi.Name()))
		if err == nil || errors.Is(err, fs.ErrNotExist) {
			s.size -= fi.Size()
		}
	}
}
