package keep

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"heartside/model/disk"
	"heartside/model/disk/faulty"
	"heartside/model/file"
)

// leave writes a journal as a window of process pid left it.
func leave(t *testing.T, d disk.Disk, path string, w Work, pid int, when time.Time) string {
	t.Helper()
	return put(t, d, path, encode(&w, machine(pid).Self, when, file.Exact))
}

func TestFindSorts(t *testing.T) {
	m, projects := shop(), several(9)
	mustSave(t, m, table, projects[2])
	leave(t, m, "/job/.table.yaml.5-a.heartside-journal", workAt(table, projects[:5], 2), 5, noon)
	leave(t, m, "/job/.table.yaml.6-a.heartside-journal", workAt(table, projects[:7], 2), 6, noon.Add(time.Hour))
	leave(t, m, "/job/.table.yaml.8-a.heartside-journal", workAt(table, projects[:8], 2), 8, noon)              // its window lives
	same := leave(t, m, "/job/.table.yaml.4-a.heartside-journal", workAt(table, projects[:3], -1), 4, noon)     // holds what the file does
	leave(t, m, "/job/.table.yaml.b.5-a.heartside-journal", workAt("/job/table.yaml.b", projects, -1), 5, noon) // of another file
	leave(t, m, "/job/.else.yaml.5-a.heartside-journal", workAt("/job/else.yaml", projects, -1), 5, noon)
	leave(t, m, "/state/unnamed.5-a.heartside-journal", workAt("", projects[:2], -1), 5, noon)
	leave(t, m, "/state/table.yaml.5-a.heartside-journal", workAt("/far/table.yaml", projects, -1), 5, noon)
	f := Finder{Disk: m, State: "/state", Machine: machine(999, 8)}
	found, odd := f.Find(table)
	if len(odd) != 0 || len(found) != 2 || numberOf(found[0].Project()) != 6 || numberOf(found[1].Project()) != 4 {
		t.Fatalf("found %d, odd %v", len(found), odd)
	}
	if strings.Contains(strings.Join(namesIn(t, m, "/job"), " "), same) {
		t.Error("what the file holds anyhow is still kept")
	}
	if found, _ := f.Find(""); len(found) != 1 || numberOf(found[0].Project()) != 1 {
		t.Error("the project without a file is not found")
	}
	if found, _ := f.Find("/far/table.yaml"); len(found) != 1 {
		t.Error("that in the state folder is not found by its path")
	}
}

// A folder that was moved takes its journals with it.
func TestJournalsMoveWithTheFolder(t *testing.T) {
	m, projects := shop(), several(5)
	m.MkdirAll("/moved", 0o777)
	mustSave(t, m, "/moved/table.yaml", projects[0])
	leave(t, m, "/moved/.table.yaml.5-a.heartside-journal", workAt(table, projects, 0), 5, noon)
	if found, _ := finder(m).Find("/moved/table.yaml"); len(found) != 1 {
		t.Error("not found after the move")
	}
}

// What cannot be trusted is put aside once, told of, and stays as it is to the
// last byte; that of a newer program stays where it looks for it.
func TestOddJournalsAreKept(t *testing.T) {
	projects := several(5)
	w := workAt(table, projects, -1)
	whole := encode(&w, machine(5).Self, noon, file.Exact)
	newer := []byte("heartside-journal 2\nanything")
	for what, c := range map[string]struct {
		data []byte
		says string
		left bool
	}{
		"torn":    {whole[:len(whole)/2], "torn", false},
		"empty":   {nil, "torn", false},
		"foreign": {[]byte("dear diary"), "not a journal of Heartside", false},
		"newer":   {newer, "newer Heartside", true},
	} {
		m := shop()
		at := "/job/.table.yaml.5-a" + journalEnd
		put(t, m, "/job/.table.yaml.5-a"+asideEnd, []byte("older"))
		put(t, m, at, c.data)
		found, odd := finder(m).Find(table)
		if len(found) != 0 || len(odd) != 1 || !strings.Contains(odd[0], c.says) || !strings.Contains(odd[0], "table.yaml") {
			t.Errorf("%s: found %v, told %q", what, found, odd)
			continue
		}
		_, where, _ := strings.Cut(odd[0], "it is in ")
		if got, err := disk.Read(m, where, 1<<20); err != nil || string(got) != string(c.data) {
			t.Errorf("%s: told to be in %q, which holds %q, %v", what, where, got, err)
		}
		if (where == at) != c.left {
			t.Errorf("%s: it is in %s", what, where)
		}
		if _, odd := finder(m).Find(table); (len(odd) == 1) != c.left {
			t.Errorf("%s: the next time it says %q", what, odd)
		}
		if got, _ := disk.Read(m, "/job/.table.yaml.5-a"+asideEnd, 100); string(got) != "older" {
			t.Errorf("%s: what was put aside before is gone", what)
		}
	}
}

// Where nothing can be renamed or read it is left, and said so; another user's
// is passed over.
func TestJournalsThatCannotBeMoved(t *testing.T) {
	for op, c := range map[string]struct {
		err  error
		says string
	}{
		"rename": {syscall.EROFS, "left as it is"},
		"open":   {syscall.EIO, "left as it is"},
		"names":  {syscall.EACCES, ""},
		"read":   {syscall.EACCES, ""},
	} {
		m := shop()
		put(t, m, "/job/.table.yaml.5-a"+journalEnd, []byte("dear diary"))
		d := &faulty.Disk{Under: m, Fail: func(s faulty.Step) error {
			if s.Op == op {
				return c.err
			}
			return nil
		}}
		if _, odd := finder(d).Find(table); (len(odd) == 1) != (c.says != "") || c.says != "" && !strings.Contains(odd[0], c.says) {
			t.Errorf("%s: told %q", op, odd)
		}
		if got, err := disk.Read(m, "/job/.table.yaml.5-a"+journalEnd, 100); err != nil || string(got) != "dear diary" {
			t.Errorf("%s: it became %q, %v", op, got, err)
		}
	}
}

func TestPutAsideAndOpened(t *testing.T) {
	m, projects := shop(), several(5)
	leave(t, m, "/job/.table.yaml.5-a"+journalEnd, workAt(table, projects, -1), 5, noon)
	f := finder(m)
	found, _ := f.Find(table)
	to, err := f.PutAside(found[0].File)
	if err != nil || !IsAside(to) {
		t.Fatal(to, err)
	}
	if found, _ := f.Find(table); len(found) != 0 {
		t.Error("what was put aside is offered again")
	}
	if j, err := OpenAside(m, to); err != nil || numberOf(j.Project()) != 4 {
		t.Errorf("%v", err)
	}
	if _, err := OpenAside(m, "/job/none"+asideEnd); err == nil || !strings.Contains(err.Error(), "check the name") {
		t.Errorf("%v", err)
	}
}

// On the real disk, by way of a link, which stays one.
func TestFoundThroughALink(t *testing.T) {
	dir, projects := t.TempDir(), several(5)
	other := t.TempDir()
	path, link := filepath.Join(dir, "table.yaml"), filepath.Join(other, "link.yaml")
	mustSave(t, disk.Real{}, path, projects[0])
	if err := os.Symlink(path, link); err != nil {
		t.Skip("no links here:", err)
	}
	k := New(Options{Disk: disk.Real{}, State: t.TempDir(), Machine: machine(5), Now: func() time.Time { return noon }})
	k.Hold(workAt(link, projects, 0))
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{path, link} {
		if found, _ := (Finder{Disk: disk.Real{}, Machine: machine(6)}).Find(name); len(found) != 1 {
			t.Errorf("%s: found %d", name, len(found))
		}
	}
}

// The journal of a window on another machine is its own as long as that holds
// the project.
func TestJournalOfAnotherMachine(t *testing.T) {
	m, projects := shop(), several(5)
	mill := machine(5)
	mill.Self.Host, mill.Self.Boot = "mill", "c"
	far := Finder{Disk: m, State: "/state", Machine: mill}
	l, err := far.Lock(table, noon)
	if err != nil {
		t.Fatal(err)
	}
	w := workAt(table, projects, -1)
	put(t, m, "/job/.table.yaml.5-a"+journalEnd, encode(&w, mill.Self, noon, file.Exact))
	if found, _ := finder(m).Find(table); len(found) != 0 {
		t.Error("offered while the other machine has the project")
	}
	l.Release()
	if found, _ := finder(m).Find(table); len(found) != 1 {
		t.Error("not offered once nobody has the project")
	}
}
