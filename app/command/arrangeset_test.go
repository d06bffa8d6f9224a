package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heartside/model/file"
)

// twoDoors are doors of two strips of 100 mm. A and D have 25 mm of sapwood
// along the front edge.
const twoDoors = `heartside: 1
name: Doors
boards:
  - {id: A, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {zones: [{kind: sap, polygon: [[0, 0], [1000, 0], [1000, 28], [0, 28]]}]}, 2: {}}}
  - {id: B, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {}, 2: {}}}
  - {id: C, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {}, 2: {}}}
  - {id: D, species: walnut-black, length: 1000, width: 106, thickness: 25, faces: {1: {zones: [{kind: sap, polygon: [[0, 0], [1000, 0], [1000, 28], [0, 28]]}]}, 2: {}}}
panels:
  - {id: left, role: door, length: 900, width: 190, thickness: 25, look: sap-out, strips: [
      {id: B1, board: B, x: 30, y: 3, length: 940, width: 100, up: 1},
      {id: A1, board: A, x: 30, y: 3, length: 940, width: 100, up: 1}]}
  - {id: right, role: door, length: 900, width: 190, thickness: 25, look: sap-out, strips: [
      {id: C1, board: C, x: 30, y: 3, length: 940, width: 100, up: 1},
      {id: D1, board: D, x: 30, y: 3, length: 940, width: 100, up: 1}]}
  - {id: shelf, length: 900, width: 190, thickness: 20, strips: []}
sets:
  - {name: Pair, panels: [left, right], gap: 3}
`

// Of 2 x 190 mm the two streaks are 20 each where they lie at an outside edge of
// a door, as 5 of 25 come off there. To the outside of both doors is where
// sap-out wants them: A in front of the left one, D turned behind in the right
// one.
func TestArrangeSet(t *testing.T) {
	code, out, errs, _ := arrangeText(t, twoDoors, "--panel", "right", "--set", "--json")
	if code != Done || errs != "" {
		t.Fatalf("exit code %d, %s", code, errs)
	}
	var v foundJSON
	if err := json.Unmarshal([]byte(out), &v); err != nil {
		t.Fatal(err)
	}
	if v.Set == nil || *v.Set != "Pair" || strings.Join(v.Panels, " ") != "left right" || v.Panel != "right" || !v.Best {
		t.Fatalf("set %v, panels %v, best %v", v.Set, v.Panels, v.Best)
	}
	best := v.Answers[0]
	if len(best.Panels) != 2 || len(best.Strips) != 2 {
		t.Fatalf("%+v", best)
	}
	front, rear := best.Panels[0].Strips[0], best.Panels[1].Strips[1]
	sap := func(l laidJSON) bool { return l.Board != nil && (*l.Board == "A" || *l.Board == "D") }
	if !sap(front) || !sap(rear) || front.Turned || !rear.Turned {
		t.Errorf("at the outsides lie %+v and %+v", front, rear)
	}
	if d := best.Light - 40.0/380; d > 1e-6 || d < -1e-6 || best.Streaks != 0 {
		t.Errorf("sapwood %.5f, by hand %.5f; %d streaks", best.Light, 40.0/380, best.Streaks)
	}
}

func TestArrangeSetWritesAndSays(t *testing.T) {
	code, out, errs, dir := arrangeText(t, twoDoors, "--panel", "left", "--set", "-o", "DIR/out.yaml")
	if code != Done || errs != "" {
		t.Fatalf("exit code %d, %s", code, errs)
	}
	for _, want := range []string{"set Pair (left, right) as one face", "left, front to back: ", "right, front to back: ", "none of these strips is better"} {
		if !strings.Contains(out, want) {
			t.Errorf("not said: %q in\n%s", want, out)
		}
	}
	data, err := os.ReadFile(filepath.Join(dir, "out.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := file.Read(data, "out.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if st := p.Panel("left").Strips[0]; st.Board != "A" && st.Board != "D" {
		t.Errorf("in front of the left door lies %s", st.ID)
	}
	if len(p.Kept)%2 != 0 || len(p.Kept) == 0 {
		t.Errorf("%d kept, one for each door of each other answer", len(p.Kept))
	}
}

func TestArrangeSetRefuses(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--panel", "shelf", "--set"}, "panel shelf is in no set"},
		{[]string{"--panel", "none", "--set"}, "no panel"},
		{[]string{"--panel", "left", "--set", "--spares"}, "do not go together"},
	} {
		code, _, errs, _ := arrangeText(t, twoDoors, c.args...)
		if code != Failed || !strings.Contains(errs, c.want) {
			t.Errorf("%v: exit code %d, %q", c.args, code, errs)
		}
	}
	// Without --set the panel alone is arranged, and no set is named.
	_, out, _, _ := arrangeText(t, twoDoors, "--panel", "left", "--json")
	var v foundJSON
	if err := json.Unmarshal([]byte(out), &v); err != nil || v.Set != nil || strings.Join(v.Panels, " ") != "left" {
		t.Errorf("set %v, panels %v, %v", v.Set, v.Panels, err)
	}
}
