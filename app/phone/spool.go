package phone

import (
	"encoding/json"
	"os"
	"path/filepath"

	"heartside/app/keep"
	"heartside/model/say"
)

// Folders of pictures on their way begin so.
const spoolPrefix = "heartside-phone-"

// ownerFile says whose such a folder is.
const ownerFile = "owner.json"

// newSpool makes a folder only this user can look into.
func newSpool(in string) (string, error) {
	dir, err := os.MkdirTemp(in, spoolPrefix) // 0700
	if err != nil {
		return "", say.Errorf("no folder for the pictures can be made: %w", err)
	}
	text, err := json.Marshal(keep.ThisMachine().Self)
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, ownerFile), text, 0o600)
	}
	if err != nil {
		os.RemoveAll(dir)
		return "", say.Errorf("the folder for the pictures cannot be written: %w", err)
	}
	return dir, nil
}

// Sweep removes folders that programs which were killed left behind; in is the
// system's folder for temporary files where it is empty. Folders of programs
// that live, or of which that is not known, stay.
func Sweep(in string) {
	if in == "" {
		in = os.TempDir()
	}
	list, err := filepath.Glob(filepath.Join(in, spoolPrefix+"*"))
	if err != nil {
		return
	}
	m := keep.ThisMachine()
	for _, dir := range list {
		if s, err := os.Lstat(dir); err != nil || !s.IsDir() {
			continue // a link is none of ours
		}
		text, err := os.ReadFile(filepath.Join(dir, ownerFile))
		var o keep.Owner
		if err != nil || json.Unmarshal(text, &o) != nil || m.Life(o) != keep.Dead {
			continue
		}
		os.RemoveAll(dir)
	}
}
