package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"testing"
	"time"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/disk/faulty"
	"heartside/model/file"
)

// noon is when all tests happen.
var noon = time.Date(2020, 5, 4, 12, 0, 0, 0, time.UTC)

// numbered is a project that says which of many it is.
func numbered(n int) *model.Project {
	p := model.NewProject()
	p.Name = fmt.Sprint("Table ", n)
	p.Boards = []*model.Board{{ID: "A", Species: "teak", Length: 2400 + 1.0/3, Width: 210, Thickness: 26}}
	return p
}

// numberOf is the other way.
func numberOf(p *model.Project) int {
	var n int
	fmt.Sscanf(p.Name, "Table %d", &n)
	return n
}

// workAt is the work of having made changes up to number n, the last few of
// them remembered; saved is the number in the file, -1 none.
func workAt(path string, projects []*model.Project, saved int) Work {
	w := Work{Path: path, Saved: -1}
	for i := max(0, len(projects)-4); i < len(projects); i++ {
		if numberOf(projects[i]) == saved {
			w.Saved = len(w.States)
		}
		w.States = append(w.States, model.State{Label: fmt.Sprint("Change ", i), Project: projects[i]})
	}
	return w
}

func several(n int) []*model.Project {
	out := make([]*model.Project, n)
	for i := range out {
		out[i] = numbered(i)
	}
	return out
}

// machine is one on which only the processes named run, this one being pid.
func machine(pid int, others ...int) Machine {
	return Machine{
		Self: Owner{PID: pid, Start: fmt.Sprint(pid, "00"), Space: "s", Boot: "b", Host: "shop", User: "anna"},
		Started: func(n int) (string, bool) {
			for _, o := range append(others, pid) {
				if o == n {
					return fmt.Sprint(n, "00"), true
				}
			}
			return "", false
		},
	}
}

// hands is a clock that the test moves.
type hands struct{ asked chan chan time.Time }

func newHands() *hands { return &hands{make(chan chan time.Time, 1000)} }

func (h *hands) after(time.Duration) <-chan time.Time {
	c := make(chan time.Time, 1)
	h.asked <- c
	return c
}

// keeperOn is a keeper that writes at once.
func keeperOn(t testing.TB, d disk.Disk, pid int, told func(Report)) *Keeper {
	t.Helper()
	k := New(Options{Disk: d, State: "/state", Machine: machine(pid), Now: func() time.Time { return noon }, Told: told,
		After: func(d time.Duration) <-chan time.Time {
			if d == again { // never by itself
				return nil
			}
			c := make(chan time.Time, 1)
			c <- noon
			return c
		}})
	t.Cleanup(func() { k.Close() })
	return k
}

// finder is the next start, in which no keeper of before lives.
func finder(d disk.Disk) Finder { return Finder{Disk: d, State: "/state", Machine: machine(999)} }

func shop() *faulty.Memory {
	m := faulty.NewMemory("/job")
	m.MkdirAll("/state", 0o700)
	return m
}

func mustSave(t testing.TB, d disk.Disk, path string, p *model.Project) {
	t.Helper()
	if err := file.SaveOn(d, path, p); err != nil {
		t.Fatal(err)
	}
}

func namesIn(t testing.TB, d disk.Disk, dir string) []string {
	t.Helper()
	names, err := d.Names(dir)
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// table is the file that the tests keep.
const table = "/job/table.yaml"

func put(t testing.TB, d disk.Disk, path string, data []byte) string {
	t.Helper()
	if err := disk.Replace(d, path, data, disk.Mode{Perm: 0o600}); err != nil {
		t.Fatal(err)
	}
	return filepath.Base(path)
}

func saveOn(d disk.Disk, p *model.Project) error { return file.SaveOn(d, table, p) }

// projectIn reads a project, nil where there is no file.
func projectIn(d disk.Disk, path string) (*model.Project, error) {
	data, err := disk.Read(d, path, 1<<20)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	p, _, err := file.Read(data, path)
	return p, err
}
