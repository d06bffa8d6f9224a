package file

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"heartside/model"
)

// failing is the computer's disk with one step that fails.
type failing struct {
	realDisk
	step string
	err  error
}

func (d failing) at(step string) error {
	if d.step == step {
		return &fs.PathError{Op: step, Path: "p", Err: d.err}
	}
	return nil
}

func (d failing) Create(dir, name string) (tempFile, error) {
	if err := d.at("create"); err != nil {
		return nil, err
	}
	f, err := d.realDisk.Create(dir, name)
	return failingFile{f, d}, err
}

func (d failing) Link(a, b string) error {
	if d.step == "copy" {
		return syscall.EPERM // no links here: it copies
	}
	if err := d.at("link"); err != nil {
		return err
	}
	return d.realDisk.Link(a, b)
}

func (d failing) Copy(a, b string) error {
	if err := d.at("copy"); err != nil {
		return err
	}
	return d.realDisk.Copy(a, b)
}

func (d failing) Rename(a, b string) error {
	step := "rename"
	if strings.HasSuffix(b, BackupSuffix) {
		step = "rename backup"
	}
	if err := d.at(step); err != nil {
		return err
	}
	return d.realDisk.Rename(a, b)
}

func (d failing) SyncDir(dir string) error {
	return errors.Join(d.at("sync folder"), d.realDisk.SyncDir(dir))
}

type failingFile struct {
	tempFile
	d failing
}

func (f failingFile) Write(b []byte) (int, error) {
	if err := f.d.at("write"); err != nil {
		n, _ := f.tempFile.Write(b[:len(b)/2]) // the disk fills up halfway
		return n, err
	}
	return f.tempFile.Write(b)
}

func (f failingFile) Sync() error { return errors.Join(f.d.at("sync"), f.tempFile.Sync()) }

func (f failingFile) Close() error { return errors.Join(f.d.at("close"), f.tempFile.Close()) }

func (f failingFile) Chmod(m fs.FileMode) error {
	return errors.Join(f.d.at("chmod"), f.tempFile.Chmod(m))
}

func names(t *testing.T, dir string) string {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var s []string
	for _, e := range list {
		s = append(s, e.Name())
	}
	return strings.Join(s, " ")
}

func content(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestSaveAndKeepThePrevious(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "hall table.yaml")
	p := read(t, "contract.yaml")
	if err := Save(path, p); err != nil {
		t.Fatal(err)
	}
	if names(t, dir) != "hall table.yaml" || content(t, path) != string(Marshal(p)) {
		t.Fatalf("folder holds %s", names(t, dir))
	}
	first := content(t, path)
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	for i, name := range []string{"second", "third"} {
		before := content(t, path)
		q, err := model.Apply(p, model.SetDetails{Name: name, Units: "mm"})
		if err != nil {
			t.Fatal(err)
		}
		if err := Save(path, q); err != nil {
			t.Fatal(err)
		}
		if names(t, dir) != "hall table.yaml hall table.yaml.bak" || content(t, path+BackupSuffix) != before {
			t.Fatalf("after save %d the folder holds %s", i+2, names(t, dir))
		}
		if !strings.Contains(content(t, path), "name: "+name) {
			t.Errorf("the %s is not in place", name)
		}
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("permissions %v %v", info.Mode(), err)
	}
	// Saving the same again leaves two files of their own.
	if err := Save(path, p); err != nil {
		t.Fatal(err)
	}
	if err := Save(path, p); err != nil || content(t, path) != first || content(t, path+BackupSuffix) != first || strings.Contains(names(t, dir), "tmp") {
		t.Errorf("%v, folder %s", err, names(t, dir))
	}
}

// Whatever step fails, the old file is whole, and no leavings lie about.
func TestAFailedSaveLeavesTheOldFile(t *testing.T) {
	for step, hint := range map[string]string{
		"create": "save in another", "write": "disk is full", "sync": "disk is full", "close": "disk is full", "chmod": "",
		"copy": "disk is full", "rename backup": "", "rename": "disk is full",
	} {
		dir := t.TempDir()
		path := filepath.Join(dir, "t.yaml")
		if err := os.WriteFile(path, []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		cause := error(syscall.ENOSPC)
		if step == "create" {
			cause = fs.ErrPermission
		}
		err := save(failing{step: step, err: cause}, path, read(t, "contract.yaml"))
		var s *SaveError
		if !errors.As(err, &s) || !errors.Is(err, cause) || s.Path != path || !strings.Contains(err.Error(), hint) {
			t.Errorf("%s: %v", step, err)
		}
		if content(t, path) != "old" || strings.Contains(names(t, dir), "tmp") {
			t.Errorf("%s: the folder holds %s, the file %q", step, names(t, dir), content(t, path))
		}
	}
	// A disk without links copies; one that cannot sync a folder still saves.
	for _, step := range []string{"link", "sync folder"} {
		dir := t.TempDir()
		path := filepath.Join(dir, "t.yaml")
		if err := os.WriteFile(path, []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		p := read(t, "contract.yaml")
		if err := save(failing{step: step, err: syscall.EINVAL}, path, p); err != nil {
			t.Errorf("%s: %v", step, err)
		}
		if !bytes.Equal([]byte(content(t, path)), Marshal(p)) || content(t, path+BackupSuffix) != "old" {
			t.Errorf("%s: folder %s", step, names(t, dir))
		}
	}
}

func TestSaveSaysWhatToDo(t *testing.T) {
	dir := t.TempDir()
	p := read(t, "contract.yaml")
	for path, says := range map[string]string{
		filepath.Join(dir, "none", "t.yaml"): "the folder is not there any more",
		dir:                                  "choose another name",
	} {
		if err := Save(path, p); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v", err)
		}
	}
	bad := *p
	bad.Limits.Streak = 7
	path := filepath.Join(dir, "t.yaml")
	var r model.RuleError
	if err := Save(path, &bad); !errors.As(err, &r) || names(t, dir) != "" {
		t.Errorf("%v; folder %q", err, names(t, dir))
	}
	if err := Save(path, nil); err == nil {
		t.Error("nothing was saved")
	}
}

func TestSaveThroughALink(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.yaml"), filepath.Join(dir, "link.yaml")
	if err := os.WriteFile(real, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here:", err)
	}
	if err := Save(link, read(t, "contract.yaml")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 || content(t, real) == "old" {
		t.Errorf("the link is gone, or its file was not written: %v", err)
	}
}

func TestCauseNamesNoPath(t *testing.T) {
	link := &os.LinkError{Op: "rename", Old: "a", New: "b", Err: syscall.EXDEV}
	path := &fs.PathError{Op: "open", Path: "a", Err: syscall.EACCES}
	other := errors.New("the wind took it")
	for _, c := range []struct{ err, want error }{
		{path, syscall.EACCES}, {fmt.Errorf("save: %w", path), syscall.EACCES}, {link, syscall.EXDEV}, {other, other}, {nil, nil},
	} {
		if got := Cause(c.err); got != c.want {
			t.Errorf("%v: %v, want %v", c.err, got, c.want)
		}
	}
}
