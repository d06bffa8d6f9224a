package sheet

import (
	"path/filepath"
	"sync"
	"testing"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/layouttest"
)

// faces loads the typefaces once for a test.
func faces(t testing.TB) *render.Faces {
	t.Helper()
	f, err := render.LoadFaces()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// projects are the projects kept for tests, and the demo.
func projects(t testing.TB) []string {
	t.Helper()
	root := layouttest.Root(t)
	list := layouttest.Glob(t, filepath.Join(root, "testdata", "projects", "*.yaml"))
	return append(list, filepath.Join(root, "assets", "demo", "project.yaml"))
}

// opened holds the sessions of the test projects: their photographs take long
// to read, and nothing here changes them.
type opened struct {
	mu   sync.Mutex
	list map[string]*session.Session
}

func (o *opened) session(t testing.TB, path string) *session.Session {
	o.mu.Lock()
	defer o.mu.Unlock()
	if s := o.list[path]; s != nil {
		return s
	}
	s := session.New(session.Blank(), session.Options{})
	if err := s.Open(path); err != nil {
		t.Fatal(err)
	}
	o.list[path] = s
	return s
}

var kept = &opened{list: map[string]*session.Session{}}

// load reads a project as the sheet command does.
func load(t testing.TB, path string, paper Paper, f *render.Faces) Input {
	t.Helper()
	return FromSession(kept.session(t, path), "25 November 2026", paper, f)
}

// project names one of the projects kept for tests.
func project(t testing.TB, name string) string {
	t.Helper()
	return filepath.Join(layouttest.Root(t), "testdata", "projects", name)
}

// demo is the demo project.
func demo(t testing.TB) string {
	t.Helper()
	return filepath.Join(layouttest.Root(t), "assets", "demo", "project.yaml")
}
