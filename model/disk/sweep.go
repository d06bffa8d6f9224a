package disk

import (
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// half is the end of the name of a file that was being written.
var half = regexp.MustCompile(`-[0-9]+\.tmp(\.bak)?$`)

// Sweep removes files beside path, and of files named after it, that were being
// written when a program ended: those last written to before a time. It returns how
// many went; what cannot be removed stays.
func Sweep(d Disk, path string, before time.Time) int {
	dir, base := filepath.Split(path)
	names, err := d.Names(filepath.Clean(dir))
	if err != nil {
		return 0
	}
	n := 0
	for _, name := range names {
		if !strings.HasPrefix(name, ".") || !half.MatchString(name) || !strings.HasPrefix(strings.TrimLeft(name, "."), base) {
			continue
		}
		at := filepath.Join(dir, name)
		info, err := d.Stat(at)
		if err != nil || info.IsDir() || info.ModTime().IsZero() || !info.ModTime().Before(before) {
			continue
		}
		if d.Remove(at) == nil {
			n++
		}
	}
	return n
}
