package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2/test"
)

func TestRecentFiles(t *testing.T) {
	s := settings{test.NewTempApp(t).Preferences()}
	dir := t.TempDir()
	var all []string
	for i := range 12 {
		path := filepath.Join(dir, itoa(i)+".yaml")
		if err := os.WriteFile(path, nil, 0o666); err != nil {
			t.Fatal(err)
		}
		all = append(all, path)
		s.opened(path)
	}
	s.opened(all[5])
	got := s.recent()
	if len(got) != mostRecent || got[0] != all[5] || got[1] != all[11] {
		t.Errorf("recent files %q", got)
	}
	os.Remove(all[11])
	if got := s.recent(); len(got) != mostRecent-1 || got[1] != all[10] {
		t.Errorf("a file that is gone is still offered: %q", got)
	}
}

func TestFirstStartIsToldOnce(t *testing.T) {
	s := settings{test.NewTempApp(t).Preferences()}
	if !s.first() || s.first() {
		t.Error("the first start is not told once")
	}
}

func TestLookOfTheEnvironmentGoesFirst(t *testing.T) {
	s := settings{test.NewTempApp(t).Preferences()}
	s.keepLook(Light, 125)
	none := func(string) string { return "" }
	if l, n := s.look(none); l != Light || n != 125 {
		t.Errorf("kept: %s, %d", l, n)
	}
	env := func(k string) string { return map[string]string{"HEARTSIDE_THEME": "dark", "HEARTSIDE_TEXT": "200"}[k] }
	if l, n := s.look(env); l != Dark || n != 200 {
		t.Errorf("from the environment: %s, %d", l, n)
	}
	odd := func(k string) string { return "purple" }
	if l, n := s.look(odd); l != FollowSystem || n != 125 {
		t.Errorf("from an odd environment: %s, %d", l, n)
	}
}

func TestFileNames(t *testing.T) {
	for in, want := range map[string]string{"Hall console": "hall-console", "": "project", "../x": "x", "Tür 2": "tr-2"} {
		if got := fileName(in); got != want {
			t.Errorf("%q is saved as %q, want %q", in, got, want)
		}
	}
}

func TestDisplay(t *testing.T) {
	env := map[string]string{}
	get := func(k string) string { return env[k] }
	if HasDisplay(get) {
		t.Error("a display without DISPLAY and WAYLAND_DISPLAY")
	}
	env["WAYLAND_DISPLAY"] = "wayland-0"
	if !HasDisplay(get) {
		t.Error("no display with WAYLAND_DISPLAY")
	}
}
