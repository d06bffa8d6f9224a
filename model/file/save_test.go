package file

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"pgregory.net/rapid"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/disk/faulty"
)

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
		q, err := model.Apply(p, model.SetSettings{Settings: model.Settings{Name: name, Units: "mm"}})
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

// Whatever step fails, in whatever way, the file is the old or the new one,
// whole, nothing lies about, and the message says what, where and what to do.
func TestAFailedStepLeavesAWholeFile(t *testing.T) {
	p := read(t, "contract.yaml")
	fresh := Marshal(p)
	causes := map[error]string{
		syscall.ENOSPC: "free some space", syscall.EDQUOT: "free some space", syscall.EACCES: "save in another",
		syscall.EROFS: "save in another", syscall.ENOENT: "not there any more", syscall.ESTALE: "not there any more",
		syscall.EIO: "save on another", syscall.ENAMETOOLONG: "a shorter one", faulty.ErrShort: "try again",
	}
	for _, old := range []string{"", "old"} {
		count := &faulty.Disk{Under: folderWith(t, old)}
		if err := SaveOn(count, "/job/t.yaml", p); err != nil {
			t.Fatal(err)
		}
		if count.Steps() < 7 {
			t.Fatalf("only %d steps", count.Steps())
		}
		for step := range count.Steps() {
			for cause, hint := range causes {
				m := folderWith(t, old)
				var failed faulty.Step
				d := &faulty.Disk{Under: m, Fail: func(s faulty.Step) error {
					if s.N != step || cause == faulty.ErrShort && s.Op != "write" {
						return nil
					}
					failed = s
					return cause
				}}
				err := SaveOn(d, "/job/t.yaml", p)
				got := inMemory(t, m, "/job/t.yaml")
				what := fmt.Sprintf("%s of %s: %v, file there before %q", failed.Op, failed.Path, cause, old)
				if got != old && got != string(fresh) {
					t.Fatalf("%s: the file holds %q", what, got)
				}
				if err == nil {
					if got != string(fresh) {
						t.Errorf("%s: told as saved and holds %q", what, got)
					}
					continue
				}
				var e *SaveError
				if !errors.As(err, &e) || e.Path != "/job/t.yaml" || !strings.HasPrefix(err.Error(), "/job/t.yaml was ") {
					t.Errorf("%s: %v", what, err)
					continue
				}
				if e.Placed != (got == string(fresh)) {
					t.Errorf("%s: placed is told as %v: %v", what, e.Placed, err)
				}
				if !e.Placed && !strings.Contains(err.Error(), hint) {
					t.Errorf("%s: %q does not say %q", what, err, hint)
				}
				if list, _ := m.Names("/job"); strings.Contains(strings.Join(list, " "), "tmp") {
					t.Errorf("%s: the folder holds %s", what, list)
				}
			}
		}
	}
}

// Steps that need not be: a disk without links copies, one that cannot sync a
// folder saves all the same, a second name that stays is only untidy.
func TestSavesWithoutWhatSomeDisksLack(t *testing.T) {
	p := read(t, "contract.yaml")
	for op, cause := range map[string]error{"link": syscall.EPERM, "sync-dir": syscall.EINVAL, "remove": syscall.EPERM} {
		m := folderWith(t, "old")
		d := &faulty.Disk{Under: m, Fail: func(s faulty.Step) error {
			if s.Op == op {
				return cause
			}
			return nil
		}}
		if err := SaveOn(d, "/job/t.yaml", p); err != nil {
			t.Errorf("%s: %v", op, err)
		}
		if inMemory(t, m, "/job/t.yaml") != string(Marshal(p)) || inMemory(t, m, "/job/t.yaml.bak") != "old" {
			t.Errorf("%s: the file or its backup is wrong", op)
		}
	}
}

// Everything at once: any steps may fail, and the power may go at any of them.
// What is then on disk is a whole project: the one saved last, or one of those
// that were being saved since.
func TestPowerCutsLeaveAWholeFile(t *testing.T) {
	p := read(t, "contract.yaml")
	rapid.Check(t, func(rt *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 1))
		faults := rapid.Float64Range(0, 0.2).Draw(rt, "faults")
		cut := rapid.IntRange(0, 60).Draw(rt, "steps until the power goes")
		m := folderWith(t, "")
		var after *faulty.Memory
		d := &faulty.Disk{Under: m}
		d.Fail = func(s faulty.Step) error {
			if s.N == cut {
				after = m.PowerCut(r)
			}
			if r.Float64() < faults {
				if s.Op == "sync-dir" { // else it counts as a disk that syncs no folders
					return syscall.EIO
				}
				return []error{syscall.ENOSPC, syscall.EIO, syscall.EACCES, syscall.EINVAL}[r.IntN(4)]
			}
			return nil
		}
		allowed := map[string]bool{"": true}
		for i := 0; after == nil && i < 30; i++ {
			q, err := model.Apply(p, model.SetSettings{Settings: model.Settings{Name: fmt.Sprint("Table ", i), Units: "mm"}})
			if err != nil {
				rt.Fatal(err)
			}
			text := string(Marshal(q))
			allowed[text] = true
			if err := SaveOn(d, "/job/t.yaml", q); err == nil && after == nil {
				allowed = map[string]bool{text: true}
			}
		}
		if after == nil {
			after = m.PowerCut(r)
		}
		for _, name := range []string{"/job/t.yaml", "/job/t.yaml.bak"} {
			got := inMemory(t, after, name)
			if name == "/job/t.yaml" && !allowed[got] {
				rt.Fatalf("%s holds what was not saved last: %.80q", name, got)
			}
			if got != "" {
				if _, _, err := Read([]byte(got), name); err != nil {
					rt.Fatalf("%s is no whole project: %v", name, err)
				}
			}
		}
	})
}

// A folder that may not be written, and one that is gone, are told of.
func TestFoldersThatTakeNothing(t *testing.T) {
	p := read(t, "contract.yaml")
	m := folderWith(t, "old")
	m.ReadOnly("/job", true)
	if err := SaveOn(m, "/job/t.yaml", p); !errors.Is(err, fs.ErrPermission) || inMemory(t, m, "/job/t.yaml") != "old" {
		t.Errorf("a folder that may not be written: %v", err)
	}
	m.Vanish("/job")
	if err := SaveOn(m, "/job/t.yaml", p); !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), "not there any more") {
		t.Errorf("a folder that is gone: %v", err)
	}
}

// folderWith is a folder in memory, with a file of that text, "" none.
func folderWith(t *testing.T, old string) *faulty.Memory {
	t.Helper()
	m := faulty.NewMemory("/job")
	if old != "" {
		if err := disk.Replace(m, "/job/t.yaml", []byte(old), disk.Mode{Perm: 0o640}); err != nil {
			t.Fatal(err)
		}
	}
	return m
}

// inMemory returns what a file holds, "" for none.
func inMemory(t *testing.T, m *faulty.Memory, path string) string {
	t.Helper()
	data, err := disk.Read(m, path, 1<<20)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	return string(data)
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

// The sum is that of FIPS 180-2, appendix B.1, for the message "abc".
func TestPrints(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "t.yaml")
	if p, err := PrintAt(disk.Real{}, path); err != nil || !p.None() {
		t.Errorf("no file: %v, %v", p, err)
	}
	if err := os.WriteFile(path, []byte("abc"), 0o666); err != nil {
		t.Fatal(err)
	}
	p, err := PrintAt(disk.Real{}, path)
	if want := "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"; err != nil || p.Size != 3 || fmt.Sprintf("%x", p.Sum) != want || p.Time.IsZero() {
		t.Errorf("%v, %v", p, err)
	}
	if q := PrintOf([]byte("abc")); !p.Same(q) || q.None() || p.Same(PrintOf([]byte("abd"))) || p.Same(Print{}) || PrintOf(nil).Same(Print{}) {
		t.Error("prints are mistaken for one another")
	}
}
