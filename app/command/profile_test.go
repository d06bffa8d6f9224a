package command

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"
)

// Boards and panel of 20 and 16 mm: half of 1.5 mm for after glue-up comes off
// each face besides what is said. The panel's front edge lies 40 mm from the
// marked edge of its board.
const edged = `heartside: 1
name: Shelf
allowances: {kerf: 3, rest: 3, joint: 1.5, ends: 25, panel-edge: 5, after-glue: 1.5, snipe: 60, flaw-margin: 10}
boards:
  - {id: A, species: walnut-black, length: 1100, width: 240, thickness: 20, faces: {
      1: {zones: [{kind: sap, polygon: [[0, 0], [1100, 0], [1100, FIRST], [0, FIRST]]}]},
      2: {zones: [SECOND]}}}
panels:
  - id: shelf
    role: shelf
    length: 900
    width: 160
    thickness: 16
    PANEL
    strips: [{id: A1, board: A, x: 50, y: 35, length: 930, width: 170, up: 1STRIP}]
`

func edgedWith(first, second, panel, strip string) string {
	return strings.NewReplacer("FIRST", first, "SECOND", second, "PANEL", panel, "STRIP", strip).Replace(edged)
}

// Sapwood on face 1 only, 65 mm: by the rule of distances the line lies 65 -
// 40 z/(20 - z) from the marked edge at depth z. 2 mm come off, so at v from the
// front edge the wood of a bevel of 24 x 2 mm lies z = 2 + 2 (1 - v/24) deep.
// Tried by hand, the line meets it at v = 19.640: z = 2.36333, 65 - 40 - 5.3600.
func TestCheckReadsABevel(t *testing.T) {
	yaml := edgedWith("65", "", "profiles: {front: {kind: bevel, across: 24, down: 2}}", "")
	_, out, errs := checkText(t, yaml, "--json")
	var r reportJSON
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err, errs)
	}
	p := r.Panels[0].Profiles
	if p.Front == nil || p.Back != nil || p.Left != nil || p.Right != nil {
		t.Fatalf("%+v", p)
	}
	for _, c := range []struct{ got, want, within float64 }{
		{p.Front.Light, 19.640 / 24, 0.004}, {p.Front.Unwanted, 19.640 / 24, 0.004},
		{p.Front.Width, 19.640 / 24 * math.Hypot(24, 2), 0.1},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%g, want %g", c.got, c.want)
		}
	}
	if p.Front.Guessed {
		t.Error("both faces are known")
	}
	_, out, _ = checkText(t, yaml)
	if !strings.Contains(out, "bevel at the front edge: 82 % light, 19.7 mm wide") {
		t.Error(out)
	}
	_, out, _ = checkText(t, edgedWith("65", "", "profiles: {left: {kind: round, across: 6, down: 4}}", ""))
	if !strings.Contains(out, "round-over at the left end: ") {
		t.Error(out)
	}
}

// Sapwood 40 mm wide on face 1, just beside the strip, and 80 mm on face 2, 20 mm
// below: 2.5 mm come off face 1 and half of 1.5 after glue-up. The chord at 3.25 mm
// has 6.5 mm of it in the strip, an arc of 90 mm, heart to the far side, 3.98: its
// centre lies 98.99 across and 67.98 above face 1, so y = 98.99 - sqrt(8100 -
// 71.23^2). The line that is drawn is to lie nearer to the arc than to the chord.
func TestCheckTellsWhatPlaningBrings(t *testing.T) {
	_, out, _ := checkText(t, edgedWith("40", "{kind: sap, polygon: [[0, 160], [1100, 160], [1100, 240], [0, 240]]}",
		"look: as-laid", ", off: {1: 2.5, 2: 0}"), "--json")
	var r reportJSON
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	found := false
	for _, w := range r.Panels[0].Warnings {
		if s, ok := strings.CutPrefix(w.Text, "Planing brings "); ok {
			got, rest, _ := strings.Cut(s, " ")
			mm, err := strconv.ParseFloat(got, 64)
			found = true
			if err != nil || math.Abs(mm-3.98) > 1 || !strings.HasPrefix(rest, "mm of sapwood into strip A1") {
				t.Error(w.Text)
			}
		}
	}
	if !found {
		t.Error(out)
	}
}
