package command

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heartside/model/file"
)

// fourBoards is a top of four strips, two of them with 25 mm of sapwood along
// the front edge, both of them laid inside.
const fourBoards = `heartside: 1
name: Top
boards:
  - {id: A, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {zones: [{kind: sap, polygon: [[0, 0], [1000, 0], [1000, 28], [0, 28]]}]}, 2: {}}}
  - {id: B, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {zones: [{kind: sap, polygon: [[0, 0], [1000, 0], [1000, 28], [0, 28]]}]}, 2: {}}}
  - {id: C, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {}, 2: {}}}
  - {id: D, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {}, 2: {}}}
panels:
  - id: top
    role: top
    length: 900
    width: 390
    thickness: 25
    strips:
      - {id: C1, board: C, x: 30, y: 3, length: 940, width: 100, up: 1}
      - {id: A1, board: A, x: 30, y: 3, length: 940, width: 100, up: 1}
      - {id: D1, board: D, x: 30, y: 3, length: 940, width: 100, up: 1}
      - {id: B1, board: B, x: 30, y: 3, length: 940, width: 100, up: 1}
`

func arrangeText(t *testing.T, yaml string, args ...string) (code int, out, errs, dir string) {
	t.Helper()
	dir = t.TempDir()
	path := filepath.Join(dir, "job.yaml")
	if err := os.WriteFile(path, []byte(yaml), 0o666); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "DIR", dir)
	}
	var o, e bytes.Buffer
	code = Run(append([]string{"arrange", path}, args...), &o, &e)
	return code, o.String(), e.String(), dir
}

// The light edges belong at the outside for sap-out and at the middle joint for
// sap-in: nobody needs a program to see it.
func TestArrangeJSON(t *testing.T) {
	for _, c := range []struct {
		look   string
		places [2]int
	}{{"sap-out", [2]int{0, 3}}, {"sap-in", [2]int{1, 2}}} {
		code, out, errs, _ := arrangeText(t, fourBoards, "--panel", "top", "--look", c.look, "--json")
		if code != Done || errs != "" {
			t.Fatalf("exit code %d, %s", code, errs)
		}
		var v foundJSON
		if err := json.Unmarshal([]byte(out), &v); err != nil {
			t.Fatal(err)
		}
		if v.Look != c.look || !v.Best || len(v.Answers) < 2 || v.Least > v.Answers[0].Points+1e-4 {
			t.Fatalf("%s: best %v, %d answers, least %g", v.Look, v.Best, len(v.Answers), v.Least)
		}
		best := v.Answers[0]
		for _, p := range c.places {
			if id := best.Strips[p].ID; id != "A1" && id != "B1" {
				t.Errorf("%s: in place %d lies %s", c.look, p, id)
			}
		}
		if best.Streaks != 0 || v.Now.Streaks != 2 || len(best.Looks) != 6 || best.Looks[c.look] != best.Points {
			t.Errorf("%s: %d streaks, before %d; points %g, looks %v", c.look, best.Streaks, v.Now.Streaks, best.Points, best.Looks)
		}
		// As it lies both streaks stand inside, each alone.
		// A1 and B1 cover 25 of 400 - 10 each where they lie inside, 20 at an
		// edge, where 5 are trimmed off.
		want := 50.0 / 390
		if c.look == "sap-out" {
			want = 40.0 / 390
		}
		if d := best.Light - want; d > 1e-6 || d < -1e-6 {
			t.Errorf("%s: sapwood %.5f, by hand %.5f", c.look, best.Light, want)
		}
	}
}

// The same seed gives the same words.
func TestArrangeIsTheSameTwice(t *testing.T) {
	_, a, _, _ := arrangeText(t, fourBoards, "--panel", "top", "--look", "even-mix", "--seed", "7", "--json")
	_, b, _, _ := arrangeText(t, fourBoards, "--panel", "top", "--look", "even-mix", "--seed", "7", "--json")
	if a != b {
		t.Error("two runs differ")
	}
}

func TestArrangeWrites(t *testing.T) {
	code, out, errs, dir := arrangeText(t, fourBoards, "--look", "sap-out", "-o", "DIR/out.yaml")
	if code != Done || errs != "" {
		t.Fatalf("exit code %d, %s", code, errs)
	}
	if !strings.Contains(out, "none of these strips is better") || !strings.Contains(out, "Answer 1") || !strings.Contains(out, "streak alone") {
		t.Errorf("printed:\n%s", out)
	}
	data, err := os.ReadFile(filepath.Join(dir, "out.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := file.Read(data, "out.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s := p.Panels[0].Strips
	if s[0].ID != "A1" && s[0].ID != "B1" {
		t.Errorf("the front strip is %s", s[0].ID)
	}
	if len(p.Kept) == 0 || p.Kept[0].Panel != "top" {
		t.Errorf("kept are %v", p.Kept)
	}
	before, err := os.ReadFile(filepath.Join(dir, "job.yaml"))
	if err != nil || string(before) != fourBoards {
		t.Error("the project asked about was changed")
	}
}

func TestArrangeAnswersBadWords(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--panel", "side"}, "no panel"},
		{[]string{"--look", "pretty"}, "use one of as-laid, heart-only"},
		{[]string{"--seconds", "0"}, "no time"},
		{[]string{"--seconds", "soon"}, "no time"},
		{[]string{"--seed", "-1"}, "whole number"},
		{[]string{"--wish"}, "not known here"},
	} {
		code, _, errs, _ := arrangeText(t, fourBoards, c.args...)
		if code != Failed || !strings.Contains(errs, c.want) {
			t.Errorf("%v: exit code %d, %q", c.args, code, errs)
		}
	}
	two := fourBoards + "  - {id: side, length: 700, width: 300, thickness: 20}\n"
	if code, _, errs, _ := arrangeText(t, two); code != Failed || !strings.Contains(errs, "which panel? Give --panel with one of top, side") {
		t.Errorf("exit code %d, %q", code, errs)
	}
	if code, out, _, _ := arrangeText(t, fourBoards, "--panel", "top"); code != Done || !strings.Contains(out, "only judged: give --look") {
		t.Errorf("exit code %d, %q", code, out)
	}
}
