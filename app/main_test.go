package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		args    []string
		path    string
		command bool
	}{
		{nil, "", false},
		{[]string{"table.yaml"}, "table.yaml", false},
		{[]string{"check", "table.yaml"}, "", true},
		{[]string{"sheet"}, "", true},
		{[]string{"--help"}, "", true},
		{[]string{"--json"}, "", true},
	} {
		if path, command := split(c.args); path != c.path || command != c.command {
			t.Errorf("split(%q) = %q, %v", c.args, path, command)
		}
	}
}

// A built program gives 0 done, 1 done with warnings, 2 error, and tells
// errors on stderr.
func TestExitCodes(t *testing.T) {
	demo := filepath.Join("..", "assets", "demo", "project.yaml")
	bad := filepath.Join(t.TempDir(), "bad.yaml")
	if err := os.WriteFile(bad, []byte("heartside: 1\nnmae: x\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"--help"}, 0, ""},
		{[]string{"check", demo}, 1, ""},
		{[]string{"check", demo, "--json"}, 1, ""},
		{[]string{"check", bad}, 2, "bad.yaml:2"},
		{[]string{"check", "none.yaml"}, 2, "none.yaml"},
		{[]string{"check"}, 2, "no project named"},
		{[]string{"check", demo, "--jsno"}, 2, "--jsno"},
		{[]string{"sheet", demo}, 2, "-o"},
		{[]string{"sheet", demo, "-o", "x.doc"}, 2, "x.doc"},
		{[]string{"sheet", demo, "-o", filepath.Join(t.TempDir(), "s.pdf"), "--paper", "letter"}, 0, ""},
		{[]string{demo, demo}, 2, "one at a time"},
		{[]string{"frob"}, 2, "neither a command nor a project"},
	} {
		var out, errs bytes.Buffer
		if code := run(c.args, &out, &errs); code != c.code || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%q: exit code %d, want %d; stderr %q", c.args, code, c.code, errs.String())
		}
		if c.code == 2 && out.Len() > 0 {
			t.Errorf("%q: an error printed %q on stdout", c.args, out.String())
		}
	}
}

func TestNoDisplay(t *testing.T) {
	t.Setenv("DISPLAY", "")
	t.Setenv("WAYLAND_DISPLAY", "")
	var out, errs bytes.Buffer
	if code := run(nil, &out, &errs); code != 2 || strings.Count(errs.String(), "\n") != 1 {
		t.Errorf("exit code %d, stderr %q; want 2 and one line", code, errs.String())
	}
}
